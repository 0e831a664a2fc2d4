#include "join/walk.hpp"

#include <algorithm>
#include <cassert>

namespace ballchange::joining {
namespace {

constexpr Length hardly = Length::cm(1e-6);

std::size_t in_order(const Repeat& repeat, Direction direction, std::size_t section) {
  return direction == Direction::forward ? section : repeat.size() - 1 - section;
}

Length sum_of(const Repeat& repeat, std::size_t first, std::size_t count) {
  Length sum;
  for (std::size_t n = 0; n < count; ++n) sum += repeat.sections()[(first + n) % repeat.size()].length;
  return sum;
}

}  // namespace

Walk::Walk(const Repeat& repeat, const Strand& strand, Direction direction, Length reach)
    : repeat_(repeat), end_(strand.reading.end) {
  const Reading& reading = strand.reading;
  const std::size_t count = reading.entries.size();
  const std::size_t size = repeat.size();
  Length walked;
  for (std::size_t index = 0; index < count && index < strand.placing.why.size(); ++index) {
    const Explained& explained = strand.placing.why[index];
    Stretch stretch;
    stretch.first = in_order(repeat, direction, explained.sections.front());
    stretch.count = explained.sections.size();
    stretch.colour = repeat.colours()[reading.entries[index].colour].name;
    stretch.changes = index;
    const bool open = index + 1 == count && !reading.bar_at_open_end;
    stretch.change_seen = !open;
    stretch.starts_worked = reading.loose && index >= reading.hook_entry;
    stretch.mean = sum_of(repeat, stretch.first, stretch.count);
    if (!open) stretch.read = reading.entries[index].length;
    if (index == 0 && !reading.bar_at_loose_end && reading.entries[0].length && !open) stretch.mean = *stretch.read;
    // As the reading shows it; at its open end as the repeat goes on.
    const bool last = index + 1 == count;
    stretch.next = last ? beyond(stretch) : repeat.colours()[reading.entries[index + 1].colour].name;
    walked += stretch.mean;
    stretches_.push_back(std::move(stretch));
  }
  // Beyond the reading the repeat itself tells what comes.
  while (!stretches_.empty() && walked <= reach) {
    const Stretch& last = stretches_.back();
    Stretch stretch;
    stretch.first = end_ == End::new_end ? (last.first + last.count) % size : (last.first + size - 1) % size;
    stretch.colour = repeat.name_of(stretch.first);
    stretch.mean = repeat.sections()[stretch.first].length;
    stretch.changes = last.changes + 1;
    stretch.next = beyond(stretch);
    walked += stretch.mean;
    stretches_.push_back(std::move(stretch));
  }
}

// The colour that the repeat has further from the loose end.
const std::string& Walk::beyond(const Stretch& stretch) const {
  const std::size_t size = repeat_.size();
  return repeat_.name_of(end_ == End::old_end ? (stretch.first + size - 1) % size
                                              : (stretch.first + stretch.count) % size);
}

Walk::Cut Walk::cut(Length trim, const Tape& tape) const {
  assert(!stretches_.empty());
  Length before;  // on the repeat, passed so far
  Length on_strand;
  for (std::size_t index = 0;; ++index) {
    const Stretch& stretch = stretches_[index];
    const bool last = index + 1 == stretches_.size();
    if (last || trim - before < stretch.mean - hardly || (index == 0 && trim <= hardly)) {
      return mark_in(index, on_strand, std::min(trim - before, stretch.mean), tape);
    }
    before += stretch.mean;
    on_strand += stretch.read.value_or(stretch.mean);
  }
}

// On the old end a start that lies in the work, or further than was read, can't be measured from.
bool Walk::from_loose_end(const Stretch& stretch, bool into_work) const {
  return end_ == End::old_end && (!stretch.change_seen || (stretch.starts_worked && into_work));
}

Length Walk::gone(Length on_strand) const {
  assert(!stretches_.empty());
  if (on_strand <= hardly) return {};
  Length before;  // on the repeat, passed so far
  Length walked;  // the same on the strand
  for (std::size_t index = 0;; ++index) {
    const Stretch& stretch = stretches_[index];
    const Length length = stretch.read.value_or(stretch.mean);
    if (on_strand < walked + length - hardly || index + 1 == stretches_.size()) {
      if (from_loose_end(stretch, true)) return before + on_strand - walked;
      return before + stretch.mean - (walked + length - on_strand);
    }
    before += stretch.mean;
    walked += length;
  }
}

// `before`: yarn on the strand up to this stretch; `into`: from there on to the cut.
Walk::Cut Walk::mark_in(std::size_t index, Length before, Length into, const Tape& tape) const {
  const Stretch& stretch = stretches_[index];
  const Length kept = stretch.mean - into;  // to the change that bounds the yarn that is kept
  Cut cut;
  cut.kept = kept;
  cut.section = stretch.first;
  cut.mark.changes = stretch.changes;
  cut.mark.colour = stretch.colour;
  cut.mark.from = end_ == End::old_end ? MarkFrom::start : MarkFrom::end;
  cut.mark.distance = kept;
  cut.mark.seen = stretch.change_seen;
  cut.mark.next_colour = stretch.next;
  const Length on_strand = stretch.read.value_or(stretch.mean);
  // A section that came out shorter than usual may not reach as far as the mark.
  cut.markable = kept <= on_strand + hardly;
  cut.trim = before + std::max(Length(), on_strand - kept);
  if (from_loose_end(stretch, index > 0 || into > hardly)) {
    // Only the loose end itself is left to measure from, which does as well where no change lies between.
    cut.markable = index == 0;
    cut.mark.from = MarkFrom::loose_end;
    cut.mark.changes = 0;
    cut.mark.colour = stretches_.front().colour;
    cut.trim = before + into;
    cut.mark.distance = cut.trim;
    cut.mark.next_colour.clear();
  }
  const double error = tape.fixed.cm() + tape.share * cut.mark.distance.cm();
  cut.variance = error * error;
  return cut;
}

}  // namespace ballchange::joining
