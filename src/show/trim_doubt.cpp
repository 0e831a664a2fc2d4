#include "show/trim_doubt.hpp"

#include <algorithm>
#include <cmath>

#include "picture/inward.hpp"

namespace ballchange {
namespace {

// Sections on a ball that as a whole is stretched, too.
class Sum {
 public:
  explicit Sum(const Yarn& yarn) : yarn_(yarn) {}
  void add(const Section& section) {
    length_ += section.length;
    variance_ += section.plus_minus.cm() * section.plus_minus.cm();
  }
  [[nodiscard]] Length length() const { return length_; }
  [[nodiscard]] Length doubt() const { return Length::cm(std::hypot(std::sqrt(variance_), stretched())); }

 private:
  [[nodiscard]] double stretched() const { return yarn_.ball_plus_minus * length_.cm(); }

  const Yarn& yarn_;
  Length length_;
  double variance_ = 0;
};

}  // namespace

Length trim_doubt(const CheckShown& shown, const Join& join, End end) {
  const Strand& strand = end == End::old_end ? shown.old_strand : shown.new_strand;
  const Mark& mark = end == End::old_end ? join.old_mark : join.new_mark;
  const std::vector<Entry>& entries = strand.reading.entries;
  if (shown.yarn == nullptr || strand.placing.candidates.empty() || !mark.changes) return {};
  const Explained* last = explained(strand.placing, entries.size() - 1);
  if (last == nullptr) return {};
  const Inward inward(shown.yarn->repeat, strand);
  Sum unseen(*shown.yarn);
  // The section of the mark counts too where its change must first be pulled out.
  const std::size_t crossed = *mark.changes + (mark.seen ? 0 : 1);
  for (std::size_t i = 0; i < std::min(crossed, entries.size()); ++i) {
    const bool open = i + 1 == entries.size() && !strand.reading.bar_at_open_end;
    const Explained* why = explained(strand.placing, i);
    if (why == nullptr || (entries[i].length && !open)) continue;
    for (const std::size_t k : why->sections) unseen.add(inward.section(k));
  }
  std::size_t k = inward.sections(*last).back();
  for (std::size_t i = entries.size(); i < crossed; ++i) {
    k = inward.next(k);
    unseen.add(inward.section(k));
  }
  return unseen.doubt();
}

Length discard_doubt(const CheckShown& shown, const Join& join) {
  return Length::cm(std::hypot(trim_doubt(shown, join, End::old_end).cm(), trim_doubt(shown, join, End::new_end).cm()));
}

Length unseen_doubt(const CheckShown& shown, Length length) {
  const Length seen = shown.old_strand.reading.measured() + shown.new_strand.reading.measured();
  if (shown.yarn == nullptr || length <= seen) return {};
  Sum all(*shown.yarn);
  for (const Section& section : shown.yarn->repeat.sections()) all.add(section);
  return all.doubt() * std::min(1.0, length / all.length());
}

}  // namespace ballchange
