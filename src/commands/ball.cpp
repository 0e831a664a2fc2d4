#include "commands/ball.hpp"

#include <fmt/core.h>

#include <array>
#include <optional>
#include <string_view>

#include "base/scale.hpp"
#include "base/text.hpp"
#include "commands/ask.hpp"
#include "project/ball_ends.hpp"
#include "project/balls.hpp"
#include "project/first_stitch.hpp"
#include "project/offcuts.hpp"
#include "project/record.hpp"
#include "show/check_project.hpp"
#include "show/entry_text.hpp"
#include "show/offcuts.hpp"

namespace ballchange {
namespace {

constexpr std::array<OptionRow, 11> kBall{{
    {"ball", "ID", "its name (left out: the next free letter)"},
    {"mass", "G", "on the scale, like 50.2g"},
    {"dye-lot", "TEXT", "as its band says"},
    {"outside", "READING", "what its outer end shows from the loose end inward, @FILE or -"},
    {"inside", "READING", "what its inner end shows"},
    {"from", "outside|inside", "the end it is worked from (outside)"},
    {"wound", "mill|hand", "how it was wound (mill)"},
    {"plain", "", "a second yarn of one colour"},
    {"length", "L", "yarn in it (left out: by its mass, or the yarn's ball band)"},
    {"offcut", "N", "it is the piece that was cut off at entry N"},
    {"cut-from", "old|new", "which end that was, where entry N left two"},
}};
constexpr OptionGroup kBallGroup{"The ball", kBall};

constexpr std::array<OptionRow, 3> kBegin{{
    {"begin", "", "the work begins with it"},
    {"trim-new", "L", "yarn at its end that stays out of the work"},
    {"first-stitch", "PLACE", "or: where the first stitch is to lie, like \"2 before rust ends\""},
}};
constexpr OptionGroup kBeginGroup{"Beginning the work", kBegin};

constexpr std::array<OptionRow, 2> kPlacing{{
    {"sure", "95%", "how sure a place must be"},
    {"tape", "\"0.5 cm + 1 %\"", "how far off your measuring may be"},
}};
constexpr OptionGroup kPlacingGroup{"Its readings", kPlacing};

void refuse_what_cannot_be(const Options& options) {
  if (!options.has("begin")) {
    for (const char* name : {"trim-new", "first-stitch"}) {
      if (options.has(name)) refuse(fmt::format("--{} tells how the work begins: give --begin too", name));
    }
  }
  if (options.has("trim-new") && options.has("first-stitch")) {
    refuse("--trim-new and --first-stitch exclude each other: the place of the first stitch gives the trim");
  }
  if (options.text("outside") == "-" && options.text("inside") == "-") {
    refuse("only one of --outside and --inside can come from standard input; give the other as @FILE");
  }
  if (options.has("cut-from") && !options.has("offcut")) {
    refuse("--cut-from says which end an offcut was cut off: give --offcut too");
  }
  if (options.has("offcut")) {
    for (const char* name : {"mass", "plain", "begin"}) {
      if (options.has(name))
        refuse(fmt::format("--{} can't go with --offcut, a piece of a ball that was begun before; leave it out", name));
    }
  }
  if (options.has("plain") && (options.has("outside") || options.has("inside") || options.has("begin"))) {
    refuse("--plain: a ball of one colour has no repeat to read or to begin with; leave the rest out");
  }
}

// One in stitches without the yarn per stitch is refused where it is recorded.
void refuse_no_ball_of(const Amount& told, const Ruler& ruler) {
  const bool counts = told.unit == Unit::st ? ruler.in_stitches || ruler.yarn_per_stitch : !ruler.in_stitches;
  if (!counts) return;
  const Length length = to_length({told.number, told.unit}, ruler, "--length");
  if (length < kShortestBall) refuse("--length: a ball holds more than nothing; leave it out where it isn't known");
  if (length > kLongestBall) {
    refuse(fmt::format("--length: a ball holds at most {}; tell the length of one",
                       ruler.in_stitches ? "500 000 st" : "5000 m"));
  }
}

did::Ball ball_told(const Options& options, const Ruler& ruler) {
  did::Ball ball;
  ball.ball = std::string(trim(options.text("ball").value_or("")));
  if (options.has("ball") && ball.ball.empty()) refuse("--ball: a ball's name can't be empty; write one, like A");
  if (const auto mass = options.text("mass")) {
    ball.mass = parse_mass(*mass, "--mass");
    ball.scale = step_typed(*mass);
    if (*ball.mass < kLightestBall) refuse("--mass: a ball weighs more than nothing");
    if (*ball.mass > kHeaviestBall) refuse("--mass: a ball weighs at most 5 kg; tell the mass of one");
  }
  ball.dye_lot = options.text("dye-lot");
  if (options.has("from")) {
    ball.from = choice(options, "from", BallEnd::outside, {{"outside", BallEnd::outside}, {"inside", BallEnd::inside}});
  }
  if (options.has("wound")) {
    ball.wound = choice(options, "wound", Winding::mill, {{"mill", Winding::mill}, {"hand", Winding::hand}});
  }
  ball.plain = options.has("plain");
  ball.length = amount_option(options, "length", ruler.bare);
  if (ball.length) refuse_no_ball_of(*ball.length, ruler);
  ball.offcut = count_option(options, "offcut", 1);
  ball.cut_from = cut_from_option(options);
  return ball;
}

// The ball as it will be, as far as its ends matter.
BallState as_it_will_be(const State& state, const did::Ball& told) {
  const BallState* there = state.find_ball(told.ball);
  BallState ball = there == nullptr ? BallState() : *there;
  if (told.outside) ball.outside = told.outside;
  if (told.inside) ball.inside = told.inside;
  if (told.from) ball.from = *told.from;
  if (told.wound) ball.wound = told.wound;
  return ball;
}

// Two names that differ only in capitals would be two balls, and the yarn on hand be counted twice.
void refuse_second_name(const State& state, const std::string& id) {
  if (id.empty() || state.find_ball(id) != nullptr) return;
  const BallState* near = ball_written_like(state, id);
  if (near == nullptr) return;
  refuse(fmt::format("--ball: there is no ball {}; did you mean {}? A new ball needs a name of its own",
                     printable(id, 60), printable(near->id, 60)));
}

void refuse_reading_of_plain(const State& state, const Options& options, const std::string& id) {
  const BallState* ball = state.find_ball(id);
  if (ball == nullptr || !ball->plain) return;
  for (const char* name : {"outside", "inside", "begin"}) {
    if (!options.has(name)) continue;
    refuse(fmt::format("--{0}: ball {1} is of one colour and has no repeat to read or to begin with; leave --{0} out",
                       name, printable(id, 60)));
  }
}

// An end that a join ahead holds is not loose.
void refuse_joined_end(const State& state, const did::Ball& told) {
  for (const JoinState& join : state.joins) {
    if (join.held != JoinHeld::ahead || join.knot) continue;
    const bool behind = join.new_ball == told.ball;
    const BallState* ball = behind || join.old_ball == told.ball ? state.find_ball(told.ball) : nullptr;
    if (ball == nullptr || (!behind && ball->use != BallUse::joined_ahead)) continue;
    const bool outside = (ball->from == BallEnd::outside) == behind;
    if (!(outside ? told.outside : told.inside)) continue;
    const std::string where = join.place ? " at " + place_words(join, state.fabric.working) : std::string();
    refuse(
        fmt::format("--{0}: the {0} end of ball {1} is joined ahead{2}, not loose; leave --{0} out, or cut that join "
                    "out first with a join to another ball",
                    end_name(outside ? BallEnd::outside : BallEnd::inside), printable(told.ball, 60), where));
  }
}

// A ball that is there already and of which nothing new is told only begins the work.
std::vector<Did> entries_for(const Options& options, did::Ball ball, const std::optional<Amount>& trim,
                             const State& state) {
  refuse_second_name(state, ball.ball);
  if (ball.ball.empty()) ball.ball = next_name(state);
  did::Ball nothing_new;
  nothing_new.ball = ball.ball;
  const bool begin = options.has("begin");
  std::vector<Did> entries;
  if (!begin || ball != nothing_new || state.find_ball(ball.ball) == nullptr) entries.emplace_back(ball);
  if (begin) entries.emplace_back(did::Begin{ball.ball, trim});
  return entries;
}

// As recording would, with nothing locked or written.
void refuse_what_does_not_fit(const OpenProject& open, const Options& with, const Context& context) {
  Options dry = with;
  dry.add("dry-run", {});
  static_cast<void>(record(open, dry, context, [&](const Project& project, const State& state) {
    did::Ball ball = ball_told(with, measures_of(with, project, state).ruler);
    refuse_second_name(state, ball.ball);
    if (ball.ball.empty()) ball.ball = next_name(state);
    std::vector<Did> entries{ball};
    if (with.has("begin")) entries.emplace_back(did::Begin{ball.ball, {}});
    return entries;
  }));
}

std::string offcut_ball_line(const Recorded& recorded, Told told, std::size_t columns) {
  const auto& entry = std::get<did::Ball>(recorded.entries().front().what);
  const BallState& ball = *recorded.after.find_ball(entry.ball);
  const auto offcut = offcuts::placed(recorded.after, ruler_on_record(recorded.after.ruler, recorded.project), ball);
  return labelled("Offcut", offcut_ball_text(recorded.after, ball, offcut, told), columns);
}

// An end that is in the work already: its reading tells of the yarn, and nothing of what comes.
std::string worked_end_line(const State& state, const did::Ball& told, std::size_t columns) {
  const BallState* ball = state.find_ball(told.ball);
  if (ball == nullptr || ball->use == BallUse::fresh) return {};
  const auto gone = [&](BallEnd end) { return ball->use == BallUse::used_up || end == ball->from; };
  const bool outside = told.outside && gone(BallEnd::outside), inside = told.inside && gone(BallEnd::inside);
  if (!outside && !inside) return {};
  const std::string ends = outside && inside ? "both ends of" : outside ? "the outside end of" : "the inside end of";
  return labelled("Mind",
                  fmt::format("{} ball {} {} in the work already: the reading is kept for \"measure\" and counts for "
                              "nothing else.",
                              ends, printable(told.ball, 40), outside && inside ? "are" : "is"),
                  columns);
}

std::string lot_line(const Recorded& recorded, std::size_t columns) {
  const auto* told = std::get_if<did::Ball>(&recorded.entries().front().what);
  const BallState* ball = told == nullptr ? nullptr : recorded.after.find_ball(told->ball);
  const auto lot = ball == nullptr ? std::nullopt : other_lot(recorded.after, *ball);
  return lot ? labelled("Dye lot", other_lot_text(*lot), columns) : std::string();
}

}  // namespace

std::vector<OptionGroup> ball_options() {
  return {kBallGroup, kBeginGroup, kPlacingGroup, writing_options(), common_options()};
}

// Long: one step after another, each of which may end it.
Outcome run_ball(const Options& given, Context& context) {
  const Common common = common_of(given, context);
  refuse_what_cannot_be(given);
  const OpenProject open = open_project(with_project(given, context, common), context);
  const BallAsked asked = with_ball(open, given, context, common, next_name(open.state), [&](const Options& with) {
    refuse_what_does_not_fit(open, with, context.muted());
  });
  const Options& options = asked.options;
  if (asked.nothing_new) {
    tell_nothing_recorded(open.state, {}, context, common);
    return Outcome::done;
  }
  const Measures measures = measures_of(options, open.project, open.state);
  did::Ball ball = ball_told(options, measures.ruler);
  const MatchOptions match = placing_options(options, measures);
  BallEnds ends(open, measures, match, common.screen.text_columns());
  ends.leave_unasked(asked.outside, asked.inside);
  ball.outside = ends.read(options, BallEnd::outside, context);
  ball.inside = ends.read(options, BallEnd::inside, context);
  refuse_reading_of_plain(open.state, options, ball.ball);
  refuse_joined_end(open.state, ball);
  const BallState then = as_it_will_be(open.state, ball);
  if (!ends.place(then, {ball.outside.has_value(), ball.inside.has_value()})) {
    tell_nothing_recorded(open.state, ends.lines(), context, common);
    return Outcome::settles_nothing;
  }
  std::string lines = ends.lines();
  std::optional<Amount> trim = amount_option(options, "trim-new", measures.ruler.bare);
  if (const auto place = options.text("first-stitch")) {
    const FirstStitch first = first_stitch(*place, open, measures, match, then);
    const std::string line = labelled("Begin", first.text, common.screen.text_columns());
    if (!first.trim) {
      tell_nothing_recorded(open.state, lines + line, context, common);
      return Outcome::settles_nothing;
    }
    trim = first.trim;
    lines += line;
  }
  const Recorded recorded = record(open, options, context, [&](const Project&, const State& state) {
    return entries_for(options, ball, trim, state);
  });
  if (ball.offcut) lines += offcut_ball_line(recorded, measures.told, common.screen.text_columns());
  lines += worked_end_line(open.state, ball, common.screen.text_columns());
  if (ball.dye_lot) lines += lot_line(recorded, common.screen.text_columns());
  tell_recorded(recorded, lines, options, context, common);
  return Outcome::done;
}

}  // namespace ballchange
