#pragma once
#include <cstddef>
#include <optional>
#include <span>
#include <string>
#include <string_view>

// Text as bytes from outside: UTF-8 checked, folded, measured and made safe to print. No locale anywhere.
namespace ballchange {

[[nodiscard]] bool valid_utf8(std::string_view text);
// Reads the code point at `at` and moves past it; U+FFFD and one byte for a broken sequence.
[[nodiscard]] char32_t next_code_point(std::string_view text, std::size_t& at);
// Controls (C0, DEL, C1), line and paragraph separators, bidirectional marks, zero-width characters, U+FEFF.
[[nodiscard]] bool is_unprintable(char32_t c);
// The text with every unprintable or broken piece written as \u{202E} or \x1B, cut to `most` columns with "…".
// The only way text from outside reaches a terminal or a message.
[[nodiscard]] std::string printable(std::string_view text, std::size_t most = 200);
// Lower case for comparing (ASCII, Latin-1, Latin Extended-A, Greek, Cyrillic); a Latin letter and the accent typed
// after it become the one letter they look like.
[[nodiscard]] std::string fold_case(std::string_view text);
// Columns on a terminal: combining marks 0, East Asian wide and emoji 2.
[[nodiscard]] std::size_t display_width(std::string_view text);
// Without the blanks at both ends, those beyond ASCII too; an empty view of the text's end when all of it is blank.
[[nodiscard]] std::string_view trim(std::string_view text);
// With each tab a blank, as it would be read.
[[nodiscard]] std::string without_tabs(std::string_view text);
// Smallest number of inserted, dropped, changed or swapped characters.
[[nodiscard]] std::size_t edit_distance(std::string_view a, std::string_view b);
// The name closest to `word` if it is close enough to be meant (at most a third of its characters differ).
[[nodiscard]] std::optional<std::string> closest(std::string_view word, std::span<const std::string> names);

// A file's name, or a ball's, in a command that is typed in a shell.
[[nodiscard]] std::string typed_path(const std::string& path);

[[nodiscard]] std::string capital(std::string_view words);  // its first letter, of a to z

}  // namespace ballchange
