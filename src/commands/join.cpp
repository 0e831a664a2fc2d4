#include "commands/join.hpp"

#include <fmt/core.h>

#include <array>

#include "base/text.hpp"
#include "commands/check.hpp"
#include "console/join_options.hpp"
#include "console/screen.hpp"
#include "project/advise_project.hpp"
#include "project/balls.hpp"
#include "project/join_lines.hpp"
#include "project/off_record.hpp"
#include "project/record.hpp"
#include "project/trim_slip.hpp"
#include "show/check_project.hpp"
#include "show/entry_text.hpp"
#include "show/join_words.hpp"
#include "show/log.hpp"

namespace ballchange {
namespace {

constexpr std::array<OptionRow, 3> kRows{{
    {"take", "K", "record check's K-th way to cut (1)"},
    {"trim-old", "L", "what really came off the old end"},
    {"trim-new", "L", "what really came off the new end"},
}};
constexpr OptionGroup kGroup{"What to record", kRows};

bool was_cut(const Options& options) { return options.has("trim-old") || options.has("trim-new"); }

void refuse_what_is_missing(const Options& options) {
  if (was_cut(options) && options.has("take")) {
    throw Problem(Fault::content,
                  "--take records what check advised, --trim-old and --trim-new what was cut instead: "
                  "give one or the other");
  }
  if (options.has("old") || options.has("knot") || was_cut(options)) return;
  throw Problem(Fault::content,
                "join needs both ends as check does, --old \"rust 30, sand 11, plum\", or what was cut: --ball C "
                "--trim-old 0 --trim-new 48");
}

// What was cut stands as it is: nothing that steers an advice has a part in it.
void refuse_what_advises(const Options& options) {
  const auto refuse_if_told = [&](const char* name, std::string_view why) {
    if (options.has(name)) throw Problem(Fault::content, fmt::format("--{} {}", name, why));
  };
  for (const char* name :
       {"take", "sparing", "tolerance", "room", "edge", "keep", "out-of-step", "worked", "yarn-per-turn"}) {
    refuse_if_told(
        name,
        "is for a join as check advises, from both readings; what was really done is recorded without it: leave it "
        "out");
  }
  if (!was_cut(options)) {
    for (const char* name : {"method", "allowance"}) {
      refuse_if_told(name,
                     "is for ends that were cut: tell what came off, --trim-old 0 --trim-new 48, or leave it out");
    }
  }
  if (options.has("old")) return;
  refuse_if_told("new",
                 "tells how far out of step it is only together with --old \"rust 30, sand 11, plum\": give both");
  for (const char* name : {"sure", "tape", "from", "wound", "new-from"}) {
    refuse_if_told(name, "is for readings: give --old \"rust 30, sand 11, plum\" too, or leave it out");
  }
}

// What speaks against it, what became of joins ahead, and of the yarn.
std::string lines_after(const Recorded& recorded, const Options& options, const Common& common) {
  const Told told = measures_of(options, recorded.project, recorded.after).told;
  const std::size_t columns = common.screen.text_columns();
  std::string minds;
  for (const std::string& mind : recorded.minds) minds += labelled("Mind", mind, columns);
  return minds + join_lines(recorded, columns) + waste_line(recorded.after.totals, told, columns);
}

// Of the finishing ball, where it was told that the join fell.
void mind_left_behind(Recorded& recorded, const Options& options, Told told) {
  const auto& join = std::get<did::Join>(recorded.entries().front().what);
  if (join.knot || !options.has("row")) return;
  const JoinState& made = recorded.after.joins.back();
  const Length taken = made.trim_old + made.allowance.value_or(Length());
  const auto much = left_behind(recorded.before, *made.place, taken);
  if (much) recorded.minds.push_back(left_behind_text(*much, recorded.after.fabric.working, told));
}

void mind_knot_behind(Recorded& recorded, const Options& options) {
  const auto& join = std::get<did::Join>(recorded.entries().front().what);
  if (!join.knot || !options.has("row")) return;
  const auto behind = knot_behind(recorded.before, *recorded.after.joins.back().place, kRowsUnrecorded);
  if (behind) recorded.minds.push_back(knot_behind_text(*behind, recorded.after.fabric.working));
}

// The old ball ends before that place by the record; the log remarks on it only where it is far more.
void mind_reach(Recorded& recorded, const Options& options, const std::string& path) {
  const auto& join = std::get<did::Join>(recorded.entries().front().what);
  if (join.knot || !options.has("row")) return;
  const auto reach = reaches_before(recorded.before, *recorded.after.joins.back().place);
  if (!reach) return;
  std::string mind = reaches_before_text(*reach, recorded.after.fabric.working);
  if (recorded.written) {
    mind += fmt::format(" A slip is taken back with: ballchange cancel {} {}", typed_path(path),
                        recorded.entries().back().n);
  }
  recorded.minds.push_back(std::move(mind));
}

// No hook was shown: what was recorded of where it falls is the least, or nothing.
std::optional<std::string> landing_mind(const Recorded& recorded) {
  const auto& join = std::get<did::Join>(recorded.entries().front().what);
  if (join.row && !join.at_least) return std::nullopt;
  if (!join.row) {
    return "Where in the work it falls isn't known: tell with ballchange row which row is finished.";
  }
  const bool hook = join.old_reading && join.old_reading->find("hook") != std::string::npos;
  return fmt::format(
      "The old reading {}, so {} is the first place it can lie at; tell the finished row with ballchange "
      "row when you are past it.",
      hook ? "doesn't say how far the hook is" : "shows no hook",
      place_words({*join.row, join.stitch}, recorded.after.fabric.working));
}

Outcome record_as_cut(const Options& options, const Context& context, const Common& common) {
  refuse_what_advises(options);
  const std::string path = project_path(options, context);
  const EndTexts texts = end_texts(options, context);
  std::vector<std::string> minds;
  Recorded recorded = record(path, options, context, [&](const Project& project, const State& state) {
    JoinAsCut made = entry_as_cut(project, state, options, texts);
    minds = std::move(made.minds);
    return std::vector<Did>{std::move(made.entry)};
  });
  const Told told = measures_of(options, recorded.project, recorded.after).told;
  remark_on_trims(recorded, path, told);
  recorded.minds = std::move(minds);
  const auto& join = std::get<did::Join>(recorded.entries().front().what);
  const auto lot = join.knot ? std::nullopt : other_lot(recorded.before, ball_named(recorded.before, join.ball));
  if (lot) recorded.minds.push_back(other_lot_text(*lot));
  if (!options.has("old")) {
    mind_left_behind(recorded, options, told);
    mind_knot_behind(recorded, options);
  }
  mind_reach(recorded, options, path);
  if (auto mind = landing_mind(recorded)) recorded.minds.push_back(std::move(*mind));
  tell_recorded(recorded, lines_after(recorded, options, common), options, context, common);
  return Outcome::done;
}

// What to count when the work has got there.
std::string landing_lines(const ProjectAdvice& advised, const Options& options, const Common& common) {
  const Join& join = advised.advice.joins[way_to_take(options) - 1];
  return labelled(join.leave_knot ? "Knot" : "Lands",
                  landing_text(join, advised.terms.fabric, advised.terms.measures.told), common.screen.text_columns());
}

// Advised anew from the project as it stands with the lock held, so that nobody's entry comes in between.
Outcome record_advice(const Options& options, const Context& context, const Common& common) {
  const std::string path = project_path(options, context);
  const EndTexts texts = end_texts(options, context);
  std::optional<ProjectAdvice> advised;
  Recorded recorded = record(path, options, context, [&](const Project& project, const State& state) {
    advised.emplace(advise_in(project, state, options, texts));
    if (advised->advice.verdict != JoinVerdict::cut) return std::vector<Did>();
    return std::vector<Did>{entry_of(*advised, project, state, options, texts)};
  });
  for (const std::string& note : advised->terms.notes) remark(context, note);
  if (recorded.count == 0) return tell_check(advised->shown(), context, common, advised->terms.measures.told);
  recorded.minds = made_minds(advised->shown(), advised->terms.measures.told);
  if (auto mind = landing_mind(recorded)) recorded.minds.push_back(std::move(*mind));
  remark_on_trims(recorded, path, advised->terms.measures.told);
  tell_recorded(recorded, landing_lines(*advised, options, common) + lines_after(recorded, options, common), options,
                context, common);
  return Outcome::done;
}

}  // namespace

std::vector<OptionGroup> join_command_options() {
  return {kGroup,          end_options(), join_options(), work_options(), reading_options(), writing_options(),
          common_options()};
}

Outcome run_join(const Options& options, Context& context) {
  const Common common = common_of(options, context);
  refuse_what_is_missing(options);
  const bool advised = options.has("old") && !was_cut(options);
  return advised ? record_advice(options, context, common) : record_as_cut(options, context, common);
}

}  // namespace ballchange
