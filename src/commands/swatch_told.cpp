#include "commands/swatch_told.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <cmath>

#include "base/number.hpp"
#include "base/problem.hpp"
#include "base/text.hpp"
#include "commands/swatch_words.hpp"
#include "fabric/tool_size.hpp"
#include "fabric/work.hpp"

namespace ballchange {
namespace {

constexpr std::string_view kForms =
    "4 mm; 33 st over 15 cm; 24 rows over 14.5 cm; 20 st take 41 cm; a row takes 1.1 m; 147 st a repeat; used 9 m";

class SwatchReader {
 public:
  SwatchReader(const SwatchTerms& terms, const std::string& what) : terms_(terms), what_(what) {}

  void entry(std::string_view text, std::string_view before) {
    ++entry_;
    text_ = trim(text);
    if (text_.empty()) refuse_entry("nothing written between the commas; write one of: " + std::string(kForms));
    refuse_decimal_comma(before);
    if (size()) return;
    refuse_size();
    SwatchWords words(text_);
    if (words.take("used")) return used(words);
    if (const auto count = counted(words)) return after_count(words, count->first, count->second);
    words.take_any({"a", "one", "each", "the"});
    if (words.take_any({"row", "round"})) return rows_take(words, 1);
    if (words.take("repeat") && words.take_any({"is", "makes", "takes"})) {
      if (const auto count = counted(words); count && count->second == SwatchPart::stitches && words.done()) {
        return repeat(count->first);
      }
    }
    refuse_unknown();
  }

  SwatchTold take() {
    const Swatch& swatch = told_.swatch;
    if (!swatch.stitches && !swatch.rows && swatch.yarn.empty() && !told_.rows_taken && !told_.repeat_stitches) {
      throw Problem(Fault::content, what_ + ": nothing is counted; add what was, as 33 st over 15 cm");
    }
    return std::move(told_);
  }

 private:
  [[noreturn]] void refuse_entry(const std::string& why) const {
    throw Problem(Fault::content, fmt::format("{}, entry {}: {}", what_, entry_, why));
  }
  [[noreturn]] void refuse_unknown() const {
    refuse_entry(fmt::format("'{}' is none of: {}", printable(text_, 40), kForms));
  }
  void refuse_size() const {
    const std::string word = fold_case(text_);
    if (!word.ends_with("mm") || word.find_first_not_of("0123456789. ") != word.size() - 2) return;
    refuse_entry(fmt::format("'{}' is no size of hook or needle; they are from 0.5 to 60 mm", printable(text_, 40)));
  }
  void once(bool there, std::string_view of) const {
    if (there) refuse_entry(fmt::format("{} told twice; give each swatch a --swatch of its own", of));
  }

  // "14,5 cm" falls apart into "... 14" and "5 cm".
  void refuse_decimal_comma(std::string_view before) const {
    if (before.empty() || before.back() < '0' || before.back() > '9' || text_.front() < '0' || text_.front() > '9')
      return;
    if (SwatchWords(text_).count() || tool_size(text_, terms_.tool)) return;
    const std::size_t space = before.find_last_of(' ');
    const std::string_view whole = before.substr(space == std::string_view::npos ? 0 : space + 1);
    refuse_entry(fmt::format("decimals take a point: write {}.{}", printable(whole, 20), printable(text_, 20)));
  }

  std::optional<std::pair<double, SwatchPart>> counted(SwatchWords& words) const {
    try {
      return words.count();
    } catch (const Problem& problem) {
      refuse_entry(problem.what());
    }
  }

  [[nodiscard]] Written written(std::string_view text) const {
    const std::string where = fmt::format("{}, entry {}", what_, entry_);
    const Written written = parse_written(text, terms_.bare, where);
    if (written.unit == Unit::st)
      refuse_entry(fmt::format("'{}' is in stitches; write cm or in", printable(text_, 40)));
    if (written.number <= 0) refuse_entry("a length is more than nothing; write what the tape showed, like 15 cm");
    return written;
  }
  [[nodiscard]] Length length(std::string_view text) const {
    return to_length(written(text), {terms_.bare, {}, false}, what_);
  }

  bool size() {
    std::string text(text_);
    for (const std::string_view tool : {"hook", "needles", "needle"}) {
      if (!fold_case(text).ends_with(fmt::format(" {}", tool))) continue;
      text = fmt::format("{} {}", tool, text.substr(0, text.size() - tool.size() - 1));
      break;
    }
    const auto size = tool_size(text, terms_.tool);
    if (!size) return false;
    once(told_.swatch.mm.has_value(), "the size is");
    told_.swatch.mm = size->mm;
    told_.tool = size->tool;
    told_.size_note = size->note;
    return true;
  }

  void used(SwatchWords& words) {
    once(told_.used.has_value(), "the yarn used is");
    const std::string_view rest = words.rest();
    const std::size_t of = fold_case(rest).find(" of ");
    told_.used = written(rest.substr(0, of));
    if (of == std::string_view::npos) return;
    SwatchWords ball(rest.substr(of + 4));
    ball.take("ball");
    told_.ball = std::string(ball.rest());
  }

  void after_count(SwatchWords& words, double count, SwatchPart part) {
    if (words.take_any({"over", "in", "to", "per", "across", "up"}) && !is_repeat(words)) {
      const Counted counted{count, length(words.rest())};
      check_part(counted, part, [this](const std::string& why) { refuse_entry(why); });
      auto& place = part == SwatchPart::stitches ? told_.swatch.stitches : told_.swatch.rows;
      once(place.has_value(), fmt::format("{} are", plural(part)));
      if (part == SwatchPart::stitches) whole_multiples(count);
      place = counted;
      return;
    }
    if (part == SwatchPart::rows) return rows_take(words, count);
    if (words.take_any({"take", "takes", "use", "uses"})) return stitches_take(count, length(words.rest()));
    if (is_repeat(words)) return repeat(count);
    if (!words.done()) refuse_unknown();
    refuse_entry(
        fmt::format("'{0}' over what? Write it too, as {0} over 15 cm, or the yarn they took: 20 st take 41 cm",
                    printable(text_, 40)));
  }

  static bool is_repeat(const SwatchWords& words) {
    SwatchWords rest = words;
    rest.take_any({"a", "the", "one", "each"});
    return rest.take("repeat") && rest.done();
  }

  void whole_multiples(double count) const {
    const Multiple& pattern = terms_.pattern;
    if (pattern.of == 1) return;
    const double over = std::fmod(count, pattern.of);
    if (over == 0 || over == pattern.plus % pattern.of) return;
    const double low = count > over ? count - over : pattern.of;
    refuse_entry(fmt::format("{} stitches are no whole multiples of {}: count {} or {}, and measure that many",
                             plain_number(count, 2), pattern.of, plain_number(low, 0),
                             plain_number(low + pattern.of, 0)));
  }

  void check_yarn(double stitches, Length yarn) const {
    if (!(stitches >= 1 && stitches <= kMostSwatchCount)) {
      refuse_entry(fmt::format("{} stitches: write from 1 to {:.0f}", plain_number(stitches, 2), kMostSwatchCount));
    }
    const Length one = yarn / stitches;
    if (!can_be_stitch(one)) {
      refuse_entry(fmt::format("{} stitches can't take {} cm: one takes {}", plain_number(stitches, 2),
                               plain_number(yarn.cm(), 2), kStitchTakes));
    }
  }

  void stitches_take(double count, Length yarn) {
    once(!told_.swatch.yarn.empty(), "the yarn of the stitches is");
    check_yarn(count, yarn);
    whole_multiples(count);
    told_.swatch.yarn.push_back(yarn_of_stitches(count, yarn));
  }

  void rows_take(SwatchWords& words, double rows) {
    once(told_.rows_taken.has_value(), "the yarn of a row is");
    RowsTaken taken{rows, {}, {}};
    if (words.take("of")) {
      const auto count = counted(words);
      const bool whole = count && count->second == SwatchPart::stitches && count->first == std::floor(count->first);
      if (!whole || count->first < 1 || count->first > kMostSwatchCount) refuse_unknown();
      taken.stitches = static_cast<int>(count->first);
      whole_multiples(count->first);
    }
    if (!words.take_any({"take", "takes", "use", "uses"})) {
      if (!words.done() || rows == 1) refuse_unknown();
      refuse_entry(
          fmt::format("'{0}' over what? Write it too, as {0} over 14.5 cm, or the yarn they took: a row takes 1.1 m",
                      printable(text_, 40)));
    }
    if (rows < 1 || rows > kMostSwatchCount || rows != std::floor(rows)) {
      refuse_entry(fmt::format("{} rows: write whole ones, edge to edge", plain_number(rows, 2)));
    }
    taken.yarn = length(words.rest());
    if (taken.stitches) check_yarn(*taken.stitches * rows, taken.yarn);
    told_.rows_taken = taken;
  }

  void repeat(double count) {
    once(told_.repeat_stitches.has_value(), "the stitches of a repeat are");
    if (!(count >= 1 && count <= kMostSwatchCount)) {
      refuse_entry(
          fmt::format("{} stitches a repeat: write from 1 to {:.0f}", plain_number(count, 2), kMostSwatchCount));
    }
    told_.repeat_stitches = count;
  }

  const SwatchTerms& terms_;
  const std::string& what_;
  int entry_ = 0;
  std::string_view text_;
  SwatchTold told_;
};

}  // namespace

SwatchTold parse_swatch(std::string_view text, const SwatchTerms& terms, const std::string& what) {
  SwatchReader reader(terms, what);
  std::string_view before;
  for (std::size_t from = 0; from <= text.size();) {
    const std::size_t comma = std::min(text.find(',', from), text.size());
    const std::string_view piece = text.substr(from, comma - from);
    reader.entry(piece, before);
    before = trim(piece);
    from = comma + 1;
  }
  return reader.take();
}

}  // namespace ballchange
