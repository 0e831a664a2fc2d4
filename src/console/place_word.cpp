#include "console/place_word.hpp"

#include <fmt/core.h>

#include <algorithm>

#include "base/problem.hpp"
#include "base/text.hpp"
#include "reading/name.hpp"
#include "show/text.hpp"

namespace ballchange {
namespace {

constexpr std::string_view kLike = "write it like \"2 before rust ends\", \"at rust\" or \"rust 26\"";

[[noreturn]] void refuse_place(std::string_view what, std::string_view text, std::string_view why) {
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

// "rust 26": the length starts at the first word that begins with a digit, as no word of a name does.
SaidPlace into_section(std::string_view text, const Repeat& repeat, const Ruler& ruler, std::string_view what) {
  for (std::size_t at = 0; at < text.size(); ++at) {
    if (at > 0 && text[at - 1] == ' ' && text[at] >= '0' && text[at] <= '9') {
      return {trim(text.substr(0, at)), false, parse_length(text.substr(at), ruler, what)};
    }
  }
  const NameBook book(repeat.colours());
  const std::string name = single_spaced(text);
  if (!book.exact(name) && book.beginning(name).empty()) refuse_place(what, text, "is no place on the yarn");
  return {text, false, {}};
}

ColourId colour_of(std::string_view name, const Repeat& repeat, std::string_view what) {
  const NameBook book(repeat.colours());
  const std::string spaced = single_spaced(name);
  if (const auto exact = book.exact(spaced)) return *exact;
  const std::vector<ColourId> some = book.beginning(spaced);
  if (some.size() == 1) return some.front();
  if (!some.empty()) refuse_place(what, name, "fits more than one colour");
  throw Problem(Fault::content, fmt::format("{}: '{}' is no colour of this yarn; {}", what, printable(spaced, 40),
                                            book.advice(spaced)));
}

// "4 before ink begins" is out of ink: the section beside it is what to count in.
[[noreturn]] void refuse_outward(std::string_view what, std::string_view text, std::string_view length,
                                 std::string_view colour, bool before, const Repeat& repeat) {
  std::string_view name = colour;
  if (strip_back(name, before ? " begins" : " ends")) {
    const ColourId meant = colour_of(name, repeat, what);
    const std::size_t size = repeat.size();
    for (std::size_t k = 0; k < size; ++k) {
      if (repeat.sections()[k].colour != meant) continue;
      throw Problem(Fault::content,
                    fmt::format("{}: '{}' is told from the wrong colour; write it \"{} {}\"", what, printable(text, 60),
                                printable(trim(length), 20),
                                before ? fmt::format("before {} ends", printable(repeat.name_of((k + size - 1) % size)))
                                       : fmt::format("after {} begins", printable(repeat.name_of((k + 1) % size)))));
    }
  }
  refuse_place(what, text, before ? "does not say before a colour ends" : "does not say after a colour begins");
}

SaidPlace said_place(std::string_view text, const Repeat& repeat, const Ruler& ruler, std::string_view what) {
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
      refuse_outward(what, text, rest.substr(0, at), colour, before, repeat);
    }
    return {colour, before, parse_length(rest.substr(0, at), ruler, what)};
  }
  if (strip_back(rest, " begins")) return {rest, false, {}};
  if (strip_back(rest, " ends")) return {rest, true, {}};
  return into_section(rest, repeat, ruler, what);
}

std::string told(Length length, const Ruler& ruler) {
  if (ruler.in_stitches) return tape(length, Told::stitches);
  return amount(length, imperial(ruler.bare) ? Told::inches : Told::centimetres);
}

}  // namespace

std::vector<Length> parse_places(std::string_view text, const Repeat& repeat, const Ruler& ruler,
                                 std::string_view what) {
  const std::string_view word = trim(text);
  if (word.empty()) refuse_place(what, text, "names no place");
  if (word.find(", ") != std::string_view::npos) refuse_place(what, text, "is not one place");
  const bool number_first = word.front() >= '0' && word.front() <= '9';
  const std::string folded = fold_case(word);
  if (number_first && folded.find(" before ") == std::string::npos && folded.find(" after ") == std::string::npos) {
    const Length place = parse_length(word, ruler, what);
    if (place > repeat.total()) {
      throw Problem(Fault::content, fmt::format("{}: '{}' lies outside the repeat, which is {} long", what,
                                                printable(text, 60), told(repeat.total(), ruler)));
    }
    return {wrap(place, repeat.total())};
  }
  const SaidPlace said = said_place(word, repeat, ruler, what);
  const ColourId colour = colour_of(said.colour, repeat, what);
  std::vector<Length> places;
  Length longest;
  for (std::size_t k = 0; k < repeat.size(); ++k) {
    const Section& section = repeat.sections()[k];
    if (section.colour != colour) continue;
    longest = std::max(longest, section.length);
    if (said.inside > section.length) continue;
    const Length into = said.from_end ? section.length - said.inside : said.inside;
    places.push_back(wrap(repeat.start(k) + into, repeat.total()));
  }
  if (places.empty()) {
    throw Problem(Fault::content, fmt::format("{}: '{}' lies outside {}, which is {} long", what, printable(text, 60),
                                              printable(repeat.colours()[colour].name, 60), told(longest, ruler)));
  }
  return places;
}

Length parse_place(std::string_view text, const Repeat& repeat, const Ruler& ruler, std::string_view what) {
  const std::vector<Length> places = parse_places(text, repeat, ruler, what);
  if (places.size() == 1) return places.front();
  throw Problem(Fault::content,
                fmt::format("{}: '{}' could be in more than one section, as its colour comes more than once in this "
                            "yarn; tell the length from the start of the first section ({}) instead",
                            what, printable(text, 40), printable(repeat.name_of(0))));
}

}  // namespace ballchange
