#pragma once
#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

#include "base/length.hpp"
#include "base/measure.hpp"
#include "reading/reading.hpp"

// Words and numbers as a crafter reads them: rounded to what a tape can hold, whole per cents, lines that wrap.
namespace ballchange {

// What lengths are told in.
enum class Told { centimetres, inches, stitches };

// Of a shift: "3 cm skipped", "2 cm repeated"; "in step" where it is too small to tell.
[[nodiscard]] std::string shift_words(Length shift, Told told);
// "1.85 cm", "0.728 in": the yarn of one stitch, as a count over a swatch gives it.
[[nodiscard]] std::string stitch_amount(Length stitch, Told told);
// To lay on a tape: "48 cm", "18 3/4 in", "14 stitches"; metres from 1 m, yards from 10 yd on. The sign is dropped.
[[nodiscard]] std::string tape(Length length, Told told);
// The same where it is only known so well: no more digits than that allows, "2.6 m", "92 m".
[[nodiscard]] std::string tape(Length length, Told told, Length doubt);
// "177 1/4 in", however long.
[[nodiscard]] std::string inches(Length length);
// Of what a yarn is said to have, and nobody cuts by: as tape() does, but yards from 4 yd on.
[[nodiscard]] std::string section_length(Length length, Told told);
// "5 to 15 cm", "60 cm to 1.2 m".
[[nodiscard]] std::string tape_range(Length low, Length high, Told told);
// How much yarn: "48 cm", "1.86 m", "2.1 yd".
[[nodiscard]] std::string amount(Length length, Told told);
[[nodiscard]] std::string amount(Length length, Told told, Length doubt);
// At least so much, in steps nobody minds: "70 cm", "2.4 m", "12 m"; "8 in", "2 1/4 yd"; "15 stitches".
[[nodiscard]] std::string at_least(Length length, Told told);
// The least number of steps of the tape that holds so much, as an option takes it: "4.5", "1.75". And the most that do
// not exceed it.
[[nodiscard]] Length rounded_up(Length length, Told told);
[[nodiscard]] Length rounded_down(Length length, Told told);
[[nodiscard]] Length rounded(Length length, Told told);
[[nodiscard]] std::string typed_length(Length length, Told told);
// Half the width of an interval, rounded up to a step of the tape, or to a coarser one where it is wide; never nothing.
[[nodiscard]] std::string give_or_take(Length half_width, Told told);
// Nothing to lay on a tape: rounds to zero.
[[nodiscard]] bool is_nothing(Length length, Told told);
// "98 %", rounded down so that no limit seems to be met that is not; "over 99 %" above 99.5 %, "under 1 %" below 1 %.
[[nodiscard]] std::string percent(double share);
// "1 stitch", "14 stitches".
[[nodiscard]] std::string stitches(long count);
// "plum", "plum and sand", "plum, sand and rust".
[[nodiscard]] std::string and_list(const std::vector<std::string>& names);
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
