#include "show/asking.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <cstddef>

#include "base/text.hpp"
#include "join/method.hpp"
#include "show/entry_text.hpp"

namespace ballchange {
namespace {

constexpr std::size_t kMostListed = 40;

std::string some_of(const std::vector<std::string>& names) {
  std::vector<std::string> shown;
  for (const std::string& name : names) {
    if (shown.size() == kMostListed) break;
    shown.push_back(printable(name, 60));
  }
  if (names.size() <= kMostListed) return and_list(shown);
  return fmt::format("{} and {} more", fmt::join(shown, ", "), names.size() - kMostListed);
}

std::string colours_of(const Repeat& repeat) {
  std::vector<std::string> names;
  for (const Colour& colour : repeat.colours()) names.push_back(colour.name);
  return some_of(names);
}

// Three sections as they would be written from a loose end that lies in the middle of the first.
std::string example_of(End end, const Repeat& repeat, Told told) {
  const std::size_t count = repeat.size();
  std::vector<std::size_t> order{0, 1, 2 % count};
  if (end == End::old_end) std::reverse(order.begin(), order.end());
  const auto name = [&](std::size_t k) { return printable(repeat.name_of(k), 40); };
  const auto length = [&](std::size_t k) { return repeat.sections()[k].length; };
  return fmt::format("{} {}, {} {}, {}", name(order[0]), typed_length(rounded(length(order[0]) / 2, told), told),
                     name(order[1]), typed_length(rounded(length(order[1]), told), told), name(order[2]));
}

std::string how_to_read(std::string_view example) {
  return fmt::format("From the loose end inward, each colour and its length, like {}; the last length may be left out.",
                     example);
}

std::string_view whose(End end) { return end == End::old_end ? "The finishing ball's end." : "The fresh ball's end."; }

std::string prompt_of(BallEnd end) {
  return fmt::format("{} end (Enter: not read yet)", end == BallEnd::outside ? "Outer" : "Inner");
}

std::string_view prompt_of(End end) { return end == End::old_end ? "Old end" : "New end"; }

std::string entry_colour(const PlaceShown& shown, std::size_t entry) {
  const std::size_t at = std::min(entry, shown.reading.entries.size() - 1);
  return printable(shown.yarn.repeat.colours()[shown.reading.entries[at].colour].name);
}

// All of a colour and what is met after it, reading inward.
std::string example_change(const PlaceShown& shown, std::size_t entry, Told told) {
  const Repeat& repeat = shown.yarn.repeat;
  const ColourId colour = shown.reading.entries[std::min(entry, shown.reading.entries.size() - 1)].colour;
  std::size_t k = 0;
  while (k + 1 < repeat.size() && repeat.sections()[k].colour != colour) ++k;
  const std::size_t inward = shown.reading.end == End::old_end ? repeat.size() - 1 : 1;
  return fmt::format("{}, {}", typed_length(rounded(repeat.sections()[k].length / 2, told), told),
                     printable(repeat.name_of((k + inward) % repeat.size()), 40));
}

// Of a line to type, what a question takes: --new "plum 15, sand" is plum 15, sand there.
std::string_view without_option(std::string_view line) {
  const std::size_t quote = line.find('"');
  if (!line.starts_with("--") || quote == std::string_view::npos || !line.ends_with('"')) return line;
  return line.substr(quote + 1, line.size() - quote - 2);
}

std::string how_settled(const PlaceShown& shown, Told told) {
  const Question& question = *shown.placing.ask;
  const std::string colour = entry_colour(shown, question.entry);
  const bool worked = shown.reading.loose && question.entry >= shown.reading.hook_entry;
  switch (question.kind) {
    case Question::Kind::first_length:
    case Question::Kind::how_long:
      return fmt::format("Answer with the length of {}.", colour);
    case Question::Kind::next_change:
      if (worked) return {};
      return fmt::format("Answer with both, like {}.", example_change(shown, question.entry, told));
    case Question::Kind::which_follows:
      return fmt::format("Answer with one of {}.", colours_of(shown.yarn.repeat));
    case Question::Kind::look_alike:
      return fmt::format("Answer with {} or {}.", colour, printable(shown.yarn.repeat.colours()[question.other].name));
    case Question::Kind::overlooked:
    case Question::Kind::wrong_way:
      break;
  }
  const std::string_view when = question.kind == Question::Kind::wrong_way ? "If not" : "If so";
  const auto line = how_to_answer(shown, told);
  if (!line) return fmt::format("{}, type the reading again as it is.", when);
  const std::string again(without_option(line->line));
  const bool gaps = again.find('?') != std::string::npos;
  return fmt::format("{}, type the reading again{}: {}", when, gaps ? ", with a length for each ?" : "", again);
}

}  // namespace

AskedText knot_side_asked(End end, const Repeat& repeat, Told told) {
  const bool old_end = end == End::old_end;
  return {fmt::format("The strand from the knot towards the {}. From the knot on, each colour and its length, like {}; "
                      "the last length may be left out.{}\nColours of this yarn: {}.",
                      old_end ? "work" : "ball", example_of(end, repeat, told),
                      old_end ? " Write hook as an entry where the hook is." : "", colours_of(repeat)),
          old_end ? "Knot, work side" : "Knot, ball side"};
}

AskedText end_asked(End end, const Repeat& repeat, Told told, const std::optional<std::string>& before) {
  AskedText asked{fmt::format("{} {}", whose(end), how_to_read(example_of(end, repeat, told))),
                  std::string(prompt_of(end))};
  if (end == End::old_end) asked.lines += " Write hook as an entry where the hook is.";
  asked.lines += fmt::format("\nColours of this yarn: {}.", colours_of(repeat));
  if (before) asked.prompt += fmt::format(" (Enter: {}, as read before)", printable(*before, 120));
  return asked;
}

AskedText end_asked(End end) {
  const std::string_view example = end == End::old_end ? "rust 30, sand 11, plum" : "plum 15, sand 11, rust 30";
  return {fmt::format("{} {}", whose(end), how_to_read(example)), std::string(prompt_of(end))};
}

AskedText ball_end_asked(BallEnd end, const Repeat& repeat, Told told) {
  return {fmt::format("Its {} end. {}\nColours of this yarn: {}.", inner_or_outer(end),
                      how_to_read(example_of(End::new_end, repeat, told)), colours_of(repeat)),
          prompt_of(end)};
}

AskedText other_end_asked(BallEnd end) {
  return {fmt::format("Its {} end, where it can be got at, read from that loose end inward.", inner_or_outer(end)),
          prompt_of(end)};
}

AskedText fresh_ball_asked(const std::vector<const BallState*>& fresh) {
  AskedText asked{"Which fresh ball is joined?", "Ball"};
  bool any_read = false;
  std::size_t shown = 0;
  for (const BallState* ball : fresh) {
    any_read = any_read || ball->first_reading().has_value();
    if (++shown > kMostListed) continue;
    asked.lines += fmt::format("\n{}: {}", printable(ball->id, 60),
                               ball->first_reading() ? printable(*ball->first_reading(), 120) : "not read yet");
  }
  if (shown > kMostListed) asked.lines += fmt::format("\nand {} more", shown - kMostListed);
  if (any_read) asked.prompt += " (Enter: of those read, the one that costs least)";
  return asked;
}

AskedText yarn_asked(const std::vector<std::string>& names) {
  if (names.empty()) return {"Which yarn? No profile was found here: write the path of its file.", "Yarn"};
  return {fmt::format("Which yarn? Profiles found: {}; or the path of another file.", some_of(names)), "Yarn"};
}

AskedText project_asked(const std::vector<std::string>& files) {
  return {fmt::format("Which project? In this folder: {}.", some_of(files)), "Project"};
}

AskedText method_asked(bool felts) {
  std::vector<std::string> names;
  for (const MethodRow& row : methods()) {
    if (felts || !row.only_if_felts) names.emplace_back(row.name);
  }
  return {fmt::format("How are balls joined? {}.", fmt::join(names, ", ")), "Method (Enter: threaded)"};
}

AskedText settling_asked(const PlaceShown& shown, Told told) {
  std::string question = question_text(*shown.placing.ask, shown);
  return {fmt::format("Can't tell yet: {} {}", question, how_settled(shown, told)), "Answer (Enter: don't know)"};
}

}  // namespace ballchange
