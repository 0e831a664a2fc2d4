#include "paper/strands_between.hpp"

#include <algorithm>

namespace ballchange {
namespace {

constexpr double kUpper = 0.3, kLower = 0.7;  // of the gap between the strands: the two lines of words in it
constexpr double kBeside = 1.5;

double in_gap(const BetweenStrands& between, double share) {
  return between.old_foot + (between.new_top - between.old_foot) * share;
}

bool right_of_overlap(const BetweenStrands& between, const std::string& words) {
  return between.overlap->to + kBeside + written_width(words) <= between.width;
}

}  // namespace

// The dry fit reaches from the old strand, at its left, to the new one, at its right. So words at the right of the
// overlap stand above its line, those at the left below it: there no upright line of it comes.
void draw_overlap(Drawing& drawing, const BetweenStrands& between, const StrandsOnPaper& words) {
  if (!between.overlap) return;
  const PaperSpan on = *between.overlap;
  drawing.rect(on.from, between.top, on.wide(), between.foot - between.top,
               "fill=\"currentColor\" fill-opacity=\".09\" stroke=\"currentColor\" stroke-width=\".5\" "
               "stroke-dasharray=\"2 1\"");
  const bool right = right_of_overlap(between, words.overlap);
  drawing.text(right ? on.to + kBeside : on.from - kBeside, in_gap(between, right ? kUpper : kLower) + kSink * kLetters,
               words.overlap, right ? "font-weight=\"bold\"" : "font-weight=\"bold\" text-anchor=\"end\"");
}

void draw_dry_fit(Drawing& drawing, const BetweenStrands& between, const StrandsOnPaper& words) {
  if (!between.fit || words.fit.empty()) return;
  const PaperSpan span = *between.fit;
  const bool below = !between.overlap || right_of_overlap(between, words.overlap);
  const double y = in_gap(between, below ? kLower : kUpper);
  drawing.line(span.from, between.old_foot, span.from, y + 1, "stroke=\"currentColor\" stroke-width=\".3\"");
  drawing.line(span.to, between.new_top, span.to, y - 1, "stroke=\"currentColor\" stroke-width=\".3\"");
  MeasuredRoom room{span, span, between.width};
  if (between.overlap && between.overlap->from < span.to && between.overlap->to > span.from) {
    const PaperSpan on = *between.overlap;
    const PaperSpan before{span.from, std::max(span.from, on.from)}, after{std::min(span.to, on.to), span.to};
    room = {before.wide() > after.wide() ? before : after,
            {std::min(span.from, on.from), std::max(span.to, on.to)},
            between.width};
  }
  measured_line(drawing, span, y, words.fit, room);
}

}  // namespace ballchange
