#include "join/walk.hpp"

#include <algorithm>
#include <cassert>
#include <utility>

#include "join/target.hpp"

namespace ballchange::joining {
namespace {

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
    Piece piece;
    piece.first = in_order(repeat, direction, explained.sections.front());
    piece.count = explained.sections.size();
    piece.colour = repeat.colours()[reading.entries[index].colour].name;
    piece.changes = index;
    piece.cut_short = index + 1 == count && strand.cut_short;
    const bool open = index + 1 == count && !reading.bar_at_open_end && !piece.cut_short;
    piece.change_seen = !open && !piece.cut_short;
    piece.starts_worked = reading.loose && index >= reading.hook_entry;
    piece.mean = sum_of(repeat, piece.first, piece.count);
    if (!open) piece.read = reading.entries[index].length;
    const bool begins_here = index == 0 && !reading.bar_at_loose_end && reading.entries[0].length && !open;
    if (begins_here || piece.cut_short) piece.mean = *piece.read;
    // As the reading shows it; at its open end as the repeat goes on.
    const bool last = index + 1 == count;
    piece.next = last ? beyond(piece) : repeat.colours()[reading.entries[index + 1].colour].name;
    walked += piece.mean;
    pieces_.push_back(std::move(piece));
  }
  // Beyond the reading the repeat itself tells what comes.
  while (!strand.cut_short && !pieces_.empty() && walked <= reach) {
    const Piece& last = pieces_.back();
    Piece piece;
    piece.first = end_ == End::new_end ? (last.first + last.count) % size : (last.first + size - 1) % size;
    piece.colour = repeat.name_of(piece.first);
    piece.mean = repeat.sections()[piece.first].length;
    piece.changes = last.changes + 1;
    piece.next = beyond(piece);
    walked += piece.mean;
    pieces_.push_back(std::move(piece));
  }
}

// The colour that the repeat has further from the loose end.
const std::string& Walk::beyond(const Piece& piece) const {
  const std::size_t size = repeat_.size();
  return repeat_.name_of(end_ == End::old_end ? (piece.first + size - 1) % size : (piece.first + piece.count) % size);
}

Walk::Cut Walk::cut(Length trim, const Tape& tape) const {
  assert(!pieces_.empty());
  Length before;  // on the repeat, passed so far
  Length on_strand;
  for (std::size_t index = 0;; ++index) {
    const Piece& piece = pieces_[index];
    const bool last = index + 1 == pieces_.size();
    if (last || trim - before < piece.mean - hardly || (index == 0 && trim <= hardly)) {
      return mark_in(index, on_strand, std::min(trim - before, piece.mean), tape);
    }
    before += piece.mean;
    on_strand += piece.read.value_or(piece.mean);
  }
}

// On the old end a start that lies in the work, or further than was read, can't be measured from; nor where an offcut
// was cut.
bool Walk::from_loose_end(const Piece& piece, bool into_work) const {
  if (piece.cut_short) return true;
  return end_ == End::old_end && (!piece.change_seen || (piece.starts_worked && into_work));
}

Length Walk::gone(Length on_strand) const {
  assert(!pieces_.empty());
  if (on_strand <= hardly) return {};
  Length before;  // on the repeat, passed so far
  Length walked;  // the same on the strand
  for (std::size_t index = 0;; ++index) {
    const Piece& piece = pieces_[index];
    const Length length = piece.read.value_or(piece.mean);
    if (on_strand < walked + length - hardly || index + 1 == pieces_.size()) {
      if (from_loose_end(piece, true)) return before + on_strand - walked;
      return before + piece.mean - (walked + length - on_strand);
    }
    before += piece.mean;
    walked += length;
  }
}

// `before`: yarn on the strand up to this piece; `into`: from there on to the cut.
Walk::Cut Walk::mark_in(std::size_t index, Length before, Length into, const Tape& tape) const {
  const Piece& piece = pieces_[index];
  const Length kept = piece.mean - into;  // to the change that bounds the yarn that is kept
  Cut cut;
  cut.kept = kept;
  cut.section = piece.first;
  cut.after = (piece.first + piece.count) % repeat_.size();
  cut.mark.changes = piece.changes;
  cut.mark.colour = piece.colour;
  cut.mark.from = end_ == End::old_end ? MarkFrom::start : MarkFrom::end;
  cut.mark.distance = kept;
  cut.mark.seen = piece.change_seen;
  cut.mark.next_colour = piece.next;
  const Length on_strand = piece.read.value_or(piece.mean);
  // A section that came out shorter than usual may not reach as far as the mark.
  cut.markable = kept <= on_strand + hardly;
  cut.trim = before + std::max(Length(), on_strand - kept);
  if (piece.cut_short && index > 0) {
    // No change bounds what is kept; the one passed last is as good.
    cut.mark.from = end_ == End::old_end ? MarkFrom::end : MarkFrom::start;
    cut.mark.distance = into;
    cut.mark.seen = true;
    cut.mark.next_colour = pieces_[index - 1].colour;
    cut.markable = true;
    cut.kept = -into;
    cut.trim = before + into;
  } else if (from_loose_end(piece, index > 0 || into > hardly)) {
    // Only the loose end itself is left to measure from, which does as well where no change lies between.
    cut.markable = index == 0;
    cut.mark.from = MarkFrom::loose_end;
    cut.mark.changes = 0;
    cut.mark.colour = pieces_.front().colour;
    cut.trim = before + into;
    cut.mark.distance = cut.trim;
    cut.mark.next_colour.clear();
  }
  const double error = tape.fixed.cm() + tape.share * cut.mark.distance.cm();
  cut.variance = error * error;
  return cut;
}

}  // namespace ballchange::joining
