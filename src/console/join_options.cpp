#include "console/join_options.hpp"

#include <fmt/core.h>

#include <array>
#include <utility>

#include "base/text.hpp"
#include "console/ravelled.hpp"

namespace ballchange {
namespace {

// All methods, each with what `said` adds to its name.
template <typename Said>
std::string all_methods(const Said& said) {
  std::string text;
  for (const MethodRow& row : methods()) {
    if (!text.empty()) text += ", ";
    text += row.name;
    const std::string_view more = said(row);
    if (!more.empty()) text += fmt::format(" ({})", more);
  }
  return text;
}

constexpr std::array<OptionRow, 5> kWork{{
    {"row", "N", "the row the hook is in"},
    {"stitch", "N", "stitches of that row already done (left out: all)"},
    {"stitches", "N", "stitches in a row"},
    {"yarn-per-turn", "L", "yarn a turn takes"},
    {"worked", "rows|rounds|turned-rounds", "how the work goes (rows)"},
}};
constexpr OptionGroup kWorkGroup{"The work", kWork};

Length signed_length(const Options& options, std::string_view name, const Ruler& ruler) {
  const auto text = options.text(name);
  if (!text) return {};
  std::string_view word = trim(*text);
  static constexpr std::string_view kMinus = "\u2212";  // as a text that was typeset has it
  const bool typeset = word.substr(0, kMinus.size()) == kMinus;
  const bool negative = typeset || word.substr(0, 1) == "-";
  if (typeset) {
    word.remove_prefix(kMinus.size());
  } else if (negative || word.substr(0, 1) == "+") {
    word.remove_prefix(1);
  }
  const Length length = parse_length(word, ruler, "--" + std::string(name));
  return negative ? -length : length;
}

// A join, or the yarn before it, that takes more is a slip of the pen.
std::optional<Length> short_length(const Options& options, std::string_view name, const Ruler& ruler,
                                   std::string_view takes) {
  constexpr Length most = 1'000_cm;
  const auto length = length_option(options, name, ruler);
  if (length && *length > most) {
    throw Problem(Fault::content,
                  fmt::format("--{}: '{}' is too long: {} at most {}", name, printable(*options.text(name), 40), takes,
                              ruler.in_stitches ? "1000 st" : "10 m"));
  }
  return length;
}

// Nothing for one in stitches while the yarn per stitch isn't known: then the usual length holds.
std::optional<Length> length_of(const std::optional<Amount>& amount, const Ruler& ruler, std::string_view what) {
  if (!amount || (amount->unit == Unit::st && !ruler.in_stitches && !ruler.yarn_per_stitch)) return std::nullopt;
  return to_length({amount->number, amount->unit}, ruler, what);
}

}  // namespace

const OptionGroup& joining_options() {
  static const std::array<OptionRow, 5> rows{{
      {"method", "METHOD", method_names()},
      {"allowance", "L", "yarn each join takes"},
      {"tolerance", "L", "how far out of step is still good (two stitches)"},
      {"sparing", "", "cut the least that stays within the tolerance"},
      {"keep", "each-join|from-the-start", "judge each join by itself, or with all before it"},
  }};
  static const OptionGroup group{"How they are joined", rows};
  return group;
}

const OptionGroup& join_options() {
  static const std::string explained = all_methods([](const MethodRow& row) { return row.made; });
  static const std::array<OptionRow, 9> rows{{
      {"method", "METHOD", explained},
      {"allowance", "L", "yarn the join itself takes"},
      {"tolerance", "L", "how far out of step is still good (two stitches)"},
      {"sparing", "", "cut the least that stays within the tolerance"},
      {"room", "L", "yarn to leave between hook and join (15 cm; 8 in a yarn counted in stitches)"},
      {"edge", "avoid|seek|any", "joins at the row's edge (as the method likes)"},
      {"keep", "each-join|from-the-start",
       "judge this join by itself, or with all before it (each-join; from-the-start with --out-of-step)"},
      {"out-of-step", "L", "shift already in the work: 3 skipped, -3 repeated"},
      {"knot", "", "both ends meet at a knot inside a ball"},
  }};
  static const OptionGroup group{"The join", rows};
  return group;
}

std::string_view method_names() {
  static const std::string names = all_methods([](const MethodRow& row) {
    return row.method == Method::threaded ? std::string_view("usual") : std::string_view();
  });
  return names;
}

const OptionGroup& work_options() { return kWorkGroup; }

void refuse_no_section(std::string_view text) {
  const std::string_view word = trim(text);
  const std::string first = fold_case(word.substr(0, word.find_first_of(" ,")));
  if (!word.empty() && first != "hook") return;
  throw Problem(Fault::content, fmt::format("--whole: {} whole section: write its colour and length, like \"plum 84\"",
                                            word.empty() ? "no" : "hook is no"));
}

void refuse_short_section(std::string_view text, Length length) {
  if (length >= 0.5_cm) return;
  throw Problem(Fault::content, fmt::format("--whole: '{}' is too short: a section has at least 0.5 cm; check number "
                                            "and unit",
                                            printable(text, 40)));
}

std::optional<Method> method_option(const Options& options) {
  const auto word = options.text("method");
  if (!word) return std::nullopt;
  if (const auto method = method_named(*word)) return method;
  std::vector<std::string> names;
  for (const MethodRow& row : methods()) names.emplace_back(row.name);
  refuse_choice("method", *word, names);
}

Working worked_option(const Options& options) {
  return choice(options, "worked", Working::rows,
                {{"rows", Working::rows}, {"rounds", Working::rounds}, {"turned-rounds", Working::turned_rounds}});
}

JoinWish join_wish(const Options& options, const Ruler& ruler, const Tape& tape) {
  JoinWish wish;
  wish.method = method_option(options);
  wish.allowance = short_length(options, "allowance", ruler, "a join takes");
  wish.tolerance = length_option(options, "tolerance", ruler);
  wish.sparing = options.has("sparing");
  // Who tells the shift in the work wants it counted, unless told otherwise.
  const bool told = options.text("out-of-step").has_value();
  wish.from_the_start = choice(options, "keep", told, {{"each-join", false}, {"from-the-start", true}});
  wish.out_of_step = signed_length(options, "out-of-step", ruler);
  wish.room = short_length(options, "room", ruler, "leave");
  wish.edge =
      choice(options, "edge", Edge::as_method, {{"avoid", Edge::avoid}, {"seek", Edge::seek}, {"any", Edge::any}});
  wish.knot = options.has("knot");
  wish.tape = tape;
  return wish;
}

Fabric fabric_of(const Options& options, const Ruler& ruler) {
  Fabric fabric;
  fabric.working = worked_option(options);
  // In a yarn reckoned in stitches a stitch takes one of what lengths count.
  fabric.yarn_per_stitch = ruler.in_stitches ? Length::cm(1) : ruler.yarn_per_stitch;
  fabric.yarn_per_turn = length_option(options, "yarn-per-turn", ruler).value_or(Length());
  fabric.stitches = count_option(options, "stitches", 1);
  return fabric;
}

std::string with_what_to_type(const Lacking& lacking, const Options& options) {
  // Without the option it is the project's own method.
  const char* dashes = options.has("method") ? "--" : "";
  switch (lacking.fact()) {
    case Lacking::Fact::yarn_that_felts:
      return fmt::format("{}{} (or say `felts: true` in {})", dashes, lacking.what(),
                         options.has("yarn") ? "the yarn profile" : "the project's yarn");
    case Lacking::Fact::yarn_per_stitch:
      return fmt::format("{}{} (--yarn-per-stitch or --allowance)", dashes, lacking.what());
    case Lacking::Fact::whole_length:
      break;
  }
  return fmt::format("{}, --whole \"{} 84\" (84 stands for the length)", lacking.what(), lacking.colour());
}

Strand end_of_yarn(const Options& options, const Yarn& yarn, const Measures& measures, End end, Reading reading) {
  MatchOptions match = match_options(options, measures);
  if (end == End::new_end) match.worked = new_from(options, match.worked);
  if (end == End::old_end && is_kinked(options, false)) match.tape = kinked(match.tape);
  Placing placing = place_reading(yarn, reading, match);
  return {std::move(reading), std::move(placing)};
}

std::optional<RowStitch> hook_of(const Options& options, std::optional<int> stitches) {
  const auto row = count_option(options, "row", 1);
  const auto stitch = count_option(options, "stitch", 0);
  if (stitch && !row) throw Problem(Fault::content, "--stitch says little without its row: give --row too");
  const auto told = count_option(options, "stitches", 1);
  if (stitch && told && *stitch > *told) {
    throw Problem(Fault::content, fmt::format("--stitch: {} is more than the {} of --stitches; for a finished row "
                                              "leave --stitch out",
                                              *stitch, *told));
  }
  if (stitch && !told && stitches && *stitch > *stitches) {
    throw Problem(Fault::content, fmt::format("--stitch: {} is more than the {} of a row; for a finished row leave "
                                              "--stitch out",
                                              *stitch, *stitches));
  }
  if (!row) return std::nullopt;
  if (!stitch) return row_finished(*row, stitches);
  return RowStitch{*row, *stitch};
}

std::optional<Multiple> multiple_option(const Options& options) {
  const auto text = options.text("multiple");
  if (!text) return std::nullopt;
  const auto multiple = multiple_of(*text);
  if (!multiple) {
    throw Problem(Fault::content, fmt::format("--multiple: '{}' is not a multiple and what is added to it, like 4+1, "
                                              "or 4",
                                              printable(*text, 40)));
  }
  return multiple;
}

void refuse_wide_tolerance(const JoinWish& wish, const Repeat& repeat, Told told) {
  const Length period = shortest_period(repeat);
  if (!wish.tolerance || 2 * *wish.tolerance < period) return;
  throw Problem(Fault::content, fmt::format("tolerance: {} is half a repeat ({}) or more, and no two ends are farther "
                                            "out of step; write how far is still good, as two stitches are",
                                            amount(*wish.tolerance, told), amount(period / 2, told)));
}

void take_habits(const JoinHabit& habit, const Ruler& ruler, JoinWish& wish) {
  const Method used = wish.method.value_or(habit.usual_method());
  if (!wish.method) wish.method = habit.method;
  if (!wish.allowance) wish.allowance = length_of(habit.allowance_for(used), ruler, "allowance");
  if (!wish.tolerance) wish.tolerance = length_of(habit.tolerance, ruler, "tolerance");
}

}  // namespace ballchange
