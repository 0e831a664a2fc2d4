#pragma once
#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/caret.hpp"
#include "base/measure.hpp"
#include "base/problem.hpp"
#include "reading/name.hpp"

// A reading cut into its written entries, before it is known what they mean together.
namespace ballchange {

// The text a reading is read from, for messages that point into it.
struct Source {
  std::string_view text;
  std::string_view what;  // "old reading"

  // Throws Problem(content) "old reading, entry 2: why" (entry 0: "old reading: why") with a caret under byte `at`.
  [[noreturn]] void refuse_at(std::size_t entry, std::size_t at, std::string_view why) const;
  // Calls read(where) with "old reading, entry 2"; a Problem that points nowhere gets the caret under byte `at`.
  template <typename Read>
  auto pointing(std::size_t entry, std::size_t at, Read read) const {
    try {
      return read(where(entry));
    } catch (const Problem& problem) {
      throw Problem(problem.fault(), problem.what(), caret_lines(text, at));
    }
  }
  [[nodiscard]] std::string where(std::size_t entry) const;
  [[nodiscard]] std::size_t offset(std::string_view piece) const {
    return static_cast<std::size_t>(piece.data() - text.data());
  }
};

// One written entry. Positions are bytes in the source's text.
struct Part {
  std::size_t number = 1;  // counted as written, `hook` too
  std::size_t at = 0;      // where its name stands
  bool is_hook = false;
  ColourId colour = 0;
  std::optional<Written> written;
  std::size_t length_at = 0;
  std::optional<std::size_t> bar_before, bar_after, plus;  // where each stands
};

// Cuts the text and reads every entry by itself. Throws Problem(content). New names go into an open book, in which the
// first `known` may be shortened.
struct BookRules {
  bool open = false;
  std::size_t known = 0;
};
[[nodiscard]] std::vector<Part> parse_parts(const Source& source, NameBook& book, const BookRules& rules, Unit bare);

}  // namespace ballchange
