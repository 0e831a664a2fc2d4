#pragma once
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "join/long_sections.hpp"
#include "join/method.hpp"
#include "show/json.hpp"
#include "show/text.hpp"
#include "yarn/yarn.hpp"

// The join card: for each long section what to leave on the new end for what is used on the old one.
namespace ballchange {

struct CardShown {
  const Yarn& yarn;
  const Repeat& repeat;   // as the work runs along it
  bool backward = false;  // along the yarn's from its end
  Method method = Method::threaded;
  Length allowance;
  std::vector<LongSection> sections;
  std::optional<Length> yarn_per_stitch;
  std::string project;  // its name; may be empty
};

struct CardRow {
  Length used, leave;
};
// In even steps of the tape (5 cm, 2 in, 2 stitches; coarser ones for a very long section), as far as the whole overlap
// lies inside; never none.
[[nodiscard]] std::vector<CardRow> card_rows(const LongSection& section, Told told);
// "152 cm": what is to be added and taken away stays in one unit, m or yd in a section of 10 m, 10 yd or more.
[[nodiscard]] std::string card_length(Length length, const LongSection& section, Told told);
// "16 st", of yarn that is worked; empty where the yarn per stitch isn't known.
[[nodiscard]] std::string in_stitches(const CardShown& shown, Length yarn);

// The colour's name, and those around it: "rust", "after sand, before moss".
[[nodiscard]] std::string card_colour(const CardShown& shown, const LongSection& section);
[[nodiscard]] std::string card_neighbours(const CardShown& shown, const LongSection& section);
// "80 cm from change to change. Used and left make 88 cm together."
[[nodiscard]] std::string card_rule(const CardShown& shown, const LongSection& section, Told told);
// "Joins with an overlap of 8 cm (felted)."
[[nodiscard]] std::string card_join(const CardShown& shown, Told told);

struct CardHelp {
  std::string_view label;
  std::string text;
};
// How the tables are used, and what to do where they say nothing.
[[nodiscard]] std::vector<CardHelp> card_help(const CardShown& shown, Told told);

[[nodiscard]] std::string card_screen(const CardShown& shown, Told told, std::size_t columns);
void card_members(Json& json, const CardShown& shown, Told told);

}  // namespace ballchange
