#include <fmt/core.h>

#include <algorithm>
#include <cmath>

#include "base/normal.hpp"
#include "base/text.hpp"
#include "show/contradiction.hpp"
#include "show/creep.hpp"
#include "show/entry_text.hpp"
#include "show/stock.hpp"

namespace ballchange {
namespace {

constexpr std::size_t kStops = 3;
constexpr double kLikely = 0.5;  // what is less likely to do is no advice
constexpr int kFewRows = 2;      // told with its stitches while the range is that narrow

// After a per cent that isn't enough.
std::string_view only(double chance) { return chance < 0.01 || chance >= stock::kSurely ? "" : " only"; }

std::string ball_name(const std::string& id) { return fmt::format("ball {}", printable(id, 60)); }

std::string whole_rows(double rows, Working working) {
  return rows < 1 ? fmt::format("less than one {}", row_word(working))
                  : rows_words(static_cast<long>(std::floor(rows + 1e-9)), working);
}

// "about 44 rows (43 to 46)"
std::string rows_text(const stock::Rows& rows, Working working) {
  const auto low = static_cast<long>(std::floor(rows.low + 1e-9));
  const auto high = static_cast<long>(std::floor(rows.high + 1e-9));
  std::string text = (rows.rows < 1 ? "" : "about ") + whole_rows(rows.rows, working);
  if (high > low) text += fmt::format(" ({} to {})", low, high);
  return text;
}

std::string left_text(const StockShown& shown, std::size_t ball, Told told) {
  const stock::OnBall& on = *shown.stock.balls[ball];
  const Length doubt = kNineInTen * stock::give_or_take(on, shown.stock.doubts);
  const Length left = std::max(on.left, Length());
  return fmt::format("{} on {}, give or take {}", amount(left, told, doubt), ball_name(shown.state.balls[ball].id),
                     give_or_take(doubt, told));
}

// "stitch 12 of row 94", "the end of row 93".
std::string stitch_words(const WorkPlace& at, Working working) {
  const auto row = row_word(working);
  const int stitch = at.stitch.value_or(0);
  return stitch == 0 ? fmt::format("the end of {} {}", row, at.row - 1)
                     : fmt::format("stitch {} of {} {}", stitch, row, at.row);
}

std::string ends_text(const stock::Ending& ending, Working working) {
  const auto row = row_word(working);
  if (ending.high.row - ending.low.row <= kFewRows) {
    const auto place = [&](const WorkPlace& at) { return stitch_words(at, working); };
    return fmt::format("about {}; between {} and {}.", place(ending.at), place(ending.low), place(ending.high));
  }
  return fmt::format("in {} {} or so, between {} {} and {} {}.", row, ending.at.row, row, ending.low.row, row,
                     ending.high.row);
}

class Stock {
 public:
  Stock(const StockShown& shown, Told told, std::size_t columns)
      : shown_(shown), told_(told), columns_(columns), working_(shown.state.fabric.working) {}

  void next() {
    if (!shown_.lay_out || outlasts_work(shown_)) return;
    const std::string length = at_least(shown_.lay_out_length, told_);
    if (shown_.lay_out->now) {
      say("Next",
          fmt::format(
              "lay the end of ball {} out now and read it, the last {} of it: ballchange check {} --old READING.",
              working_id(), length, typed_path(shown_.path)));
      return;
    }
    say("Next",
        fmt::format("lay the end of ball {} out and read it before {} {}, the last {} of it: ballchange check "
                    "{} --old READING.",
                    working_id(), row_word(working_), shown_.lay_out->before_row, length, typed_path(shown_.path)));
  }

  void left() {
    const std::size_t ball = *shown_.state.working;
    if (!shown_.stock.balls[ball]) return;
    if (stock::left_is_unknown(shown_.stock, ball)) {
      return say("Left", fmt::format("not known: by the record the rows took more than ball {} held.", working_id()));
    }
    std::string text = left_text(shown_, ball, told_);
    if (shown_.ending) text += "; " + rows_text(shown_.ending->rows, working_);
    say("Left", text + ".");
    if (shown_.ending) say("Ends", outlasts_work(shown_) ? outlasts_words() : ends_text(*shown_.ending, working_));
  }

  // What is needed once the rows are done is for the edging.
  [[nodiscard]] std::string outlasts_words() const {
    return fmt::format("not before {}.", shown_.project.piece.edging
                                             ? fmt::format("the {}s are done", row_word(working_))
                                             : std::string("the work is done"));
  }

  void row_takes() {
    const auto row = shown_.state.gauge.row();
    const auto& measured = shown_.stock.measured;
    mind();
    if (shown_.state.ruler.in_stitches || !row || !measured) return;  // no scale tells stitches apart from yarn
    const Length by_scale = *row * measured->share;
    const Length doubt = kNineInTen * *row * std::hypot(measured->plus_minus, shown_.stock.doubts.label);
    const std::string weighed = amount(by_scale, told_, doubt);
    const std::string label = working_ == Working::rows ? "Row" : "Round";
    std::string text = fmt::format("a {} takes {} by the scale, give or take {}; {} by the gauge", row_word(working_),
                                   weighed, give_or_take(doubt, told_), amount(*row, told_));
    if (!stock::differs(*measured, shown_.stock.doubts)) {
      if (std::abs(measured->share - 1) >= stock::kScaleCounts && weighed != amount(*row, told_))
        text += fmt::format(". The label may be off by as much; {}s are counted by the scale", row_word(working_));
      return say(label, text + ".");
    }
    // Where colours fall tells the yarn in a stitch without the label's doubt.
    if (!shown_.state.sightings.empty()) {
      return say(label, text + ". How colours were seen to fall tells a stitch's yarn better: see ballchange log.");
    }
    say(label, text + ". Measure a swatch again, or record it:");
    const Length stitch = (by_scale - shown_.state.fabric.yarn_per_turn) / *shown_.state.fabric.stitches;
    typed(
        fmt::format("ballchange gauge {} --yarn-per-stitch {}", typed_path(shown_.path), stitch_typed(stitch, told_)));
  }

  void mind() { text_ += contradiction_lines(shown_.state, shown_.stock, shown_.path, columns_); }

  void stops() {
    if (!shown_.stops || outlasts_work(shown_)) return;
    const StopsShown& stops = *shown_.stops;
    if (stops.known) known_stops(stops);
    if (stops.fresh_balls == 0) return;
    if (!stops.known) unknown_stops(stops);
    std::vector<std::string> unread;
    for (const UnknownEnd& end : stops.fresh) {
      if (end.why.empty()) {
        unread.push_back(end.ball);
      } else {
        say("Read", fmt::format("{}: {}", ball_name(end.ball), end.why));
      }
    }
    if (unread.empty()) return;
    const std::string& first = unread.front();
    const bool several = unread.size() > 1;
    say("Read", fmt::format("the end{} of ball{} {}, which {} not on record, to know what joining {} costs:",
                            several ? "s" : "", several ? "s" : "", and_list(printable_names(unread)),
                            several ? "are" : "is", several ? "them" : "it"));
    typed(fmt::format("ballchange ball {} --ball {} --{} READING", typed_path(shown_.path), typed_path(first),
                      end_name(end_of(stops, first))));
  }

  void enough() {
    if (!shown_.outlook) return;
    const stock::Outlook& told = *shown_.outlook;
    chance(told);
    if (told.joins > 0) cuts(told);
    if (told.chance < stock::kSurely) remedies(told);
    if (shown_.rings) say("Ring", ring());
    if (shown_.ring_open)
      say("Ring", fmt::format("whether {} will close shows once it is plain what one takes.",
                              rows_words(shown_.project.piece.rows.value_or(0), working_)));
  }

  [[nodiscard]] std::string take() { return std::move(text_); }

 private:
  void say(std::string_view label, std::string_view text) { text_ += labelled(label, text, columns_); }
  void typed(std::string_view text) { text_ += std::string(kLabelWidth, ' ') + std::string(text) + "\n"; }
  [[nodiscard]] std::string working_id() const { return printable(shown_.state.balls[*shown_.state.working].id, 60); }
  static std::vector<std::string> printable_names(const std::vector<std::string>& ids) {
    std::vector<std::string> names;
    names.reserve(ids.size());
    for (const std::string& id : ids) names.push_back(printable(id, 60));
    return names;
  }
  static BallEnd end_of(const StopsShown& stops, const std::string& ball) {
    const auto found =
        std::find_if(stops.fresh.begin(), stops.fresh.end(), [&](const UnknownEnd& end) { return end.ball == ball; });
    return found->end;
  }

  void known_stops(const StopsShown& stops) {
    const std::vector<stock::Stop>& joins = stops.known->joins;
    for (std::size_t k = 0; k < std::min(joins.size(), kStops); ++k) {
      const stock::Stop& stop = joins[k];
      std::string text = fmt::format("to ball {}{}: ", printable(stop.ball, 60), from_words(stop));
      const bool nothing = is_nothing(stop.trims, told_);
      text += nothing ? "nothing to cut off" : fmt::format("{} to cut off", amount(stop.trims, told_, kPlaces));
      text += fmt::format(", {} in the join ({}){}.", tape(stops.allowance, told_), method_row(stops.method).name,
                          lot_words(stop.ball));
      const bool turn = k == 0 && stop.other_end;
      say(k == 0 ? "Join" : "Or", turn ? text + " To start it there, tell so:" : text);
      if (!turn) continue;
      typed(fmt::format("ballchange ball {} --ball {} --from {}", typed_path(shown_.path), typed_path(stop.ball),
                        end_name(end_of(stop))));
    }
    for (const StopsShown::LongerBall& one : stops.longer) {
      const auto shown = joins.begin() + static_cast<std::ptrdiff_t>(std::min(joins.size(), kStops));
      if (std::none_of(joins.begin(), shown, [&](const stock::Stop& stop) { return stop.ball == one.ball; })) continue;
      const std::string text =
          longer_text(one.longer, shown_.state.yarn.repeat.total(), shown_.state.fabric.yarn_per_stitch, told_);
      say("Mind", fmt::format("ball {}: {}", printable(one.ball, 60), text));
    }
    if (!joins.empty()) say("Stop", where_to_stop(stops, joins.front()));
    if (stops.known->other.empty()) return;
    say("Turn",
        fmt::format("{} {} the other way round: work it from its other end.",
                    and_list(printable_names(stops.known->other)), stops.known->other.size() > 1 ? "run" : "runs"));
  }

  // The end of the ball that it is joined by.
  [[nodiscard]] BallEnd end_of(const stock::Stop& stop) const {
    const bool outside = (shown_.state.find_ball(stop.ball)->from == BallEnd::outside) != stop.other_end;
    return outside ? BallEnd::outside : BallEnd::inside;
  }
  [[nodiscard]] std::string from_words(const stock::Stop& stop) const {
    return stop.other_end ? fmt::format(" from its {} end", end_name(end_of(stop))) : std::string();
  }

  // Where it is another than that of the ball in work.
  [[nodiscard]] std::string lot_words(const std::string& id) const {
    const auto& lot = shown_.state.find_ball(id)->dye_lot;
    const auto& own = shown_.state.balls[*shown_.state.working].dye_lot;
    if (!lot || !own || *lot == *own) return {};
    return fmt::format("; of dye lot {}, not {}", printable(*lot, 40), printable(*own, 40));
  }

  // The join and the room before it need so much loose yarn; trims may come off either end.
  [[nodiscard]] std::string where_to_stop(const StopsShown& stops, const stock::Stop& stop) const {
    const Length keep = stops.allowance + shown_.room;
    std::string text;
    if (shown_.ending && !shown_.stop_by) {
      text = "now";
    } else if (shown_.stop_by) {
      text = "by " + stitch_words(*shown_.stop_by, working_);
    }
    text += fmt::format("{}with {} or more of ball {} loose: {} for the join, {} from it to the {}",
                        text.empty() ? "" : ", ", tape(keep, told_), working_id(), tape(stops.allowance, told_),
                        tape(shown_.room, told_), "hook or needle");
    if (!is_nothing(stop.trims, told_)) {
      text += fmt::format("; up to {} more may be left, which then comes off it instead of ball {}",
                          amount(stop.trims, told_, kPlaces), printable(stop.ball, 60));
    }
    return text + ".";
  }

  void unknown_stops(const StopsShown& stops) {
    const UnknownEnd& end = *stops.old_end;
    const std::string what = fmt::format("the {} end of ball {}", end_name(end.end), printable(end.ball, 60));
    if (!end.why.empty()) return say("Join", fmt::format("{} isn't settled: {}", what, end.why));
    say("Join",
        fmt::format("what each join will cost shows once {} is read; where it can be reached, do that now:", what));
    typed(fmt::format("ballchange ball {} --ball {} --{} READING", typed_path(shown_.path), typed_path(end.ball),
                      end_name(end.end)));
  }

  [[nodiscard]] std::string by_gauge() const { return counts_by_scale(shown_) ? " (by the gauge)" : ""; }

  // A little more a row adds up over so many.
  [[nodiscard]] std::string ring() const {
    const int planned = shown_.project.piece.rows.value_or(0);
    std::string text = rings_text(*shown_.rings, planned, working_);
    const auto row = shown_.state.gauge.row();
    if (!row) return text;
    const Length moved = *row * planned / 100;
    return fmt::format("{}{} 1 % more yarn a {} moves that by {}: go by the colours.",
                       counts_by_scale(shown_) ? "by the gauge, " : "", text, row_word(working_),
                       amount(moved, told_, moved / 10));
  }

  [[nodiscard]] std::string joins_text(int joins) const {
    return joins == 1 ? std::string("1 join") : fmt::format("{} joins", joins);
  }

  void chance(const stock::Outlook& told) {
    std::string text = told.needed <= Length() ? "nothing more is needed" : fmt::format("{}", percent(told.chance));
    if (told.needed > Length()) {
      text += only(told.chance);
      text += fmt::format(": {} still to work", amount(told.needed, told_, told.needed / 100));
      text += rate_words(shown_, told_);
      if (told.joins > 0) text += fmt::format(" and {} to come, whichever ball comes next", joins_text(told.joins));
    }
    const std::string much = short_words(shown_.state, shown_.stock, told_);
    if (!much.empty()) text += "; " + much;
    say("Enough", text + ".");
  }

  void cuts(const stock::Outlook& told) {
    const std::string whole = amount(told.whole_cut, told_);
    // Where it gains next to nothing it is no advice.
    const bool gains = !told.if_sparing || *told.if_sparing >= told.chance + 0.01;
    const auto then = [&](std::string_view text) {
      return told.sparing || !gains ? std::string(".") : std::string(text);
    };
    if (told.full_cuts >= told.joins) {
      if (told.chance > 0.995) return;
      const std::string who = told.joins == 1 ? "the join to come" : fmt::format("each of the {} joins", told.joins);
      return say("Cuts", fmt::format("there is yarn to spare even if {} cuts off a whole repeat of {}.", who, whole));
    }
    if (is_nothing(told.may_cut, told_)) {
      return say("Cuts", "nothing can be spared" + then(": join sparing (--sparing)."));
    }
    const std::string all =
        fmt::format("{} in all may still be cut off", amount(told.may_cut, told_, told.may_cut / 20));
    if (told.full_cuts == 0) {
      return say("Cuts", fmt::format("{}, less than a whole repeat of {}{}", all, whole,
                                     then(": join sparing from now on (--sparing).")));
    }
    const std::string such = told.full_cuts == 1 ? "one such cut" : fmt::format("{} such cuts", told.full_cuts);
    say("Cuts", fmt::format("{}: {} whole repeat{} of {}{}", all, told.full_cuts, told.full_cuts == 1 ? "" : "s", whole,
                            then(fmt::format(". After {} turn sparing (--sparing).", such))));
  }

  void remedies(const stock::Outlook& told) {
    if (told.if_sparing && *told.if_sparing >= told.chance + 0.01) {
      say("Or", fmt::format("join sparing each time (--sparing): {}.", percent(*told.if_sparing)));
    }
    if (told.with_one_more && *told.with_one_more >= kLikely)
      say("Or", fmt::format("one ball more: {}.", percent(*told.with_one_more)));
    if (!told.leave_out) return;
    const auto left = shown_.state.at ? shown_.project.piece.rows.value_or(0) - shown_.state.at->row
                                      : shown_.project.piece.rows.value_or(0);
    const bool diamonds = shown_.diamonds && shown_.diamonds->rows <= left;
    const int planned = shown_.project.piece.rows.value_or(0);
    const auto out = [&](int rows) {
      return fmt::format("{}, and end after {} {}", rows_words(rows, working_), row_word(working_), planned - rows);
    };
    std::string text = "leave out " + out(*told.leave_out);
    if (diamonds && shown_.diamonds->rows > *told.leave_out) {
      text += fmt::format("; or {} {}, {}", shown_.diamonds->count, figure_words(*shown_.diamonds) + by_gauge(),
                          out(shown_.diamonds->rows));
    } else if (diamonds) {
      text = fmt::format("leave out {} {}, {}", shown_.diamonds->count, figure_words(*shown_.diamonds) + by_gauge(),
                         out(*told.leave_out));
    }
    say("Or", text + ".");
  }

  static constexpr Length kPlaces = 2_cm;  // two places read off a tape are uncertain by that

  const StockShown& shown_;
  Told told_;
  std::size_t columns_;
  Working working_;
  std::string text_;
};

}  // namespace

bool outlasts_work(const StockShown& shown) {
  const auto rows = shown.project.piece.rows;
  return rows && shown.ending && shown.ending->low.row > *rows;
}

std::string stock_lines(const StockShown& shown, Told told, std::size_t columns) {
  Stock stock(shown, told, columns);
  stock.next();
  stock.left();
  stock.stops();
  stock.row_takes();
  return stock.take();
}

std::string other_ball_lines(const StockShown& shown, std::size_t ball, Told told, std::size_t columns) {
  if (!shown.stock.balls[ball]) return {};
  std::string text = left_text(shown, ball, told);
  if (const auto row = shown.state.gauge.row()) {
    text += "; " +
            rows_text(stock::rows_left(*shown.stock.balls[ball], shown.stock.takes, *row), shown.state.fabric.working);
  }
  text = labelled("Left", text + ".", columns);
  if (shown.stock.odd != ball) return text;
  Stock mind(shown, told, columns);
  mind.mind();
  return text + mind.take();
}

std::string enough_lines(const StockShown& shown, Told told, std::size_t columns) {
  Stock stock(shown, told, columns);
  stock.enough();
  return stock.take();
}

}  // namespace ballchange
