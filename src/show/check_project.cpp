#include "show/check_project.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <iterator>
#include <set>
#include <string_view>
#include <utility>

#include "base/text.hpp"
#include "show/creep.hpp"
#include "show/entry_text.hpp"
#include "show/log.hpp"
#include "show/place.hpp"
#include "show/trim_doubt.hpp"

namespace ballchange {
namespace {

constexpr std::size_t kOthers = 5;  // told; JSON has them all

// As the ball would be worked by what was told of it, if it can be.
const BallAhead* ahead_of(const CheckProject& record, const std::string& ball) {
  const BallAhead* found = nullptr;
  for (const BallAhead& ahead : record.ahead) {
    if (ahead.ball == ball && (found == nullptr || !ahead.other_end)) found = &ahead;
  }
  return found;
}

// What is so much better in all that it is told, whoever chose the ball.
const BallAhead* told_ahead(const CheckProject& record) {
  const BallAhead* own = ahead_of(record, record.ball);
  if (own == nullptr || own->in_all() - record.ahead.front().in_all() < record.worth_telling) return nullptr;
  return &record.ahead.front();
}

// "64 cm less", "1.4 m more", "as much".
std::string more_or_less(Length difference, Told told, Length doubt) {
  if (is_nothing(difference, told)) return "as much";
  return fmt::format("{} {}", amount(abs(difference), told, doubt), difference > Length() ? "more" : "less");
}

std::string why_not(const BallNotRanked& ball) {
  switch (ball.why) {
    case BallNotRanked::Why::unread:
      return fmt::format("its {} end is yet to be read", end_name(ball.end));
    case BallNotRanked::Why::unsettled:
      return fmt::format("its {} end can't be told yet", end_name(ball.end));
    case BallNotRanked::Why::no_fit:
      return fmt::format("its {} end fits nowhere", end_name(ball.end));
    case BallNotRanked::Why::turned:
      break;
  }
  return fmt::format("its {} end runs the other way", end_name(ball.end));
}

std::string_view why_name(BallNotRanked::Why why) {
  switch (why) {
    case BallNotRanked::Why::unread:
      return "unread";
    case BallNotRanked::Why::unsettled:
      return "unsettled";
    case BallNotRanked::Why::no_fit:
      return "no-fit";
    case BallNotRanked::Why::turned:
      break;
  }
  return "turned";
}

void not_ranked_member(Json& json, const CheckProject& record) {
  json.key("not_ranked").array();
  for (const BallNotRanked& ball : record.not_ranked) {
    json.object().member("ball", ball.ball).member("end", end_name(ball.end)).member("why", why_name(ball.why));
    if (ball.why == BallNotRanked::Why::unread) json.member("mean", record.unread_mean);
    json.end();
  }
  json.end();
}

// What one never read may be expected to cost, against what is known.
std::string unread_text(const CheckShown& shown, Told told) {
  const auto& mean = shown.project->unread_mean;
  if (!mean) return {};
  std::string text = fmt::format(" A ball not read yet costs {} on average", amount(*mean, told, *mean / 10));
  const std::vector<Join>& joins = shown.advice.joins;
  const bool dear = shown.advice.verdict == JoinVerdict::cut && joins.front().discard &&
                    *joins.front().discard - *mean >= shown.project->worth_telling;
  return text + (dear ? ": read it before you cut." : ".");
}

// Where not all balls were weighed against each other, how many were.
std::string looked_at_text(const CheckProject& record) {
  if (record.ahead_left_out == 0) return {};
  std::set<std::string_view> compared;
  for (const BallAhead& ahead : record.ahead) compared.insert(ahead.ball);
  return fmt::format(" Only the {} that cost least now were compared, of {}.", compared.size(),
                     compared.size() + record.ahead_left_out);
}

// A fresh ball, or one taken from its other end, and what joining it so cuts off.
struct CostNow {
  BallCost ball;
  std::optional<BallEnd> turned;
};

const BallAhead* ahead_of(const CheckProject& record, const CostNow& cost) {
  for (const BallAhead& ahead : record.ahead) {
    if (ahead.ball == cost.ball.ball && ahead.other_end == cost.turned.has_value()) return &ahead;
  }
  return nullptr;
}

// Against the ball whose end is cut: the joins after it counted, where they are known.
Length saved_in_all(const CheckShown& shown, const CostNow& cost) {
  const CheckProject& record = *shown.project;
  const BallAhead* own = ahead_of(record, record.ball);
  const BallAhead* other = ahead_of(record, cost);
  const Length now = *shown.advice.joins.front().discard - cost.ball.discard;
  return own != nullptr && other != nullptr ? now + own->later - other->later : now;
}

// Now, by more than the tape gives or takes at both fresh ends, and not dearer in all.
bool is_cheaper(const CheckShown& shown, const CostNow& cost) {
  const std::vector<Join>& joins = shown.advice.joins;
  if (!joins.front().discard) return false;
  return *joins.front().discard - cost.ball.discard > 2 * doubt_of(shown.new_strand.placing) &&
         saved_in_all(shown, cost) > Length();
}

std::string end_words(const CostNow& cost) {
  const std::string ball = printable(cost.ball.ball, 40);
  return cost.turned ? fmt::format("{} from its {} end", ball, end_name(*cost.turned)) : ball;
}

// Cheapest first; of other ends those that save enough to turn the ball, but for the one that Ahead tells.
std::vector<CostNow> costs_now(const CheckShown& shown) {
  const CheckProject& record = *shown.project;
  std::vector<CostNow> costs;
  for (const BallCost& other : record.others) costs.push_back({other, std::nullopt});
  const BallAhead* told = told_ahead(record);
  for (const BallAhead& ahead : record.ahead) {
    if (!ahead.other_end || ahead.unread || &ahead == told) continue;
    const BallAhead* as_told = ahead_of(record, ahead.ball);
    if (as_told->other_end || as_told->now - ahead.now < record.worth_telling) continue;
    costs.push_back({{ahead.ball, ahead.now}, ahead.end});
  }
  std::stable_sort(costs.begin(), costs.end(),
                   [](const CostNow& a, const CostNow& b) { return a.ball.discard < b.ball.discard; });
  return costs;
}

std::string from_typed(const CheckProject& record, const std::string& ball, BallEnd end) {
  return fmt::format("ballchange ball {} --ball {} --from {}", typed_path(record.path), typed_path(ball),
                     end_name(end));
}

// "start ball C from its inside end"
std::string start_from(const BallAhead& ahead) {
  return fmt::format("start ball {} from its {} end", printable(ahead.ball, 40), end_name(ahead.end));
}

// No join comes after it.
bool is_last(const BallAhead& best, const BallAhead& own) { return best.later == Length() && own.later == Length(); }

// Another ball, or its other end, that costs so much less in all.
AndTyped better_ahead(const CheckShown& shown, const BallAhead& own, const BallAhead& best, Told told) {
  const CheckProject& record = *shown.project;
  const Length doubt = discard_doubt(shown, shown.advice.joins.front());
  const std::string ball = printable(best.ball, 40);
  const Length now = best.now - own.now;
  const Length later = best.later - own.later;
  const bool against = !is_nothing(now, told) && !is_nothing(later, told) && (now > Length()) != (later > Length());
  const std::string after = is_last(best, own) ? std::string()
                                               : fmt::format(", {} the joins after it {}", against ? "but" : "and",
                                                             more_or_less(later, told, doubt));
  const std::string now_words = more_or_less(now, told, doubt);
  const std::string looked_at = looked_at_text(record);
  if (best.unread) {
    return {
        fmt::format("ball {}, whose {}end is yet to be read, costs {} now on average{}: read it{}, and check again.{}",
                    ball, best.other_end ? "other " : "", now_words, after,
                    best.other_end ? " if it can be reached" : "", looked_at),
        best.other_end ? fmt::format("ballchange ball {} --ball {} --{} READING", typed_path(record.path),
                                     typed_path(best.ball), end_name(best.end))
                       : std::string()};
  }
  if (best.other_end) {
    return {fmt::format("ball {} from its {} end costs {} now{}.{} To start it there, tell so and check again:", ball,
                        end_name(best.end), now_words, after, looked_at),
            from_typed(record, best.ball, best.end)};
  }
  return {fmt::format("ball {} costs {} now{}: take it with --ball {}.{}", ball, now_words, after,
                      typed_path(best.ball), looked_at),
          {}};
}

void other_ends_member(Json& json, const CheckProject& record) {
  json.key("other_ends").array();
  for (const BallAhead& ahead : record.ahead) {
    if (!ahead.other_end || ahead.unread) continue;
    json.object().member("ball", ahead.ball).member("end", end_name(ahead.end)).member("discard", ahead.now);
    json.member("later", ahead.later).end();
  }
  json.end();
}

void later_member(Json& json, const CheckProject& record, const std::string& ball) {
  if (const BallAhead* ahead = ahead_of(record, ball)) json.member("later", ahead->later);
}

}  // namespace

const BallAhead* better_ball(const CheckProject& record) { return record.chosen ? told_ahead(record) : nullptr; }

std::string take_ball_text(const CheckShown& shown, Told told) {
  if (shown.project == nullptr || !shown.project->chosen) return {};
  const std::string& ball = shown.project->ball;
  const BallAhead* better = better_ball(*shown.project);
  if (better == nullptr) return fmt::format("Take ball {}. ", printable(ball, 40));
  const BallAhead* own = ahead_of(*shown.project, ball);
  const BallAhead& best = *better;
  const Length doubt = discard_doubt(shown, shown.advice.joins.front());
  const std::string id = printable(ball, 40);
  const bool same = best.ball == ball;
  const std::string with = same ? fmt::format("From its {} end: ", end_name(own->end)) : "With ball " + id + ": ";
  if (best.unread) {
    return fmt::format("Better read ball {}'s {}end first (see Ahead). {}", printable(best.ball, 40),
                       best.other_end ? "other " : "", with);
  }
  const std::string what = best.other_end ? start_from(best) : fmt::format("take ball {}", printable(best.ball, 40));
  const std::string now =
      more_or_less(best.now - own->now, told, doubt) +
      (same ? std::string() : (is_nothing(best.now - own->now, told) ? " as ball " : " than ball ") + id);
  if (is_last(best, *own)) return fmt::format("Better {}: {} (see Ahead). {}", what, now, with);
  const std::string in_all = more_or_less(best.in_all() - own->in_all(), told, doubt);
  return fmt::format("Better {}: {} now, {} in all (see Ahead). {}", what, now, in_all, with);
}

std::string waste_so_far_text(const CheckShown& shown, Told told) {
  if (shown.project == nullptr || is_nothing(shown.project->totals.waste, told)) return {};
  return fmt::format("Cut away so far {}.", waste_words(shown.project->totals, told));
}

Length saved_by_another(const CheckShown& shown) {
  if (shown.project == nullptr || better_ball(*shown.project) != nullptr) return {};
  const std::vector<CostNow> costs = costs_now(shown);
  const auto told =
      std::find_if(costs.begin(), costs.end(), [&](const CostNow& cost) { return is_cheaper(shown, cost); });
  return told == costs.end() ? Length() : *shown.advice.joins.front().discard - told->ball.discard;
}

std::string other_balls_lines(const CheckShown& shown, std::size_t columns, Told told) {
  if (shown.project == nullptr) return {};
  const bool cut = shown.advice.verdict == JoinVerdict::cut;
  const auto cut_off = [&](const BallCost& other) {
    return amount(other.discard, told, unseen_doubt(shown, other.discard));
  };
  std::string text;
  const Placing& old_end = shown.old_strand.placing;
  const bool old_settled = old_end.verdict == Verdict::settled && !old_end.ask;
  if (!cut && shown.project->chosen && old_settled) {
    text += labelled(
        "Ball",
        fmt::format("this is {}; no fresh ball can be joined as its end was read.", printable(shown.project->ball, 40)),
        columns);
  }
  std::vector<CostNow> costs = costs_now(shown);
  const auto best =
      std::find_if(costs.begin(), costs.end(), [&](const CostNow& cost) { return !cut || is_cheaper(shown, cost); });
  if (best != costs.end()) {
    const CostNow first = *best;
    costs.erase(best);
    text += labelled(cut ? "Cheaper" : "Instead",
                     fmt::format("ball {}, {} cut off.{}", end_words(first), cut_off(first.ball),
                                 first.turned ? " To start it there:" : ""),
                     columns);
    if (first.turned)
      text += std::string(kLabelWidth, ' ') + from_typed(*shown.project, first.ball.ball, *first.turned) + "\n";
  }
  std::vector<std::string> rest;
  for (std::size_t i = 0; i < costs.size() && rest.size() < kOthers; ++i) {
    rest.push_back(fmt::format("{} {}", end_words(costs[i]), cut_off(costs[i].ball)));
  }
  if (rest.empty()) return text;
  const std::size_t more = costs.size() - rest.size();
  const std::string tail = more > 0 ? fmt::format(", and {} more", more) : std::string();
  return text + labelled("Others", fmt::format("ball {}{}.", fmt::join(rest, ", "), tail), columns);
}

std::string not_ranked_text(const CheckShown& shown, Told in) {
  if (shown.project == nullptr) return {};
  const CheckProject& record = *shown.project;
  if (!record.chosen && record.others.empty()) return {};
  std::vector<std::string> told;
  std::size_t more = 0;
  for (const BallNotRanked& ball : record.not_ranked) {
    // One that came apart has its own line.
    if (std::count(record.came_apart.begin(), record.came_apart.end(), ball.ball) > 0) continue;
    if (told.size() == kOthers) {
      ++more;
      continue;
    }
    told.push_back(fmt::format("{}{} ({})", told.empty() ? "ball " : "", printable(ball.ball, 40), why_not(ball)));
  }
  if (told.empty()) return {};
  return fmt::format("{}{}.{}", fmt::join(told, ", "), more > 0 ? fmt::format(", and {} more", more) : std::string(),
                     unread_text(shown, in));
}

std::optional<AndTyped> ahead_told(const CheckShown& shown, Told told) {
  if (shown.project == nullptr || shown.advice.verdict != JoinVerdict::cut) return std::nullopt;
  const BallAhead* own = ahead_of(*shown.project, shown.project->ball);
  if (own == nullptr) return std::nullopt;
  if (const BallAhead* best = told_ahead(*shown.project)) return better_ahead(shown, *own, *best, told);
  if (!own->follows) return std::nullopt;
  return AndTyped{fmt::format("ball {} follows with nothing to cut off.", printable(*own->follows, 40)), {}};
}

std::optional<AndTyped> offcut_offer(const CheckShown& shown, Told told) {
  if (shown.project == nullptr || !shown.project->bridge) return std::nullopt;
  const BridgeShown& offer = *shown.project->bridge;
  const offcuts::Bridge& bridge = offer.bridge;
  const bool is_ball = !offer.ball.empty();
  const std::string piece = fmt::format("the {} cut off at entry {}", amount(offer.length, told), offer.entry);
  const std::string which =
      is_ball ? fmt::format("ball {}, {}, fits", printable(offer.ball, 40), piece) : piece + " fit";
  const std::string cut = is_nothing(bridge.discard, told)
                              ? "nothing more to cut off"
                              : fmt::format("{} to cut off in all", amount(bridge.discard, told));
  const std::string where =
      offer.before.empty() ? "between" : fmt::format("before ball {}", printable(offer.before, 40));
  const std::string& advised = shown.project->ball;
  const std::string against =
      offer.before.empty() || advised.empty() ? std::string() : fmt::format(" against ball {}", printable(advised, 40));
  AndTyped told_so;
  told_so.text = fmt::format("{} {}: {}, {} saved{}, its second join counted. ", which, where, cut,
                             amount(offer.saves, told), against);
  if (is_ball) {
    told_so.text += "Check again with:";
    told_so.typed = fmt::format("--ball {}", typed_path(offer.ball));
    return told_so;
  }
  told_so.text += "Make a ball of it and check with that:";
  told_so.typed = fmt::format("ballchange ball {} --offcut {}", typed_path(offer.path), offer.entry);
  if (offer.cut_from) told_so.typed += fmt::format(" --cut-from {}", cut_from_name(*offer.cut_from));
  if (bridge.other_end) told_so.typed += " --from inside";
  return told_so;
}

void others_member(Json& json, const CheckShown& shown) {
  if (shown.project != nullptr) {
    const std::string& ball = shown.project->ball;
    json.member("ball", ball.empty() ? std::nullopt : std::optional(ball));
    later_member(json, *shown.project, ball);
  }
  json.key("others").array();
  if (shown.project != nullptr) {
    for (const BallCost& other : shown.project->others) {
      json.object().member("ball", other.ball).member("discard", other.discard);
      later_member(json, *shown.project, other.ball);
      json.end();
    }
  }
  json.end();
  if (shown.project == nullptr) return;
  const CheckProject& record = *shown.project;
  other_ends_member(json, record);
  json.key("other_dye_lot");
  if (record.other_lot) {
    json.object().member("ball", record.other_lot->lot).member("work", record.other_lot->work_lot).end();
  } else {
    json.null();
  }
  not_ranked_member(json, record);
  json.member("cuts_out", record.cuts_out ? std::optional(record.cuts_out->ball) : std::nullopt);
  json.member("longer", record.longer ? std::optional(record.longer->share()) : std::nullopt);
  json.member("kinked", record.kinked);
  json.member("shift_otherwise", record.contested ? std::optional(record.contested->now) : std::nullopt);
}

// Without a project nothing is on record, so the waste before is nothing.
void waste_member(Json& json, const CheckShown& shown) {
  const std::vector<Join>& joins = shown.advice.joins;
  const Length before = shown.project != nullptr ? shown.project->totals.waste : Length();
  std::optional<Length> after;
  if (!joins.empty() && joins.front().leave_knot) {
    after = before;
  } else if (!joins.empty() && joins.front().discard) {
    after = before + *joins.front().discard + joins.front().allowance;
  }
  json.key("waste").object().member("before", before).member("after", after).end();
}

}  // namespace ballchange
