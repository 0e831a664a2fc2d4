#include <fmt/core.h>

#include <algorithm>
#include <array>
#include <climits>
#include <optional>
#include <set>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "base/text.hpp"
#include "commands/ask.hpp"
#include "console/join_options.hpp"
#include "ledger/worked.hpp"
#include "project/advise_project.hpp"
#include "project/balls.hpp"
#include "project/off_record.hpp"
#include "show/check_project.hpp"
#include "show/entry_text.hpp"

namespace ballchange {
namespace {

constexpr std::array<const char*, 4> kReadings{"old", "new", "outside", "inside"};
constexpr const char* kOldTyped = "--old \"rust 30, sand 11, plum\"";
constexpr const char* kNewTyped = "--new \"plum 15, sand 11, rust 30\"";

// What was read of the finishing ball's other end before it was begun, which is the loose one now.
std::optional<std::string> read_before(const OpenProject& open, const Measures& measures) {
  const State& state = open.state;
  if (!state.working || measures.ruler.bare != open.project.units) return std::nullopt;
  return state.balls[*state.working].other_reading();
}

// As the project has it, where the name was typed in another case.
std::string fresh_name(const std::vector<const BallState*>& fresh, const std::string& typed) {
  const BallState* meant = nullptr;
  for (const BallState* ball : fresh) {
    if (ball->id == typed) return typed;
    if (fold_case(ball->id) != fold_case(typed)) continue;
    if (meant != nullptr) return typed;
    meant = ball;
  }
  return meant == nullptr ? typed : meant->id;
}

std::optional<Reading> old_reading(const OpenProject& open, const Options& options) {
  const auto text = options.text("old");
  if (!text || *text == "-" || text->starts_with('@')) return std::nullopt;
  try {
    return end_in(open.project, open.state, options, *text, End::old_end).reading;
  } catch (const Problem&) {
    return std::nullopt;
  }
}

std::optional<TooMuchLeft> left_on_record(const OpenProject& open, const Options& options) {
  const auto reading = options.has("knot") ? std::nullopt : old_reading(open, options);
  return reading ? too_much_left(open.state, *reading) : std::nullopt;
}

// At a knot the ball still holds much either way.
bool hook_is_open(const OpenProject& open, const Options& options) {
  if (options.has("row")) return false;
  if (!open.state.at)
    return !options.has("knot") && needs_row(open.state, terms_of(options, open.project, open.state).fabric);
  if (!options.has("knot")) return left_on_record(open, options).has_value();
  const auto reading = old_reading(open, options);
  return reading && reading->loose;
}

// "40, 25" and "row 40 stitch 25" are two counts; none where anything else stands between.
std::vector<std::string> counts_in(const std::string& answer) {
  static const std::set<std::string_view> words{"row", "round", "stitch", "stitches", "st"};
  std::vector<std::string> counts;
  std::string word;
  for (const char c : answer + " ") {
    if (c != ' ' && c != ',') {
      word += c;
      continue;
    }
    const bool digits = std::all_of(word.begin(), word.end(), [](char d) { return d >= '0' && d <= '9'; });
    if (digits && !word.empty()) counts.push_back(word);
    if (!digits && words.count(fold_case(word)) == 0) return {};
    word.clear();
  }
  return counts;
}

// Asks for the ends of one ball change, in a project.
class ProjectEnds {
 public:
  ProjectEnds(const OpenProject& open, const Options& options, const Context& context, const Common& common)
      : open_(open), dialogue_(options, context, common), fresh_(fresh_balls(open.state)) {}

  [[nodiscard]] EndsAsked asked(bool ends) {
    if (ravelled_is_open(open_, dialogue_.options())) ask_ravelled();
    if (ends) ask_ends();
    ask_hook();
    return {dialogue_.options(), dialogue_.said_no()};
  }

  [[nodiscard]] static bool ravelled_is_open(const OpenProject& open, const Options& options) {
    return open.state.ravelled > Length() && !options.has("ravelled") && !options.has("knot");
  }

 private:
  void ask_ravelled() {
    ToAsk question{"ravelled", "--ravelled damped", {}};
    question.text.lines = "Yarn at the hook was ravelled back, and kinked yarn reads short.";
    question.text.prompt = "Has it been damped and dried, yes or no";
    (void)dialogue_.ask_for(question, [&](const std::string& answer) {
      const std::string word = fold_case(trim(answer));
      const bool yes = word == "y" || word == "yes";
      if (!yes && word != "n" && word != "no") throw Problem(Fault::content, "write yes or no");
      dialogue_.tell("ravelled", yes ? "damped" : "kinked");
    });
  }

  void ask_ends() {
    const bool ball_told = dialogue_.options().has("ball") || dialogue_.options().has("knot");
    const bool new_told = dialogue_.options().has("new");
    if (!ball_told && !new_told) ask_ball();
    if (!dialogue_.options().has("old")) ask(End::old_end, kOldTyped);
    if (!new_told) ask_new();
  }

  [[nodiscard]] const BallState* ball() const {
    const auto id = dialogue_.options().text("ball");
    return id ? &ball_named(open_.state, *id) : nullptr;
  }
  [[nodiscard]] bool any_read() const {
    return std::any_of(fresh_.begin(), fresh_.end(), [](const BallState* b) { return b->first_reading().has_value(); });
  }

  // Where the record may have been left behind by the work.
  void ask_hook() {
    if (!hook_is_open(open_, dialogue_.options())) return;
    const State& state = open_.state;
    if (!state.at) return ask_first_hook();
    const bool whole = row_is_done(*state.at, state.fabric);
    const std::string recorded =
        whole ? fmt::format("{}", state.at->row) : fmt::format("{}, {}", state.at->row, *state.at->stitch);
    const std::string as_told = place_words({state.at->row, whole ? std::nullopt : state.at->stitch}, working());
    ToAsk question{"row", "--row and --stitch", {}};
    question.text.prompt =
        fmt::format("Where is the hook? {}, stitch (Enter: {}, as recorded)", row_word(working()), as_told);
    if (const auto much = left_on_record(open_, dialogue_.options())) {
      question.text.lines = too_much_left_text(*much, measures_now().told);
    }
    question.otherwise = recorded;
    (void)dialogue_.ask_for(question, [&](const std::string& answer) { dialogue_.take(with_hook(answer)); });
  }
  // No row is on record yet; without one it is still told where to cut.
  void ask_first_hook() {
    ToAsk question{"row", "--row and --stitch", {}, Enter::skips};
    question.text.prompt = fmt::format("Where is the hook? {}, stitch (Enter: skip)", row_word(working()));
    (void)dialogue_.ask_for(question, [&](const std::string& answer) { dialogue_.take(with_hook(answer)); });
  }
  [[nodiscard]] Working working() const { return open_.state.fabric.working; }
  [[nodiscard]] Options with_hook(const std::string& answer) const {
    const std::vector<std::string> counts = counts_in(answer);
    if (counts.empty() || counts.size() > 2) {
      throw Problem(Fault::content, fmt::format("write the {0} the hook is in and the stitches of it that are done, "
                                                "like 40, 25; a finished {0} alone, like 40",
                                                row_word(working())));
    }
    Options with = dialogue_.options();
    with.add("row", {counts.front()});
    if (counts.size() == 2) with.add("stitch", {counts.back()});
    const Fabric fabric = terms_of(with, open_.project, open_.state).fabric;
    const int most = fabric.stitches.value_or(INT_MAX);
    if (count_option(with, "stitch", 0).value_or(0) > most) {
      throw Problem(Fault::content, fmt::format("a {} has {}", row_word(working()), stitches(most)));
    }
    return with;
  }

  void ask_ball() {
    if (fresh_.size() < 2) return;
    const ToAsk question{"ball", "--ball ID", fresh_ball_asked(fresh_), any_read() ? Enter::skips : Enter::ends};
    std::string name;
    const bool told = dialogue_.ask(question, [&](const Options& with) {
      name = fresh_name(fresh_, *with.text("ball"));
      const auto is_it = [&](const BallState* fresh) { return fresh->id == name; };
      if (std::none_of(fresh_.begin(), fresh_.end(), is_it)) (void)ball_to_join(open_.state, name, false);
    });
    if (told) dialogue_.tell("ball", name);
  }

  void ask_new() {
    const bool knot = dialogue_.options().has("knot");
    const BallState* chosen = knot ? nullptr : ball();
    if (chosen == nullptr && !knot && any_read()) return;
    if (chosen != nullptr && chosen->first_reading()) {
      settle_recorded(*chosen);
    } else if (chosen == nullptr || !knows_first_end(open_.project, open_.state, *chosen)) {
      ask(End::new_end, kNewTyped);
    }
  }

  // An end on record is measured in the project's unit.
  void settle_recorded(const BallState& chosen) {
    const Measures measures = measures_now();
    if (measures.ruler.bare != open_.project.units || chosen.use != BallUse::fresh) return;
    dialogue_.settle("new", *chosen.first_reading(), open_.state.yarn, measures.told, places(End::new_end));
  }

  void ask(End end, const char* typed) {
    const Measures measures = measures_now();
    const bool old_end = end == End::old_end;
    const bool knot = dialogue_.options().has("knot");
    const auto before = old_end && !knot ? read_before(open_, measures) : std::nullopt;
    const Repeat& repeat = open_.state.yarn.repeat;
    const AskedText text =
        knot ? knot_side_asked(end, repeat, measures.told) : end_asked(end, repeat, measures.told, before);
    dialogue_.ask_end({old_end ? "old" : "new", typed, text, Enter::ends, before}, open_.state.yarn, measures.told,
                      places(end));
  }

  [[nodiscard]] Measures measures_now() const {
    return project_measures(dialogue_.options(), open_.project, open_.state);
  }

  [[nodiscard]] Dialogue::Places places(End end) const {
    return [this, end](const Options& with) {
      return end_in(open_.project, open_.state, with, *with.text(end == End::old_end ? "old" : "new"), end);
    };
  }

  const OpenProject& open_;
  Dialogue dialogue_;
  std::vector<const BallState*> fresh_;
};

bool lacks_an_end(const OpenProject& open, const Options& options) {
  if (!options.has("old")) return true;
  if (options.has("new")) return false;
  if (options.has("knot")) return true;
  const auto id = options.text("ball");
  const auto fresh = fresh_balls(open.state);
  const auto unread = [&](const BallState* ball) { return (!id || ball->id == *id) && !ball->first_reading(); };
  return id ? std::any_of(fresh.begin(), fresh.end(), unread) : std::all_of(fresh.begin(), fresh.end(), unread);
}

// As it was typed; what a file or standard input holds is read later.
Strand end_typed(const Options& with, const Yarn& yarn, const Measures& measures, End end) {
  Palette palette{yarn.repeat.colours(), false};
  const std::string text = *with.text(end == End::old_end ? "old" : "new");
  return end_of_yarn(with, yarn, measures, end, parse_reading(text, end, palette, measures.ruler, strand_option(end)));
}

// Where only whole lengths are known nothing is placed.
void ask_unplaced(Dialogue& dialogue, End end, const Ruler& ruler) {
  const bool old_end = end == End::old_end;
  const ToAsk question{old_end ? "old" : "new", old_end ? kOldTyped : kNewTyped, end_asked(end)};
  (void)dialogue.ask_reading(question, [&](const Options& with) {
    Palette palette{{}, true};
    const std::string name(question.option);
    (void)parse_reading(*with.text(name), end, palette, ruler, "--" + name);
  });
}

}  // namespace

bool reads_standard_input(const Options& options) {
  const auto from_there = [&](const char* name) { return options.text(name) == "-"; };
  return std::any_of(kReadings.begin(), kReadings.end(), from_there);
}

Options with_project(const Options& options, const Context& context, const Common& common) {
  if (!options.words().empty() || !can_ask(context, common)) return options;
  const std::vector<std::string> files = project_files(context);
  if (files.size() < 2) return options;
  const Dialogue dialogue(options, context, common);
  std::string path;
  const ToAsk question{"", files.front() + " right after the command", project_asked(files)};
  (void)dialogue.ask_for(question, [&](const std::string& answer) {
    const auto found = find_project(answer, context);
    if (!found) {
      throw Problem(Fault::content, fmt::format("there is no project file {}; type the name of one, like {}",
                                                printable(answer, 60), printable(files.front(), 60)));
    }
    path = *found;
  });
  Options with = options;
  with.add_word(path);
  return with;
}

std::optional<EndsAsked> with_ends(const OpenProject& open, const Options& options, const Context& context,
                                   const Common& common) {
  if (!can_ask(context, common) || reads_standard_input(options)) return std::nullopt;
  const bool ends = lacks_an_end(open, options);
  if (!ends && !hook_is_open(open, options) && !ProjectEnds::ravelled_is_open(open, options)) return std::nullopt;
  return ProjectEnds(open, options, context, common).asked(ends);
}

EndsAsked with_yarn_and_ends(const Options& options, const Context& context, const Common& common) {
  if (!can_ask(context, common) || reads_standard_input(options) || options.has("ball")) return {options, {}};
  if (options.has("yarn") && options.has("whole")) return {options, {}};
  Dialogue dialogue(options, context, common);
  if (options.has("whole")) {
    const Ruler ruler = measures_of(options, common, nullptr).ruler;
    for (const End end : {End::old_end, End::new_end}) {
      if (!options.has(end == End::old_end ? "old" : "new")) ask_unplaced(dialogue, end, ruler);
    }
    return {dialogue.options(), {}};
  }
  if (!options.has("yarn")) ask_yarn(dialogue, context);
  if (options.has("old") && options.has("new")) return {dialogue.options(), {}};
  const Yarn yarn = yarn_of(dialogue.options(), context.muted());
  const Measures measures = measures_of(dialogue.options(), common, &yarn);
  for (const End end : {End::old_end, End::new_end}) {
    const std::string_view name = end == End::old_end ? "old" : "new";
    if (options.has(name)) continue;
    const ToAsk question{name, end == End::old_end ? kOldTyped : kNewTyped,
                         end_asked(end, yarn.repeat, measures.told, std::nullopt)};
    dialogue.ask_end(question, yarn, measures.told,
                     [&](const Options& with) { return end_typed(with, yarn, measures, end); });
  }
  return {dialogue.options(), dialogue.said_no()};
}

}  // namespace ballchange
