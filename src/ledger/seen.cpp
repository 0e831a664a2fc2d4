#include "ledger/seen.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <charconv>
#include <cmath>
#include <system_error>

#include "base/limits.hpp"
#include "base/number.hpp"
#include "base/problem.hpp"
#include "base/text.hpp"
#include "reading/name.hpp"

namespace ballchange {
namespace {

class Words {
 public:
  explicit Words(std::string_view text) : rest_(trim(text)) {}
  std::string_view last() {
    const std::size_t space = rest_.rfind(' ');
    const std::size_t start = space == std::string_view::npos ? 0 : space + 1;
    const std::string_view word = rest_.substr(start);
    rest_ = trim(rest_.substr(0, start));
    return word;
  }
  bool take_last(std::string_view word) {
    const std::string_view before = rest_;
    if (fold_case(last()) == word) return true;
    rest_ = before;
    return false;
  }
  // The count after a word such as "row", 0 for one that can't be; nothing, and nothing taken, where another word
  // stands.
  std::optional<int> counted(std::string_view name) {
    const std::string_view before = rest_;
    if (fold_case(first()) != name) {
      rest_ = before;
      return std::nullopt;
    }
    return whole_number(first(), 1, kMostCounted).value_or(0);
  }
  [[nodiscard]] std::string_view rest() const { return rest_; }

 private:
  std::string_view first() {
    const std::size_t stop = std::min(rest_.find(' '), rest_.size());
    const std::string_view word = rest_.substr(0, stop);
    rest_ = trim(rest_.substr(stop));
    return word;
  }

  std::string_view rest_;
};

// "41", "41.5", "41½": whole and half stitches.
std::optional<double> half_stitches(std::string_view word) {
  static constexpr std::string_view kHalf = "\u00bd";
  const bool half = word.ends_with(kHalf);
  if (half) word.remove_suffix(kHalf.size());
  double count = 0;
  const auto [end, error] = std::from_chars(word.data(), word.data() + word.size(), count, std::chars_format::fixed);
  if (error != std::errc() || end != word.data() + word.size()) return std::nullopt;
  if (half) count += 0.5;
  if (!(count >= 0.5) || count > kMostCounted || count * 2 != std::floor(count * 2)) return std::nullopt;
  return count;
}

class SeenText {
 public:
  SeenText(std::string_view text, const std::vector<Colour>& colours, std::string_view what)
      : text_(text), colours_(colours), what_(what), words_(text) {}

  Seen parse() {
    Seen seen;
    const auto row = words_.counted("row");
    const auto stitch = row ? words_.counted("stitch") : std::nullopt;
    if (row && (*row < 1 || (stitch && *stitch < 1))) refuse_seen("counts rows or stitches that can't be");
    if (row) seen.place = WorkPlace{*row, stitch};
    const bool counted = words_.take_last("stitches") || words_.take_last("stitch") || words_.take_last("st");
    if (!counted && !row) refuse_seen("does not begin with its row");
    if (counted) {
      take_count(seen);
    } else {
      take_change(seen);
    }
    if (words_.rest().empty()) refuse_seen("names no colour");
    seen.colour = colour_named(words_.rest());
    tell(seen);
    return seen;
  }

 private:
  [[noreturn]] void refuse_seen(std::string_view why) const {
    throw Problem(Fault::content,
                  fmt::format("{}: '{}' {}; write it like \"row 120 stitch 14 navy begins\"{}", what_,
                              printable(text_, 60), why, is_count_ ? ", a count like \"rust 41 stitches\"" : ""));
  }

  void take_count(Seen& seen) {
    is_count_ = true;
    seen.what = Seen::What::counted;
    const auto count = half_stitches(words_.last());
    if (!count) refuse_seen("does not tell how many stitches");
    seen.stitches = *count;
    (void)words_.take_last("made");
  }

  void take_change(Seen& seen) {
    const std::string word = fold_case(words_.last());
    if (word != "begins" && word != "ends") refuse_seen("does not end in begins or ends");
    seen.what = word == "begins" ? Seen::What::begins : Seen::What::ends;
  }

  [[nodiscard]] ColourId colour_named(std::string_view name) const {
    const NameBook book(colours_);
    const std::string spaced = single_spaced(name);
    if (const auto exact = book.exact(spaced)) return *exact;
    const std::vector<ColourId> some = book.beginning(spaced);
    if (some.size() == 1) return some.front();
    if (some.empty()) {
      throw Problem(Fault::content, fmt::format("{}: '{}' is no colour of this yarn; {}", what_, printable(spaced, 40),
                                                book.advice(spaced)));
    }
    refuse_seen("fits more than one colour");
  }

  void tell(Seen& seen) const {
    if (seen.place) seen.text = fmt::format("row {} ", seen.place->row);
    if (seen.place && seen.place->stitch) seen.text += fmt::format("stitch {} ", *seen.place->stitch);
    seen.text += colours_[seen.colour].name;
    if (seen.what == Seen::What::counted) {
      seen.text += fmt::format(" {} {}", seen.stitches, seen.stitches == 1 ? "stitch" : "stitches");
    } else {
      seen.text += seen.what == Seen::What::begins ? " begins" : " ends";
    }
  }

  std::string_view text_;
  const std::vector<Colour>& colours_;
  std::string_view what_;
  Words words_;
  bool is_count_ = false;
};

}  // namespace

Seen parse_seen(std::string_view text, const std::vector<Colour>& colours, std::string_view what) {
  return SeenText(text, colours, what).parse();
}

}  // namespace ballchange
