#include "project/drawn_fabric.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <iterator>

#include "base/text.hpp"
#include "console/join_options.hpp"
#include "console/place_word.hpp"
#include "project/advise_project.hpp"
#include "project/begun.hpp"

namespace ballchange {
namespace {

constexpr int kMostStitches = 2000, kMostRows = 10'000;
constexpr int kRowsUnplanned = 60;
constexpr double kYarnToWidth = 3;  // a stitch takes about three times its width; common practice, no source
constexpr Length kSoft = 3_cm;      // of yarn, over which one colour gives way to the next; common practice, no source

constexpr std::array<OptionRow, 3> kDrawing{{
    {"stitches-in-10cm", "N", "stitches across 10 cm of it, for its proportions"},
    {"rows-in-10cm", "N", "rows up 10 cm of it"},
    {"left-handed", "", "row 1 from left to right"},
}};
constexpr OptionGroup kDrawingGroup{"How the piece is drawn", kDrawing};
constexpr std::array<OptionRow, 9> kRows{{
    {"yarn", "PROFILE", "the yarn, where there is no project"},
    {"stitches", "N", "another width"},
    {"rows", "N", "so many rows"},
    {"worked", "rows|rounds|turned-rounds", "how the work goes (rows)"},
    {"yarn-per-stitch", "L", "yarn one stitch takes"},
    {"yarn-per-turn", "L", "yarn a turn takes"},
    {"foundation", "L", "yarn in the foundation"},
    {"first", "PLACE", "another start: what the first stitch is, as \"rust 26\""},
    {"out-of-step", "L", "what a join so far out of step looks like, halfway up"},
}};
constexpr OptionGroup kGroup{"The piece as it is, or might be", kRows};

Length told_length(const std::optional<Amount>& told, const Ruler& ruler, std::string_view what) {
  return told ? to_length({told->number, told->unit}, ruler, std::string(what)) : Length();
}

// Where nothing on record tells how it begins, --first may tell it and is nothing imagined.
bool is_on_record(const OpenProject& open, const Options& options) {
  const std::string other = imagined(options);
  if (other != "--first") return other.empty();
  return !begun_at(open.project, open.state) && !reckoned_back(open.project, open.state);
}

class FabricOf {
 public:
  FabricOf(const OpenProject* open, const Options& options, const Context& context, const Common& common,
           const std::optional<ThoughtOf>& join)
      : open_(open), options_(options), on_record_(open != nullptr && is_on_record(*open, options)), thought_of_(join) {
    if (open_ != nullptr) {
      refuse_other_yarn(options);
      yarn_ = open_->state.yarn;
      measures_ = project_measures(options, open_->project, open_->state);
      fabric_ = fabric_in(options, open_->state, measures_.ruler);
    } else {
      yarn_ = yarn_of(options, context);
      measures_ = measures_of(options, common, &*yarn_);
      fabric_ = fabric_of(options, measures_.ruler);
    }
    repeat_ = yarn_->repeat;
  }

  DrawnFabric take() {
    begin();
    FabricPlan plan = plan_of();
    if (on_record_) join_on(plan);
    const std::optional<JoinMark> unmade = thought_of_ ? proposed(plan) : out_of_step(plan);
    auto scene = fabric_scene(*repeat_, plan);
    if (!scene) {
      throw TooFineToDraw(
          "a piece of so many stitches, or of sections so short, is too fine to draw; draw fewer --rows");
    }
    if (on_record_) mark(plan, *scene);
    if (unmade) scene->joins.push_back(*unmade);
    const auto below = [](const JoinMark& a, const JoinMark& b) {
      return std::pair(a.at.row, a.at.done) < std::pair(b.at.row, b.at.done);
    };
    std::stable_sort(scene->joins.begin(), scene->joins.end(), below);
    if (unmade && thought_of_) scene->balls.push_back({unmade->at, ball_name(thought_of_->ball)});
    if (on_record_) end_last_ball(plan, *scene);
    scene->left_handed = options_.has("left-handed");
    const bool sized = size(*scene);
    DrawnFabric drawn{{std::move(*scene), {}, {}, {}, {}, measures_.told, sized}, std::move(plan), *repeat_, notes_};
    drawn.paper.soft = kSoft / drawn.plan.gauge.back().stitch * drawn.paper.scene.stitch_width;
    return drawn;
  }

 private:
  [[nodiscard]] const State& state() const { return open_->state; }

  // Which way the yarn runs, and where it is at the loose end of the foundation.
  void begin() {
    foundation_ =
        length_option(options_, "foundation", measures_.ruler)
            .value_or(open_ != nullptr ? told_length(open_->project.piece.foundation, measures_.ruler, "foundation")
                                       : Length());
    if (const auto first = options_.text("first")) {
      start_ = parse_place(*first, *repeat_, measures_.ruler, "--first") - foundation_;
      return;
    }
    if (open_ != nullptr && begin_as_known()) return;
    start_ = -foundation_;
    notes_.push_back({fmt::format("where the work begins isn't known: drawn as if its first stitch began {}",
                                  printable(repeat_->name_of(0), 40)),
                      "tell it with --first"});
  }

  bool begin_as_known() {
    auto begun = begun_at(open_->project, state());
    const bool foundation_told = state().gauge.foundation_told() || options_.has("foundation");
    const auto reckoned = begun && foundation_told ? std::nullopt : reckoned_back(open_->project, state());
    if (reckoned && (!begun || begun->direction == reckoned->begun.direction)) {
      notes_.push_back({fmt::format("{}: drawn by what entry {} tells",
                                    begun ? "what the foundation took is not on record"
                                          : "the end it was begun with is not on record",
                                    reckoned->entry),
                        {}});
      begun = reckoned->begun;
    } else if (begun && !foundation_told) {
      notes_.push_back(
          {"what the foundation took is not on record: drawn as if it took nothing", "tell it with --foundation"});
    }
    if (!begun) return false;
    if (begun->direction == Direction::backward) repeat_ = repeat_->mirrored();
    start_ = begun->place;
    return true;
  }

  [[nodiscard]] int rows() const {
    if (const auto told = count_option(options_, "rows", 1)) return *told;
    const auto planned = open_ != nullptr ? open_->project.piece.rows : std::nullopt;
    const int done = on_record_ && state().at ? state().at->row : 0;
    return std::max(planned.value_or(kRowsUnplanned), done);
  }

  FabricPlan plan_of() {
    if (!fabric_.yarn_per_stitch) {
      refuse("to draw the work the yarn in a stitch must be known: --yarn-per-stitch 1.85cm (work 20, ravel, measure)");
    }
    if (!fabric_.stitches) refuse("to draw the work its width must be known: --stitches 74");
    FabricPlan plan;
    plan.working = fabric_.working;
    plan.stitches = *fabric_.stitches;
    plan.rows = rows();
    if (plan.stitches > kMostStitches || plan.rows > kMostRows) {
      throw TooFineToDraw(
          fmt::format("--stitches, --rows: at most {} stitches and {} rows can be drawn", kMostStitches, kMostRows));
    }
    plan.foundation = foundation_;
    plan.gauge = {{{1, 0}, *fabric_.yarn_per_stitch, fabric_.yarn_per_turn}};
    if (on_record_) plan.gauge = gauge_on_record(plan.stitches);
    plan.yarn = {{Length(), start_}};
    return plan;
  }

  [[nodiscard]] std::vector<GaugeFrom> gauge_on_record(int stitches) const {
    std::vector<GaugeFrom> gauge;
    for (const auto& stretch : state().gauge.stretches()) {
      if (!stretch.gauge.yarn_per_stitch) continue;
      const RowStitch from{stretch.from.row, stretch.from.stitch.value_or(stitches)};
      gauge.push_back(
          {gauge.empty() ? RowStitch{1, 0} : from, *stretch.gauge.yarn_per_stitch, stretch.gauge.yarn_per_turn});
    }
    if (gauge.empty()) gauge.push_back({{1, 0}, *fabric_.yarn_per_stitch, fabric_.yarn_per_turn});
    return gauge;
  }

  [[nodiscard]] std::vector<const JoinState*> joins() const {
    std::vector<const JoinState*> joins;
    for (const JoinState& join : state().joins) {
      const bool holds = join.held == JoinHeld::in_work || join.held == JoinHeld::ahead;
      if (holds && join.used) joins.push_back(&join);
    }
    std::stable_sort(joins.begin(), joins.end(), [](const auto* a, const auto* b) { return *a->used < *b->used; });
    return joins;
  }

  void join_on(FabricPlan& plan) {
    std::vector<std::string> unknown;
    for (const JoinState* join : joins()) {
      if (!join->shift) unknown.push_back(std::to_string(join->entry));
      const YarnFrom& before = plan.yarn.back();
      const Length used = std::max(*join->used, before.used);
      plan.yarn.push_back({used, before.place + (used - before.used) + join->shift.value_or(Length())});
    }
    if (!unknown.empty()) notes_.push_back({drawn_in_step(std::move(unknown)), {}});
  }
  // One line for all of them.
  static std::string drawn_in_step(std::vector<std::string> entries) {
    constexpr std::size_t most = 6;
    const bool one = entries.size() == 1;
    if (entries.size() > most) {
      const std::size_t more = entries.size() - (most - 1);
      entries.resize(most - 1);
      entries.push_back(fmt::format("{} more", more));
    }
    return fmt::format("how far the join{} of entr{} {} {} out of step isn't known: drawn as if {} in step",
                       one ? "" : "s", one ? "y" : "ies", and_list(entries), one ? "is" : "are",
                       one ? "it were" : "they were");
  }

  // A join nobody made, to see what it would look like.
  std::optional<JoinMark> out_of_step(FabricPlan& plan) {
    const auto told = options_.text("out-of-step");
    if (!told) return std::nullopt;
    const bool back = told->starts_with('-');
    const Length size = parse_length(back ? told->substr(1) : *told, measures_.ruler, "--out-of-step");
    const Length shift = back ? -size : size;
    return run_on(plan, used_at(plan, {plan.rows / 2 + 1, 0}), shift, {});
  }

  std::optional<JoinMark> proposed(FabricPlan& plan) {
    return run_on(plan, used_at(plan, thought_of_->lands), thought_of_->shift, ball_name(thought_of_->ball));
  }

  // From there on the strand runs on with a shift. Joins made further on are shifted with it; a join that is thought of
  // has them forgotten.
  JoinMark run_on(FabricPlan& plan, Length used, Length shift, std::string name) {
    if (thought_of_) {
      forgotten_from_ = used;
      while (plan.yarn.size() > 1 && plan.yarn.back().used > used) plan.yarn.pop_back();
    }
    const auto further = [&](const YarnFrom& from) { return from.used > used; };
    const auto next = std::find_if(plan.yarn.begin() + 1, plan.yarn.end(), further);
    std::for_each(next, plan.yarn.end(), [&](YarnFrom& later) { later.place += shift; });
    const YarnFrom before = *std::prev(next);
    plan.yarn.insert(next, {used, before.place + (used - before.used) + shift});
    return {where_used(plan, used), std::move(name), shift_label(shift), false};
  }

  [[nodiscard]] static std::string ball_name(const std::string& ball) {
    return ball.empty() ? std::string("?") : printable(ball, 24);
  }
  // "+3 cm"
  [[nodiscard]] std::string shift_label(const std::optional<Length>& shift) const {
    if (!shift || is_nothing(*shift, measures_.told)) return {};
    return fmt::format("{}{}", *shift < Length() ? "-" : "+", tape(abs(*shift), measures_.told));
  }

  // It is used up where its yarn ends; which one comes then nobody knows.
  void end_last_ball(const FabricPlan& plan, FabricScene& scene) const {
    const BallState* ball = thought_of_       ? state().find_ball(thought_of_->ball)
                            : state().working ? &state().balls[*state().working]
                                              : nullptr;
    const auto from = thought_of_ ? std::optional(used_at(plan, thought_of_->lands)) : state().used;
    if (ball == nullptr || !ball->left || !from || scene.balls.empty()) return;
    const Length end = *from + *ball->left;
    if (end < end_of(plan)) scene.balls.push_back({where_used(plan, end), {}});
  }

  void mark(const FabricPlan& plan, FabricScene& scene) const {
    if (state().begun) scene.balls.push_back({{0, 0}, ball_name(state().balls[state().begun->ball].id)});
    for (const JoinState* join : joins()) {
      if (scene.balls.empty()) scene.balls.push_back({{0, 0}, ball_name(join->old_ball)});
      // Above what is drawn, or forgotten.
      if (*join->used >= end_of(plan) || (forgotten_from_ && *join->used > *forgotten_from_)) continue;
      const OnRow at = where_used(plan, *join->used);
      scene.joins.push_back(
          {at, ball_name(join->knot_left ? "knot" : join->new_ball), shift_label(join->shift), join->knot_left});
      if (!join->knot) scene.balls.push_back({at, ball_name(join->new_ball)});
    }
    if (scene.balls.empty() && state().working)
      scene.balls.push_back({{0, 0}, ball_name(state().balls[*state().working].id)});
    scene.done = OnRow{};
    if (state().at) scene.done = OnRow{state().at->row, double(state().at->stitch.value_or(plan.stitches))};
    if (thought_of_) scene.done = OnRow{thought_of_->hook.row, double(thought_of_->hook.stitch)};
    if (scene.done->row > plan.rows) scene.done.reset();  // it lies beyond what is drawn
  }

  // Washed where that is known: what is worn is washed.
  bool size(FabricScene& scene) {
    auto across = count_in_10cm(options_, "stitches-in-10cm");
    auto up = count_in_10cm(options_, "rows-in-10cm");
    if (open_ != nullptr) {
      const State& at = state();
      if (!across) across = at.washed_stitches_in_10cm ? at.washed_stitches_in_10cm : at.stitches_in_10cm;
      if (!up) up = at.washed_rows_in_10cm ? at.washed_rows_in_10cm : at.rows_in_10cm;
    }
    const double guess = measures_.told == Told::stitches ? 1 : fabric_.yarn_per_stitch->cm() / kYarnToWidth;
    scene.stitch_width = Length::cm(across ? 10 / *across : up ? 10 / *up : guess);
    scene.row_height = up ? Length::cm(10 / *up) : scene.stitch_width;
    if (across && up) return true;
    notes_.push_back({across || up ? "stitches are drawn as tall as wide"
                                   : "how large a stitch is isn't known: drawn as tall as wide",
                      "tell --stitches-in-10cm and --rows-in-10cm"});
    return false;
  }

  const OpenProject* open_;
  const Options& options_;
  bool on_record_;
  std::optional<ThoughtOf> thought_of_;
  std::optional<Yarn> yarn_;
  std::optional<Repeat> repeat_;
  Measures measures_;
  Fabric fabric_;
  Length foundation_, start_;
  std::optional<Length> forgotten_from_;  // what is joined further on has no place in the picture
  std::vector<TakenForGranted> notes_;
};

std::string_view working_words(Working working) {
  switch (working) {
    case Working::rows:
      return "worked in rows, to and fro";
    case Working::rounds:
      return "worked in rounds";
    case Working::turned_rounds:
      break;
  }
  return "worked in rounds that are turned";
}

// " 2 joins: B in row 30, C +4 cm in row 90."
std::string marks_description(const FabricScene& scene, bool knots, std::string_view one) {
  std::string places;
  int count = 0;
  for (const JoinMark& join : scene.joins) {
    if (join.knot_left != knots) continue;
    places +=
        fmt::format("{} {} in {} {}", count++ == 0 ? ":" : ",", join.label(), row_word(scene.working), join.at.row);
  }
  if (count == 0) return {};
  return fmt::format(" {} {}{}{}.", count, one, count == 1 ? "" : "s", places);
}

std::string fabric_description(const FabricScene& scene) {
  const std::string_view row = row_word(scene.working);
  std::string text = fmt::format("{}, {}{}, {} 1 at the bottom.", fabric_size(scene), working_words(scene.working),
                                 scene.foundation ? " on a foundation" : "", row);
  if (scene.left_handed) text += fmt::format(" Worked left-handed: {} 1 runs from left to right.", row);
  if (scene.done) {
    text += scene.done->row == 0
                ? " Nothing is worked yet."
                : fmt::format(" Worked as far as {} {}, stitch {:.0f}.", row, scene.done->row, scene.done->done);
  }
  return text + marks_description(scene, false, "join") + marks_description(scene, true, "knot left");
}

}  // namespace

const OptionGroup& piece_options() { return kGroup; }
const OptionGroup& piece_drawing_options() { return kDrawingGroup; }

std::vector<std::string> notes_of(const DrawnFabric& drawn) {
  std::vector<std::string> notes;
  for (const auto& [what, remedy] : drawn.notes)
    notes.push_back(remedy.empty() ? what : fmt::format("{}; {}", what, remedy));
  return notes;
}

std::string imagined(const Options& options) {
  static constexpr std::array<std::string_view, 6> kOther{"stitches",      "worked",     "yarn-per-stitch",
                                                          "yarn-per-turn", "foundation", "first"};
  const auto* const told =
      std::find_if(kOther.begin(), kOther.end(), [&](std::string_view name) { return options.has(name); });
  return told == kOther.end() ? std::string() : fmt::format("--{}", *told);
}

DrawnFabric drawn_fabric(const OpenProject* open, const Options& options, const Context& context, const Common& common,
                         const std::optional<ThoughtOf>& join) {
  return FabricOf(open, options, context, common, join).take();
}

void name_fabric(FabricOnPaper& paper, const std::string& project) {
  paper.title = project.empty() ? "The piece" : project + ", the piece";
  paper.description = fabric_description(paper.scene);
}

}  // namespace ballchange
