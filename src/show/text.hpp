#pragma once
#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

#include "base/length.hpp"
#include "reading/reading.hpp"

// Words and numbers as a crafter reads them: rounded to what a tape can hold, whole per cents, lines that wrap.
namespace ballchange {

// What lengths are told in.
enum class Told { centimetres, inches, stitches };

// To lay on a tape: "48 cm", "18 3/4 in", "14 stitches"; metres or yards from 10 m on. The sign is dropped.
[[nodiscard]] std::string tape(Length length, Told told);
// The bare number of the same, for a second length of a sentence: "48", "18 3/4".
[[nodiscard]] std::string tape_number(Length length, Told told);
// How much yarn: "48 cm", "1.86 m", "2.1 yd".
[[nodiscard]] std::string amount(Length length, Told told);
// Half the width of an interval, rounded up to a step of the tape, never nothing.
[[nodiscard]] std::string give_or_take(Length half_width, Told told);
// Nothing to lay on a tape: rounds to zero.
[[nodiscard]] bool is_nothing(Length length, Told told);
// "99 %"; never 100, and "under 1 %" instead of 0.
[[nodiscard]] std::string percent(double share);
// "1 stitch", "14 stitches".
[[nodiscard]] std::string stitches(long count);
// "plum", "plum and sand", "plum, sand and rust".
[[nodiscard]] std::string and_list(const std::vector<std::string>& names);
// "Rust" for the start of a sentence (ASCII letters only).
[[nodiscard]] std::string capital(std::string text);

// A reading as it would be typed again with the same --units, inside quotes for a shell.
[[nodiscard]] std::string typed_reading(const Reading& reading, const std::vector<Colour>& colours, Told told);

// A label and a text beside it, wrapped to `columns` with the text hanging; a number and its unit stay together.
[[nodiscard]] std::string labelled(std::string_view label, std::string_view text, std::size_t columns);
inline constexpr std::size_t kLabelWidth = 10;
// The same without a label, and without an indent.
[[nodiscard]] std::string wrapped(std::string_view text, std::size_t columns);
// For a terminal that is not UTF-8: plain letters stand for the rest.
[[nodiscard]] std::string plain_ascii(std::string_view text);

}  // namespace ballchange
