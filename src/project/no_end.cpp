#include "project/no_end.hpp"

#include <fmt/core.h>

#include "base/text.hpp"
#include "project/balls.hpp"
#include "project/off_record.hpp"
#include "project/project.hpp"
#include "show/entry_text.hpp"

namespace ballchange {
namespace {

std::string nothing_but_ahead(const JoinState& join, Working working) {
  const std::string where = join.place ? " at " + place_words(join, working) : std::string();
  if (join.knot) {
    return fmt::format("the knot in ball {} lies ahead{}: work on to it, or add a fresh ball to cut it out",
                       printable(join.new_ball, 40), where);
  }
  return fmt::format("ball {} is joined ahead{}: work on to it; to cut it out, add another ball and name that",
                     printable(join.new_ball, 40), where);
}

// "work on: ball B is joined ahead at row 30".
std::string what_lies_ahead(const JoinState& join, Working working) {
  const std::string where = join.place ? " at " + place_words(join, working) : std::string();
  return fmt::format("work on: {}ball {} {} ahead{}", join.knot ? "the knot in " : "", printable(join.new_ball, 40),
                     join.knot ? "lies" : "is joined", where);
}

// The project as a line to type names it, after a blank; nothing where the folder has but one.
std::string project_word(const Options& options) {
  return options.words().empty() ? std::string() : " " + typed_path(options.words().front());
}

}  // namespace

std::string only_an_offcut(const BallState& offcut, std::string_view otherwise, std::string_view command) {
  return fmt::format("the only fresh ball on record is {}, an offcut: take it with {}--ball {}{}",
                     printable(offcut.id, 40), command, typed_path(offcut.id), otherwise);
}

std::string no_end_on_record(const State& state, const Options& options) {
  const auto fresh = fresh_balls(state);
  if (fresh.empty()) {
    if (const JoinState* ahead = next_join_ahead(state)) return nothing_but_ahead(*ahead, state.fabric.working);
  }
  if (const auto apart = balls_come_apart(state); !apart.empty()) {
    return fmt::format(
        "ball {} came apart from the work: read its end again and tell it with --ball {} --new "
        "\"plum 15, sand 11, rust 30\"",
        printable(apart.front(), 40), typed_path(apart.front()));
  }
  if (const BallState* offcut = fresh.empty() ? fresh_offcut(state) : nullptr) {
    return only_an_offcut(
        *offcut,
        "; or tell another ball's end with --new \"plum 15, sand 11, rust 30\", or add that with ball "
        "first");
  }
  if (fresh.empty()) {
    return "no fresh ball is on record: tell its end with --new \"plum 15, sand 11, rust 30\", or add it with ball "
           "first";
  }
  const BallState& first = *fresh.front();
  std::string text = fmt::format(
      "no fresh ball's end is on record: tell it with --new \"plum 15, sand 11, rust 30\", or record it "
      "with ballchange ball{} --ball {} --{} READING",
      project_word(options), typed_path(first.id), end_name(first.from));
  if (const JoinState* ahead = next_join_ahead(state)) text += "; or " + what_lies_ahead(*ahead, state.fabric.working);
  return text;
}

void refuse_unbegun(const State& state, const Options& options) {
  if (state.working || !state.joins.empty() || options.has("ball") || options.has("new") || options.has("knot")) return;
  const auto fresh = fresh_balls(state);
  if (fresh.empty()) return;
  refuse(fmt::format(
      "by the record no ball is in the work, so it isn't known which one ends here: tell that first, on "
      "record or not, like ballchange ball{} --ball {} --begin; or name the one that comes next with --ball",
      project_word(options), typed_path(fresh.front()->id)));
}

}  // namespace ballchange
