#include "project/next_step.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <utility>

#include "base/text.hpp"
#include "ledger/worked.hpp"
#include "project/balls.hpp"
#include "project/ends_to_read.hpp"
#include "project/no_end.hpp"
#include "project/stock.hpp"
#include "show/contradiction.hpp"
#include "show/entry_text.hpp"
#include "stock/by_weight.hpp"

namespace ballchange {
namespace {

constexpr std::size_t kMostSteps = 3;
constexpr int kSoon = 10;          // rows before the ball's end has to be laid out. Common practice, no source.
constexpr double kFewLeft = 10;    // of a ball so small a part is left that it ends soon. Common practice, no source.
constexpr std::size_t kNamed = 6;  // balls

bool row_is_whole(const State& state) { return row_is_done(*state.at, state.fabric); }

std::string ball_words(const std::vector<const BallState*>& balls) {
  std::vector<std::string> names;
  for (const BallState* ball : balls) names.push_back(printable(ball->id, 40));
  const bool more = names.size() > kNamed;
  if (more) names.resize(kNamed);
  return fmt::format("{} {}{}", balls.size() == 1 ? "ball" : "balls", and_list(names), more ? " and so on" : "");
}

class Steps {
 public:
  Steps(const OpenProject& open, const stock::Stock& stock, Told told, const Context& context)
      : open_(open), state_(open.state), stock_(stock), told_(told), context_(context), fresh_(fresh_balls(state_)) {}

  std::vector<NextStep> all() {
    mend();
    if (all_rows_done(open_)) {
      finish();
    } else if (!state_.begun && !state_.working && !state_.at) {
      begin();
    } else {
      go_on();
    }
    if (steps_.size() > kMostSteps) steps_.resize(kMostSteps);
    return std::move(steps_);
  }

 private:
  void step(std::string text, std::string command) { steps_.push_back({std::move(text), std::move(command)}); }
  [[nodiscard]] std::string typed(std::string_view command, std::string_view more = {}) const {
    return fmt::format("ballchange {} {}{}{}", command, typed_path(open_.path), more.empty() ? "" : " ", more);
  }
  [[nodiscard]] Working working() const { return state_.fabric.working; }
  [[nodiscard]] std::string_view row() const { return row_word(working()); }
  [[nodiscard]] const BallState* in_work() const {
    return state_.working && !state_.balls[*state_.working].plain ? &state_.balls[*state_.working] : nullptr;
  }

  void finish() {
    const int rows = *open_.project.piece.rows;
    join_ahead();
    if (const auto reach = in_work() == nullptr ? std::nullopt : reaches_only(state_)) {
      step(fmt::format(
               "by the record {} reaches only about {} {}, and the work goes on past it. Was a join not recorded "
               "(ballchange help join)? See what is on record:",
               ball_words({in_work()}), row(), *reach),
           typed("log"));
    }
    go_past(rows);
    step(fmt::format(
             "{} done{}. Print what is known of the piece on one page:",
             rows == 1 ? fmt::format("the only {} is", row()) : fmt::format("all {} are", rows_words(rows, working())),
             edging()),
         typed("report", "--out report.html"));
    step("for edging and sewing up, see which pieces that were cut off are long enough:", typed("log", "--offcuts"));
  }

  // Nothing on record tells whether it is worked already.
  [[nodiscard]] std::string edging() const {
    if (!open_.project.piece.edging || !state_.left.needed || *state_.left.needed <= Length()) return {};
    const Length needed = *state_.left.needed;
    return fmt::format("; the edging planned takes {}", amount(needed, told_, needed / 100));
  }

  // The plan is a line of the file, and no command's.
  void go_past(int rows) {
    const int more = state_.at->row - rows;
    if (more <= 0) return;
    step(fmt::format("the work is {0} past the {1} planned. Is it to go on? Then change rows: {1}, under piece in {2}, "
                     "to the new number, and tell which {3} is finished:",
                     rows_words(more, working()), rows, typed_path(open_.path), row()),
         typed("row", fmt::format("--row {}", next_row())));
  }

  // What counts for nothing would make all that follows wrong.
  void mend() {
    const auto first = std::find_if(state_.troubles.begin(), state_.troubles.end(),
                                    [](const Trouble& trouble) { return trouble.skipped; });
    if (first == state_.troubles.end()) return;
    step(fmt::format("entry {} counts for nothing as it stands: {}. Mend that first, or cancel the entry:",
                     first->entry, first->message),
         typed("cancel", fmt::format("{}", first->entry)));
  }

  void begin() {
    if (fresh_.empty()) {
      return step(
          "begin with the first ball. Lay its loose end along a tape, not stretched, and write down what it shows "
          "(ballchange help readings); you are asked for it:",
          typed("ball", "--begin"));
    }
    read_ends();
    const bool all_read = std::all_of(fresh_.begin(), fresh_.end(), [](const BallState* ball) {
      return ball->first_reading() && ball->other_reading();
    });
    if (fresh_.size() > 1 && all_read) {
      step("both ends of every ball are read: see in which order they cost least.", typed("order"));
    }
    const BallState& first = *fresh_.front();
    step(fmt::format("begin the work with {}:", ball_words({&first})),
         typed("ball", fmt::format("--ball {} --begin", typed_path(first.id))));
  }

  // Of fresh balls, those that are worked from next: what a reading on record leaves open first.
  void read_ends() {
    std::vector<const BallState*> unread;
    bool asked = false;
    for (const EndToRead& end : ends_to_read(open_)) {
      const std::string id = typed_path(end.ball->id);
      if (end.why.empty()) {
        unread.push_back(end.ball);
      } else if (!std::exchange(asked, true)) {
        step(fmt::format("look at the loose end of {} again: {} {}:", ball_words({end.ball}), end.why,
                         end.settled ? "If it shows anything else, write that down" : "Write down what it shows"),
             typed("ball", fmt::format("--ball {} --{} READING", id, end_name(end.ball->from))));
      }
    }
    if (unread.empty()) return;
    const BallState& first = *unread.front();
    step(fmt::format("read the loose end of {}, to know {}:", ball_words(unread),
                     fresh_.size() == 1 ? "where to cut" : "which ball costs least"),
         typed("ball", fmt::format("--ball {}", typed_path(first.id))));
  }

  void go_on() {
    const bool joined_on = join_ahead();
    const bool pressing = joined_on || change_soon();
    if (!state_.ruler.in_stitches && !state_.ruler.yarn_per_stitch) {
      step(
          "unravel some stitches of a swatch and measure the yarn one takes: then where joins fall and how far a ball "
          "goes can be told:",
          typed("gauge", "--yarn-per-stitch 1.85cm"));
    }
    if (pressing) return;
    weigh();
    work_on();
    read_ends();
  }

  bool join_ahead() {
    const JoinState* join = next_join_ahead(state_);
    if (join == nullptr) return false;
    if (!join->place) {
      step(fmt::format("{} and lies ahead; tell where the work stands:", made(*join)),
           typed("row", fmt::format("--row {}", next_row())));
      return true;
    }
    step(fmt::format("{} and comes at about {}. Work past it, count the stitches of the colour it lies in, and tell "
                     "where you are; what was counted goes with it (--seen):",
                     made(*join), place_words(*join, working())),
         typed("row", fmt::format("--row {}", join->place->row)));
    return true;
  }
  [[nodiscard]] static std::string made(const JoinState& join) {
    const std::string ball = printable(join.new_ball, 40);
    if (join.knot) return fmt::format("the knot in ball {} is {}", ball, join.knot_left ? "left in" : "joined");
    return fmt::format("the join to ball {} is made", ball);
  }

  bool change_soon() {
    const BallState* ball = in_work();
    if (ball == nullptr) return false;
    if (stock::counted_by_weight(state_, stock_, *state_.working)) return soon_by_weight(*ball);
    if (contradicted(*ball)) return true;
    const StockShown shown = stock_of_ball(open_.project, state_, stock_, open_.path, Options(), context_.muted());
    const std::string length = at_least(shown.lay_out_length, told_);
    const std::string name = ball_words({ball});
    if (ball->overdrawn > Length()) {
      step(fmt::format("by the record {} must have ended. Was a join not recorded (ballchange join)? Otherwise lay the "
                       "last {} of it out and read it, before anything is cut:",
                       name, length),
           typed("check"));
      return true;
    }
    outlasts_ = outlasts_work(shown);
    if (!shown.lay_out || outlasts_) return false;
    const int before = shown.lay_out->before_row;
    if (!shown.lay_out->now && before - done_rows() > kSoon) return false;
    const std::string when =
        shown.lay_out->now ? std::string("now") : fmt::format("before you begin {} {}", row(), before);
    change(fmt::format("{} ends soon. Lay the last {} of it out {} and read it; cut nothing before the dry fit:", name,
                       length, when));
    return true;
  }
  // The scale against the rows: true where so much so that nothing is known of what is left.
  bool contradicted(const BallState& ball) {
    const auto odd = scale_contradiction(state_, stock_);
    if (!odd || stock_.odd != state_.working) return false;
    const bool unknown = stock::left_is_unknown(stock_, *state_.working);
    if (odd->twice) {
      step(fmt::format("{}. {} See what is on record, and tell what is missing:", odd->told, odd->asked), typed("log"));
    } else if (unknown) {
      step(fmt::format("the {}s and the scale contradict each other on {}. Weigh it again, and write what the scale "
                       "shows in place of G; or was a join not recorded (ballchange join)?",
                       row(), ball_words({&ball})),
           weighing());
    } else {
      step(fmt::format("{}, and write what the scale shows in place of G:", odd->told), weighing());
    }
    return unknown;
  }
  // G is to be written over, and refused where it isn't: a mass made up would count as weighed.
  [[nodiscard]] std::string weighing() const { return typed("weigh", "--mass G"); }
  // By what the scale said last, and the rows since.
  bool soon_by_weight(const BallState& ball) {
    const stock::ByWeight yarn = stock::by_weight(state_, *state_.working, stock_.doubts);
    const bool weighed = std::any_of(state_.weighings.begin(), state_.weighings.end(),
                                     [&](const Weighing& one) { return one.ball == *state_.working && one.in_work; });
    if (!weighed) return false;
    std::string when;
    if (yarn.per_row) {
      const double since = done_rows() - yarn.per_row->done;
      if (yarn.per_row->low - since > kSoon) return false;
      const auto rows = static_cast<long>(std::max(0.0, yarn.per_row->left - since));
      when = rows > 0 ? fmt::format(", by the scale in about {}", rows_words(rows, working()))
                      : ", by the scale about now";
    } else if (!yarn.left || !ball.length || *yarn.left > *ball.length / kFewLeft) {
      return false;
    }
    change(fmt::format(
        "{} ends soon{}. Lay its end out and read it; cut nothing before the dry fit:", ball_words({&ball}), when));
    return true;
  }
  void change(std::string text) {
    if (fresh_.empty()) {
      const BallState* offcut = fresh_offcut(state_);
      const std::string none =
          "no fresh ball is on record to go on with. Add it; you are asked what its loose end shows:";
      step(offcut == nullptr
               ? none
               : only_an_offcut(*offcut,
                                "; or add another: you are asked what its loose end shows:", typed("check") + " "),
           typed("ball"));
    } else {
      read_ends();
    }
    step(std::move(text), typed("check"));
  }

  // Once half of a ball is gone, what the rows say of the rest is well worth the scale's word.
  void weigh() {
    const BallState* ball = in_work();
    if (ball == nullptr || outlasts_ || ball->overdrawn > Length() || !ball->length || !ball->left ||
        *ball->left > *ball->length / 2.0)
      return;
    if (!state_.yarn.ball_mass && !ball->mass) return;
    const bool weighed = std::any_of(state_.weighings.begin(), state_.weighings.end(),
                                     [&](const Weighing& one) { return one.ball == *state_.working && one.in_work; });
    if (weighed) return;
    step(
        fmt::format("more than half of {} is worked: lay the rest on the scale, and write what it shows in place of G; "
                    "where it ends is then known better:",
                    ball_words({ball})),
        weighing());
  }

  [[nodiscard]] int done_rows() const { return next_row() - 1; }
  [[nodiscard]] int next_row() const { return state_.at ? state_.at->row + (row_is_whole(state_) ? 1 : 0) : 1; }
  void work_on() {
    step(fmt::format("work on, and tell now and then which {} is finished:", row()),
         typed("row", fmt::format("--row {}", next_row())));
    if (!state_.working) return take_up();
    if (in_work() == nullptr) return;
    step("when the ball runs out, or at a knot:", typed("check"));
  }

  // Rows are on record, and no ball.
  void take_up() {
    const bool none = fresh_.empty();
    step(fmt::format("tell which ball you work with{}:", none ? "; you are asked what its end shows" : ""),
         typed("ball", none ? "--begin" : fmt::format("--ball {} --begin", typed_path(fresh_.front()->id))));
  }

  const OpenProject& open_;
  const State& state_;
  const stock::Stock& stock_;
  Told told_;
  const Context& context_;
  std::vector<const BallState*> fresh_;
  std::vector<NextStep> steps_;
  bool outlasts_ = false;
};

}  // namespace

std::vector<NextStep> next_steps(const OpenProject& open, const stock::Stock& stock, Told told,
                                 const Context& context) {
  return Steps(open, stock, told, context).all();
}

bool all_rows_done(const OpenProject& open) {
  const auto rows = open.project.piece.rows;
  const auto& at = open.state.at;
  return rows && at && (at->row > *rows || (at->row == *rows && row_is_whole(open.state)));
}

std::string where_it_stands(const OpenProject& open) {
  const State& state = open.state;
  if (!state.at) return state.begun || state.working ? "begun, no row on record" : "not begun";
  const Working working = state.fabric.working;
  if (state.at->row == 1 && state.at->stitch == 0) return "at the foundation";
  std::string stands =
      fmt::format("{} {}{}", row_word(working), state.at->row, stands_at_least(state) ? " or later" : "");
  const auto planned = open.project.piece.rows;
  if (!planned) return stands;
  const int more = state.at->row - *planned;
  if (more <= 0) return fmt::format("{} of {} planned", stands, *planned);
  return fmt::format("{}, {} more than planned", stands, rows_words(more, working));
}

}  // namespace ballchange
