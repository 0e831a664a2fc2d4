#include "commands/first_stitch.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "base/text.hpp"
#include "commands/ball_ends.hpp"
#include "reading/name.hpp"
#include "show/place.hpp"

namespace ballchange {
namespace {

constexpr std::string_view kLike = "write it like \"2 before rust ends\", \"at rust\" or \"rust 26\"";

[[noreturn]] void refuse(std::string_view what, std::string_view text, std::string_view why) {
  throw Problem(Fault::content, fmt::format("{}: '{}' {}; {}", what, printable(text, 60), why, kLike));
}

// How a place is said: from a section's start or end, so much towards its inside.
struct SaidPlace {
  std::string_view colour;
  bool from_end = false;
  Length inside;
};

bool strip_front(std::string_view& text, std::string_view word) {
  if (!fold_case(text).starts_with(word)) return false;
  text = trim(text.substr(word.size()));
  return true;
}

bool strip_back(std::string_view& text, std::string_view word) {
  if (text.size() <= word.size() || fold_case(text.substr(text.size() - word.size())) != word) return false;
  text = trim(text.substr(0, text.size() - word.size()));
  return true;
}

// "rust 26": the length starts at the first word that begins with a digit.
SaidPlace into_section(std::string_view text, const Ruler& ruler, std::string_view what) {
  for (std::size_t at = 0; at < text.size(); ++at) {
    if (at > 0 && text[at - 1] == ' ' && text[at] >= '0' && text[at] <= '9') {
      return {trim(text.substr(0, at)), false, parse_length(text.substr(at), ruler, what)};
    }
  }
  refuse(what, text, "is no place on the yarn");
}

SaidPlace said_place(std::string_view text, const Ruler& ruler, std::string_view what) {
  std::string_view rest = trim(text);
  if (strip_front(rest, "at ")) {
    const bool ends = strip_back(rest, " ends");
    if (!ends) strip_back(rest, " begins");
    return {rest, ends, {}};
  }
  for (const bool before : {true, false}) {
    const std::string_view word = before ? " before " : " after ";
    const std::size_t at = fold_case(rest).find(word);
    if (at == std::string::npos) continue;
    std::string_view colour = trim(rest.substr(at + word.size()));
    if (!strip_back(colour, before ? " ends" : " begins")) {
      refuse(what, text, before ? "does not say before a colour ends" : "does not say after a colour begins");
    }
    return {colour, before, parse_length(rest.substr(0, at), ruler, what)};
  }
  if (strip_back(rest, " begins")) return {rest, false, {}};
  if (strip_back(rest, " ends")) return {rest, true, {}};
  return into_section(rest, ruler, what);
}

ColourId colour_of(std::string_view name, const Repeat& repeat, std::string_view what) {
  const NameBook book(repeat.colours());
  const std::string spaced = single_spaced(name);
  if (const auto exact = book.exact(spaced)) return *exact;
  const std::vector<ColourId> some = book.beginning(spaced);
  if (some.size() == 1) return some.front();
  if (!some.empty()) refuse(what, name, "fits more than one colour");
  throw Problem(Fault::content, fmt::format("{}: '{}' is no colour of this yarn; {}", what, printable(spaced, 40),
                                            book.advice(spaced)));
}

// To what a tape holds: nobody leaves 96.4 cm.
Amount on_the_tape(Length length, const Measures& measures) {
  switch (measures.told) {
    case Told::stitches:
      return {std::round(length.cm()), Unit::st};
    case Told::inches:
      return {std::round(length / unit_length(Unit::in, {}) * 4) / 4, Unit::in};
    case Told::centimetres:
      break;
  }
  return {std::round(length.cm() * 2) / 2, Unit::cm};
}

Length foundation_of(const OpenProject& open) {
  const auto& told = open.project.piece.foundation;
  return told ? to_length({told->number, told->unit}, open.state.ruler, "foundation") : Length();
}

std::string how_to_begin(const OpenProject& open, Length trim, Told told) {
  if (is_nothing(trim, told)) return "start the foundation right at the loose end.";
  std::string text = fmt::format("leave {} at the loose end before the foundation", tape(trim, told));
  const auto stitches = open.state.fabric.stitches;
  const Length foundation = foundation_of(open);
  std::optional<Length> chain = open.state.fabric.yarn_per_stitch;
  if (stitches && foundation > Length()) chain = foundation / *stitches;
  if (chain && told != Told::stitches) {
    text += fmt::format(", or make about {} more than you need and unpick them from the beginning",
                        ballchange::stitches(std::lround(trim / *chain)));
  }
  text += ".";
  if (!open.project.piece.foundation) text += " The foundation is not told, so its yarn is not counted.";
  return text;
}

}  // namespace

std::vector<Length> parse_places(std::string_view text, const Repeat& repeat, const Ruler& ruler,
                                 std::string_view what) {
  const std::string_view word = trim(text);
  if (word.empty()) refuse(what, text, "names no place");
  const bool number_first = word.front() >= '0' && word.front() <= '9';
  const std::string folded = fold_case(word);
  if (number_first && folded.find(" before ") == std::string::npos && folded.find(" after ") == std::string::npos) {
    return {wrap(parse_length(word, ruler, what), repeat.total())};
  }
  const SaidPlace told = said_place(word, ruler, what);
  const ColourId colour = colour_of(told.colour, repeat, what);
  std::vector<Length> places;
  Length longest;
  for (std::size_t k = 0; k < repeat.size(); ++k) {
    const Section& section = repeat.sections()[k];
    if (section.colour != colour) continue;
    longest = std::max(longest, section.length);
    if (told.inside > section.length) continue;
    places.push_back(repeat.start(k) + (told.from_end ? section.length - told.inside : told.inside));
  }
  if (places.empty()) {
    throw Problem(Fault::content, fmt::format("{}: '{}' lies outside {}, which is {:.4g} {} long", what,
                                              printable(text, 60), printable(repeat.colours()[colour].name, 60),
                                              longest.cm(), ruler.in_stitches ? "st" : "cm"));
  }
  return places;
}

FirstStitch first_stitch(std::string_view text, const OpenProject& open, const Measures& measures,
                         const MatchOptions& match, const BallState& ball) {
  const Yarn& yarn = open.state.yarn;
  const std::vector<Length> places = parse_places(text, yarn.repeat, measures.ruler, "--first-stitch");
  const std::string_view end = end_name(ball.from);
  if (!ball.first_reading()) {
    throw Problem(Fault::content,
                  fmt::format("--first-stitch needs the {0} end of the ball: --{0} \"{1} 15, {2}\"", end,
                              printable(yarn.repeat.name_of(0), 40), printable(yarn.repeat.name_of(1), 40)));
  }
  const Reading reading = recorded_reading(open, *ball.first_reading(), ball.from);
  const Placing placing = place_reading(yarn, reading, expected(match, ball, ball.from));
  const PlaceShown shown{yarn, reading, placing};
  if (placing.verdict != Verdict::settled) {
    return {std::nullopt,
            fmt::format("not yet: {}", placing.verdict == Verdict::no_fit ? misfit_text(shown, measures.told)
                                                                          : what_would_settle(shown, measures.told))};
  }
  if (placing.best().direction == Direction::backward) {
    return {std::nullopt, fmt::format("the {} end runs the other way: begin from the other end of the ball.", end)};
  }
  Length trim = yarn.repeat.total();
  for (const Length place : places) {
    trim = std::min(trim, wrap(place - foundation_of(open) - placing.place, yarn.repeat.total()));
  }
  // What the tape would not show is no whole repeat to be cut off.
  if (is_nothing(yarn.repeat.total() - trim, measures.told)) trim = Length();
  return {on_the_tape(trim, measures), how_to_begin(open, trim, measures.told)};
}

}  // namespace ballchange
