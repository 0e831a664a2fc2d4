#pragma once
#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "yarn/repeat.hpp"

// Names of colours: what they may hold, and which colour a written name means.
namespace ballchange {

struct NameFault {
  std::size_t at = 0;  // byte in the name
  std::string why;     // and what would be right
};
// What keeps a text from being a colour's name: nothing in it, a comma, bar, plus, quote, control, bidirectional or
// zero-width character, a variation selector, a combining mark that begins a word, broken UTF-8, an @ or - that begins
// the name, a word that begins
// with a number (a length would start there), more than 200 bytes, or the word `hook`.
[[nodiscard]] std::optional<NameFault> name_fault(std::string_view name);

// The words with single spaces between them.
[[nodiscard]] std::string single_spaced(std::string_view name);

// Names of a palette, folded once for many look-ups. `colours` may grow by add() only.
class NameBook {
 public:
  explicit NameBook(std::vector<Colour> colours);

  // An exact name wins, then one that differs in case only; nothing for any other.
  [[nodiscard]] std::optional<ColourId> exact(std::string_view name) const;
  // Those that begin so, case ignored.
  [[nodiscard]] std::vector<ColourId> beginning(std::string_view name) const;
  // "did you mean rust?", or the names there are.
  [[nodiscard]] std::string advice(std::string_view name) const;
  ColourId add(std::string name);

  [[nodiscard]] const std::vector<Colour>& colours() const { return colours_; }

 private:
  std::vector<Colour> colours_;
  std::vector<std::string> folded_;
};

// "sand, slate or sea": at most six, then "…".
[[nodiscard]] std::string listed(const std::vector<std::string>& names);

}  // namespace ballchange
