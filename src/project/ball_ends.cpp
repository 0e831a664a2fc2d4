#include "project/ball_ends.hpp"

#include <fmt/core.h>

#include "base/text.hpp"
#include "creep/follow.hpp"
#include "creep/stretch.hpp"
#include "files/source.hpp"
#include "show/creep.hpp"
#include "show/entry_text.hpp"
#include "show/place.hpp"

namespace ballchange {
namespace {

std::string settled_text(const PlaceShown& shown, Worked worked, Told told) {
  const Placing& placing = shown.placing;
  // From the end that is worked last, the strand runs against the work: as it should.
  const bool as_expected = worked == Worked::other_end && placing.best().direction == Direction::backward;
  const std::string place = as_expected ? best_place_text(shown, told) : best_candidate_text(shown, told);
  std::string text = fmt::format("{}, give or take {}.", place, give_or_take(doubt_of(placing), told));
  if (placing.ask) text += " But " + question_text(*placing.ask, shown);
  return text;
}

}  // namespace

Reading recorded_reading(const OpenProject& open, const std::string& text, BallEnd end) {
  Palette palette{open.state.yarn.repeat.colours(), false};
  return parse_reading(text, End::new_end, palette, open.state.ruler, end_name(end));
}

std::optional<std::string> BallEnds::read(const Options& options, BallEnd end, const Context& context) const {
  const std::string name(end_name(end));
  const auto argument = options.text(name);
  if (!argument) return std::nullopt;
  const std::string text = reading_text(*argument, context.disk, context.in, "--" + name);
  Palette palette{open_.state.yarn.repeat.colours(), false};
  const Reading reading = parse_reading(text, End::new_end, palette, measures_.ruler, "--" + name);
  if (measures_.ruler.bare == open_.state.ruler.bare) return std::string(trim(text));
  return format_reading(reading, palette.colours, open_.state.ruler);
}

// What its whole sections say of the ball's repeat.
std::string BallEnds::longer_said(const PlaceShown& shown) const {
  const auto longer = creeping::longer_by(shown.yarn, shown.reading, shown.placing, match_.tape);
  if (!longer || !longer->tells()) return {};
  return " Mind: " +
         longer_text(*longer, shown.yarn.repeat.total(), open_.state.fabric.yarn_per_stitch, measures_.told);
}

bool BallEnds::place(const BallState& ball, Which which) {
  const bool outside = !which.outside || place_end(ball, BallEnd::outside);
  const bool inside = !which.inside || place_end(ball, BallEnd::inside);
  return outside && inside;
}

bool BallEnds::place_end(const BallState& ball, BallEnd end) {
  const std::string& text = end == BallEnd::outside ? *ball.outside : *ball.inside;
  const Reading reading = recorded_reading(open_, text, end);
  const MatchOptions expects = expected(match_, ball, end);
  Placing placing = place_reading(open_.state.yarn, reading, expects);
  ballchange::leave_unasked(end == BallEnd::outside ? said_no_outside_ : said_no_inside_, End::new_end, placing);
  const std::string called = fmt::format("{} end", inner_or_outer(end));
  const PlaceShown shown{open_.state.yarn, reading, placing, called};
  const std::string_view label = end == BallEnd::outside ? "Outside" : "Inside";
  switch (placing.verdict) {
    case Verdict::settled:
      lines_ += labelled(label, settled_text(shown, expects.worked, measures_.told) + longer_said(shown), columns_);
      return true;
    case Verdict::unsettled:
      lines_ += labelled(label, "can't tell yet: " + what_would_settle(shown, measures_.told), columns_);
      return true;
    case Verdict::no_fit:
      break;
  }
  lines_ += labelled(label, "fits nowhere on the repeat: " + misfit_text(shown, measures_.told), columns_);
  return false;
}

}  // namespace ballchange
