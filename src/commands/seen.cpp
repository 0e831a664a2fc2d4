#include "commands/seen.hpp"

#include <fmt/format.h>

#include <charconv>
#include <optional>

#include "base/problem.hpp"
#include "base/text.hpp"
#include "reading/name.hpp"

namespace ballchange {
namespace {

constexpr int kMostCount = 1'000'000;

[[noreturn]] void refuse(std::string_view text, std::string_view why) {
  throw Problem(Fault::content, fmt::format("--seen: '{}' {}; write it like \"row 120 stitch 14 navy begins\"",
                                            printable(text, 60), why));
}

class Words {
 public:
  explicit Words(std::string_view text) : rest_(trim(text)) {}
  std::string_view first() {
    const std::size_t stop = std::min(rest_.find(' '), rest_.size());
    const std::string_view word = rest_.substr(0, stop);
    rest_ = trim(rest_.substr(stop));
    return word;
  }
  std::string_view last() {
    const std::size_t space = rest_.rfind(' ');
    const std::size_t start = space == std::string_view::npos ? 0 : space + 1;
    const std::string_view word = rest_.substr(start);
    rest_ = trim(rest_.substr(0, start));
    return word;
  }
  // The count after a word such as "row"; nothing, and nothing taken, where another word stands.
  std::optional<int> counted(std::string_view name) {
    const std::string_view before = rest_;
    if (fold_case(first()) != name) {
      rest_ = before;
      return std::nullopt;
    }
    const std::string_view number = first();
    int count = 0;
    const auto [end, error] = std::from_chars(number.data(), number.data() + number.size(), count);
    if (error != std::errc() || end != number.data() + number.size() || count < 1 || count > kMostCount) return 0;
    return count;
  }
  [[nodiscard]] std::string_view rest() const { return rest_; }

 private:
  std::string_view rest_;
};

ColourId colour_named(std::string_view text, std::string_view name, const std::vector<Colour>& colours) {
  const NameBook book(colours);
  const std::string spaced = single_spaced(name);
  if (const auto exact = book.exact(spaced)) return *exact;
  const std::vector<ColourId> some = book.beginning(spaced);
  if (some.size() == 1) return some.front();
  if (some.empty()) {
    throw Problem(Fault::content, fmt::format("--seen: '{}' is no colour of this yarn; {}", printable(spaced, 40),
                                              book.advice(spaced)));
  }
  refuse(text, "fits more than one colour");
}

}  // namespace

Seen parse_seen(std::string_view text, const std::vector<Colour>& colours) {
  Words words(text);
  Seen seen;
  const auto row = words.counted("row");
  if (!row) refuse(text, "does not begin with its row");
  const auto stitch = words.counted("stitch");
  if (*row < 1 || (stitch && *stitch < 1)) refuse(text, "counts rows or stitches that can't be");
  seen.place = {*row, stitch};
  const std::string what = fold_case(words.last());
  if (what != "begins" && what != "ends") refuse(text, "does not end in begins or ends");
  seen.begins = what == "begins";
  if (words.rest().empty()) refuse(text, "names no colour");
  seen.colour = colour_named(text, words.rest(), colours);
  const std::string where = stitch ? fmt::format("row {} stitch {}", *row, *stitch) : fmt::format("row {}", *row);
  seen.text = fmt::format("{} {} {}", where, colours[seen.colour].name, what);
  return seen;
}

}  // namespace ballchange
