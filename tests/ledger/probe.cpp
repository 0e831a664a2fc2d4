#include <fmt/format.h>

#include <cstdio>
#include <fstream>
#include <iostream>
#include <iterator>
#include <string>

#include "base/problem.hpp"
#include "files/project.hpp"
#include "ledger/fold.hpp"

// The fold and the clock's text for fold.py and moments.py: `probe fold FILE...` prints a line of JSON a project,
// `probe moments` a line of seconds for each line read, or "refused".
namespace {

using namespace ballchange;

std::string number(std::optional<Length> length) { return length ? fmt::format("{:.9f}", length->cm()) : "null"; }

std::string place(const std::optional<WorkPlace>& at) {
  return at ? fmt::format("[{}, {}]", at->row, at->stitch.value_or(-1)) : "null";
}

std::string_view use_name(BallUse use) {
  switch (use) {
    case BallUse::fresh:
      return "fresh";
    case BallUse::working:
      return "working";
    case BallUse::joined_ahead:
      return "ahead";
    case BallUse::used_up:
      break;
  }
  return "used-up";
}

std::string_view held_name(JoinHeld held) {
  switch (held) {
    case JoinHeld::in_work:
      return "in-work";
    case JoinHeld::ahead:
      return "ahead";
    case JoinHeld::apart:
      return "apart";
    case JoinHeld::cut_out:
      break;
  }
  return "cut-out";
}

template <typename List, typename Text>
std::string list(const List& items, Text text) {
  std::string out = "[";
  for (const auto& item : items) out += (out.size() > 1 ? ", " : "") + text(item);
  return out + "]";
}

std::string offcut_text(const OffcutState& offcut) {
  const std::string_view use = offcut.use == OffcutUse::kept      ? "kept"
                               : offcut.use == OffcutUse::as_ball ? "ball"
                                                                  : "used-up";
  return fmt::format(R"([{}, "{}", {}, "{}", {}])", offcut.entry, cut_from_name(offcut.cut_from), number(offcut.length),
                     use, number(offcut.used));
}

std::string state_text(const State& state) {
  const Totals& t = state.totals;
  std::string skipped = "[";
  for (const Trouble& trouble : state.troubles) {
    if (trouble.skipped) skipped += fmt::format("{}{}", skipped.size() > 1 ? ", " : "", trouble.entry);
  }
  return fmt::format(
             R"({{"skipped": {}], "at": {}, "used": {}, "joins_counted": {}, "knots_left": {}, "discard": {}, "allowance": {}, "waste": {}, )",
             skipped, place(state.at), number(state.used), t.joins, t.knots_left, number(t.discard),
             number(t.allowance), number(t.waste)) +
         fmt::format(
             R"("running_shift": {}, "begin": {}, "step": {}, "joining": {}, "knots": {}, "swatches": {}, "waste_mass": {}, "waste_share": {}, )",
             number(t.running_shift), number(t.by_cause.begin), number(t.by_cause.step), number(t.by_cause.allowance),
             number(t.by_cause.knots), number(t.by_cause.swatches),
             t.waste_mass ? fmt::format("{:.9f}", t.waste_mass->g()) : "null",
             t.waste_share ? fmt::format("{:.12f}", *t.waste_share) : "null") +
         fmt::format(R"("left": {}, "rows": {}, "enough": {}, )", number(state.left.length),
                     state.left.rows ? fmt::format("{}", *state.left.rows) : "null",
                     !state.left.enough   ? "null"
                     : *state.left.enough ? "true"
                                          : "false") +
         fmt::format(R"("needed": {}, "weighings": {}, )", number(state.left.needed),
                     list(state.weighings,
                          [&](const Weighing& w) {
                            return fmt::format(R"(["{}", {}, {}])", state.balls[w.ball].id, number(w.expected),
                                               number(w.left));
                          })) +
         fmt::format(R"("offcuts": {}, "offcuts_used": {}, )", list(state.offcuts, offcut_text),
                     number(t.offcuts_used)) +
         fmt::format(R"("balls": {}, "joins": {}}})",
                     list(state.balls,
                          [](const BallState& b) {
                            return fmt::format(R"(["{}", "{}", {}])", b.id, use_name(b.use), number(b.left));
                          }),
                     list(state.joins, [](const JoinState& j) {
                       return fmt::format(R"(["{}", "{}", "{}", {}, {}])", j.old_ball, j.new_ball, held_name(j.held),
                                          place(j.place), number(j.running_shift));
                     }));
}

void tell_moments() {
  for (std::string line; std::getline(std::cin, line);) {
    try {
      const Moment moment = parse_moment(line, "at");
      fmt::print("{} {}\n", moment.seconds, format_moment(moment));
    } catch (const Problem&) {
      fmt::print("refused\n");
    }
  }
}

}  // namespace

int main(int argc, char** argv) {
  const std::string what = argc > 1 ? argv[1] : "";
  if (what == "moments") {
    tell_moments();
    return 0;
  }
  for (int i = 2; i < argc; ++i) {
    std::ifstream file(argv[i], std::ios::binary);
    const std::string text{std::istreambuf_iterator<char>(file), {}};
    try {
      fmt::print("{}\n", state_text(fold(read_project(text, argv[i]).project)));
    } catch (const Problem& problem) {
      fmt::print(stderr, "{}\n", problem.what());
      return 1;
    }
  }
  return what == "fold" ? 0 : 2;
}
