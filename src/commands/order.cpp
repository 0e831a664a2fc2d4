#include "commands/order.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <array>
#include <functional>
#include <map>
#include <numeric>
#include <set>

#include "base/problem.hpp"
#include "base/text.hpp"
#include "console/join_options.hpp"
#include "console/place_word.hpp"
#include "plan/order.hpp"
#include "project/advise_project.hpp"
#include "project/laying.hpp"
#include "project/two_ends.hpp"
#include "show/text.hpp"

namespace ballchange {
namespace {

constexpr std::size_t kMostBalls = 1000;

constexpr std::array<OptionRow, 5> kRows{{
    {"yarn", "PROFILE", "the yarn, where there is no project"},
    {"ends", "\"A: READING / READING\"", "a ball: the end it is worked from / its other end, or @FILE", true},
    {"first", "PLACE", "where the first stitch is to be, as \"rust 26\""},
    {"foundation", "L", "yarn in the foundation, before that stitch"},
    {"need", "L", "yarn the work still needs, when there may be balls to spare; otherwise all are put in order"},
}};
constexpr OptionGroup kGroup{"The balls", kRows};

// All that is known before anything is placed.
struct Case : BallsTold {
  std::optional<TwoEnds> on_hook;  // its finish is what the first ball is joined to
  Length out_of_step;
  Length still_on_hook;  // yarn of the strand in the work, not worked yet
  std::optional<Length> foundation;
  std::optional<Length> rows_need;               // yarn the rows yet to be made take, as far as the record tells
  std::map<std::string, std::string> lots = {};  // the dye lots known, by ball
  std::optional<PlacedBall> on_hook_cut = {};    // the finish of an offcut on the hook, which need not be read
  std::string path = {};                         // of the project
};

Case from_profile(const Options& options, const Context& context, const Common& common) {
  if (!options.has("yarn") || !options.has("ends")) {
    throw Problem(Fault::content,
                  "order needs a project, or a yarn and its balls: --yarn PROFILE --ends \"A: plum 15, "
                  "sand 11, rust / navy 20, moss\"");
  }
  Case given{told_without_project(options, context, common), {}, {}, {}, {}, {}};
  given.balls = parse_all_ends(options.texts("ends"), given.yarn, context);
  return given;
}

// The last ball on the strand in the work.
std::optional<std::size_t> last_on_strand(const State& state) {
  std::optional<std::size_t> last = state.working;
  for (const JoinState& join : state.joins) {
    if (join.held != JoinHeld::ahead) continue;
    for (std::size_t k = 0; k < state.balls.size(); ++k) {
      if (state.balls[k].id == join.new_ball && state.balls[k].use == BallUse::joined_ahead) last = k;
    }
  }
  return last;
}

Case from_project(const Options& options, const Context& context) {
  for (const char* name : {"yarn", "ends"}) {
    if (options.has(name)) {
      throw Problem(Fault::content, fmt::format("--{} is for balls without a project; add them to this one with: "
                                                "ballchange ball",
                                                name));
    }
  }
  const OpenProject open = open_project(options, context);
  const State& state = open.state;
  Case given{told_by(open, options), {}, {}, {}, {}, state.left.needed};
  given.path = open.path;
  if (const auto& made = open.project.piece.foundation) {
    given.foundation = to_length({made->number, made->unit}, state.ruler, "foundation");
  }
  const auto ends = [&](const BallState& ball) {
    return recorded_ends(ball, options, state.yarn, given.written, context);
  };
  for (const BallState& ball : state.balls) {
    if (ball.plain) continue;
    if (ball.dye_lot) given.lots.emplace(ball.id, *ball.dye_lot);
    if (ball.use == BallUse::fresh && !ball.offcut) given.balls.push_back(ends(ball));
    if (ball.use == BallUse::working || ball.use == BallUse::joined_ahead)
      given.still_on_hook += ball.left.value_or(Length());
  }
  if (const auto last = last_on_strand(state)) {
    given.on_hook = ends(state.balls[*last]);
    given.on_hook->start.reset();
    given.on_hook_cut = finish_as_cut(state, given.written.ruler, state.balls[*last]);
    given.out_of_step = state.totals.running_shift.value_or(Length());
  }
  return given;
}

void refuse_bad_balls(const Case& given) {
  if (given.balls.empty()) {
    throw Problem(Fault::content, "no ball is left to put in order; add the fresh ones with ball");
  }
  if (given.balls.size() > kMostBalls) {
    throw Problem(Fault::content, fmt::format("{} balls are too many; {} at most", given.balls.size(), kMostBalls));
  }
  std::set<std::string> ids;
  for (const TwoEnds& ball : given.balls) {
    if (!ids.insert(ball.id).second) {
      throw Problem(Fault::content,
                    fmt::format("ball {} is listed twice; give each its own name", printable(ball.id, 40)));
    }
  }
}

std::optional<Length> foundation_of(const Case& given, const Options& options) {
  const auto told = length_option(options, "foundation", given.measures.ruler);
  return told ? told : given.foundation;
}

void begin(Laying& laying, const Case& given, const Options& options, std::vector<OpenEnd>& open) {
  const auto first = options.text("first");
  if (!first && options.has("foundation")) {
    throw Problem(Fault::content, "--foundation goes with what the first stitch is to be: --first rust");
  }
  if (!given.on_hook) {
    if (!first) return;
    const Length wanted = parse_place(*first, given.yarn.repeat, given.measures.ruler, "--first");
    laying.begins_at(wanted - foundation_of(given, options).value_or(Length()));
    return;
  }
  if (first) {
    throw Problem(Fault::content, "--first is for work that has not begun; this one goes on from the ball in work");
  }
  PlacedBall placed;
  if (given.on_hook->finish) {
    placed = placed_ball(*given.on_hook, given.yarn, given.written, given.match, open);
  } else if (given.on_hook_cut) {
    placed = *given.on_hook_cut;
  }
  laying.goes_on_from(placed.finish, placed.direction.value_or(Direction::forward), given.out_of_step);
}

// Yarn the work still needs, from --need.
std::optional<Length> needed_by(const Case& given, const Options& options) {
  const auto needed = length_option(options, "need", given.measures.ruler);
  if (!needed) return std::nullopt;
  if (*needed <= Length()) {
    throw Problem(Fault::content, "--need: nothing needs no ball; tell how much the work still takes, like 800m");
  }
  if (*needed <= given.still_on_hook) {
    throw Problem(Fault::content,
                  fmt::format("--need: the yarn in the work holds {} more, so no further ball is needed for {}",
                              amount(given.still_on_hook, given.measures.told), amount(*needed, given.measures.told)));
  }
  for (const TwoEnds& ball : given.balls) {
    if (ball.yarn) continue;
    throw Problem(Fault::content, fmt::format("--need: how much yarn is on ball {} is not known; the profile's "
                                              "`ball: {{mass: 50 g, length: {}}}` tells it",
                                              printable(ball.id, 40),
                                              given.yarn.reckoning == Reckoning::stitches ? "6000 st" : "125 m"));
  }
  return needed;
}

// On each ball, the most first; nothing where one isn't known.
std::optional<std::vector<Length>> known_yarn(const Case& given) {
  std::vector<Length> yarn;
  for (const TwoEnds& ball : given.balls) {
    if (!ball.yarn) return std::nullopt;
    yarn.push_back(*ball.yarn);
  }
  std::sort(yarn.begin(), yarn.end(), std::greater<>());
  return yarn;
}

// What all together lack, even if nothing is cut off.
std::optional<Length> too_little(const Case& given, Length needed) {
  const auto yarn = known_yarn(given);
  if (!yarn) return std::nullopt;
  const Length held = std::accumulate(yarn->begin(), yarn->end(), given.still_on_hook);
  return held < needed ? std::optional(needed - held) : std::nullopt;
}

// That fewer balls may do, where all are put in order only because --need was not told.
std::optional<Fewer> fewer_of(const Case& given, const Options& options) {
  const auto yarn = known_yarn(given);
  if (options.has("need") || !given.rows_need || !yarn) return std::nullopt;
  Length held = given.still_on_hook;
  std::size_t balls = 0;
  while (balls < yarn->size() && held < *given.rows_need) held += (*yarn)[balls++];
  if (balls == yarn->size()) return std::nullopt;
  return Fewer{balls, *given.rows_need};
}

// The balls laid out, and what keeps some from it.
struct Laid {
  Laying laying;
  std::vector<OpenEnd> open;
};
Laid laid(const Case& given, const Options& options, std::optional<Length> needed) {
  Laid all{Laying(given), {}};
  begin(all.laying, given, options, all.open);
  for (const TwoEnds& ball : given.balls) all.laying.add(ball, all.open);
  if (needed) all.laying.needs(*needed - given.still_on_hook);
  return all;
}

// The balls that could be laid, and the names of the others.
struct Readable {
  Case rest;
  std::vector<std::string> left_out;
};
Readable readable(const Case& given, const std::vector<OpenEnd>& open) {
  Readable all{given, {}};
  std::erase_if(all.rest.balls, [&](const TwoEnds& ball) {
    const bool is_open = std::any_of(open.begin(), open.end(), [&](const OpenEnd& end) { return end.ball == ball.id; });
    if (is_open) all.left_out.push_back(ball.id);
    return is_open;
  });
  return all;
}

Outcome tell(const Case& given, const Options& options, const Laid& all, std::vector<std::string> left_out,
             const Context& context, const Common& common) {
  const plan::Best best = plan::best_order(all.laying.hand());
  const plan::Order listed = plan::as_listed(all.laying.hand());
  const plan::Order nearest = plan::nearest_next(all.laying.hand());
  OrderShown shown{given.yarn, all.laying.hand(), all.laying.balls(), best, listed, nearest, all.laying.method()};
  if (given.on_hook) shown.on_hook = given.on_hook->id;
  shown.fewer = fewer_of(given, options);
  if (!options.has("need") && given.rows_need) shown.too_little = too_little(given, *given.rows_need);
  shown.left_out = std::move(left_out);
  shown.lots = given.lots;
  shown.yarn_per_stitch = given.fabric.yarn_per_stitch;
  shown.foundation_untold = options.has("first") && !foundation_of(given, options);
  answer(context, common,
         common.format == Format::json ? order_json(shown) : order_screen(shown, common.screen, given.measures.told));
  return Outcome::done;
}

// The order of `some` of the balls, where they are enough.
struct Enough {
  Laid laid;
  plan::Best best;
};
std::optional<Enough> enough_of(const Readable& some, const Options& options, Length needed) {
  if (some.left_out.empty() || some.rest.balls.empty()) return std::nullopt;
  Laid rest = laid(some.rest, options, needed);
  plan::Best best = plan::best_order(rest.laying.hand());
  if (!rest.open.empty() || !best.enough) return std::nullopt;
  return Enough{std::move(rest), std::move(best)};
}

// How few of the balls that could be laid hold what the rows need.
std::optional<Fewer> instead_of(const Case& given, const Options& options, const std::vector<OpenEnd>& open) {
  if (options.has("need") || !given.rows_need || !known_yarn(given)) return std::nullopt;
  if (*given.rows_need <= given.still_on_hook) return Fewer{0, *given.rows_need};
  const Length told = parse_length(need_word(*given.rows_need, given.measures.told), given.measures.ruler, "--need");
  const Readable others = readable(given, open);
  const auto enough = enough_of(others, options, told);
  if (!enough) return std::nullopt;
  return Fewer{enough->best.order.balls.size(), *given.rows_need};
}

bool only_the_project(const Options& options) {
  for (const OptionGroup& group : order_options()) {
    for (const OptionRow& row : group.rows) {
      if (options.has(row.name)) return false;
    }
  }
  return true;
}

OpenEndsShown open_shown(const Case& given, const Options& options, std::vector<OpenEnd> open,
                         std::optional<Length> needed) {
  OpenEndsShown shown{std::move(open), given.balls.size(), given.measures.ruler.in_stitches};
  if (!needed) needed = given.rows_need;
  if (needed) shown.too_little = too_little(given, *needed);
  if (shown.too_little) shown.need = *needed - given.still_on_hook;
  if (!shown.too_little) shown.instead = instead_of(given, options, shown.ends);
  if (shown.instead && only_the_project(options)) {
    shown.command = fmt::format("ballchange order {} {}", typed_path(given.path),
                                need_option(shown.instead->need, given.measures.told));
  }
  return shown;
}

}  // namespace

std::vector<OptionGroup> order_options() { return {kGroup, joining_options(), reading_options(), common_options()}; }

Outcome run_order(const Options& options, Context& context) {
  const Common common = common_of(options, context);
  const bool without_project = options.words().empty() && (options.has("yarn") || options.has("ends"));
  const Case given = without_project ? from_profile(options, context, common) : from_project(options, context);
  refuse_bad_balls(given);
  const std::optional<Length> needed = needed_by(given, options);
  const Laid all = laid(given, options, needed);
  if (all.open.empty()) return tell(given, options, all, {}, context, common);
  if (needed) {
    // Where the others are enough, balls not read are left out.
    const Readable others = readable(given, all.open);
    if (const auto enough = enough_of(others, options, *needed)) {
      return tell(others.rest, options, enough->laid, others.left_out, context, common);
    }
  }
  const OpenEndsShown shown = open_shown(given, options, all.open, needed);
  answer(context, common,
         common.format == Format::json ? open_ends_json(shown)
                                       : open_ends_screen(shown, common.screen, given.measures.told));
  return Outcome::settles_nothing;
}

}  // namespace ballchange
