#include <fmt/core.h>

#include "base/measure.hpp"
#include "base/problem.hpp"
#include "base/text.hpp"
#include "commands/swatch_told.hpp"
#include "commands/swatch_words.hpp"

namespace ballchange {
namespace {

// The gauge wanted, from the front: a count, perhaps what it is over.
class WantedReader {
 public:
  WantedReader(std::string_view text, Unit bare, const std::string& what) : text_(text), bare_(bare), what_(what) {}

  WantedGauge read() {
    std::string_view rest = text_;
    while (!trim(rest).empty()) rest = one(rest);
    if (!stitches_ && !rows_) refuse_whole();
    const Length usual = bare_ == Unit::in ? 10.16_cm : 10_cm;
    WantedGauge wanted;
    for (const SwatchPart part : {SwatchPart::stitches, SwatchPart::rows}) {
      const auto& count = part == SwatchPart::stitches ? stitches_ : rows_;
      if (!count) continue;
      // "22 st 18 rows over 10 cm": what stands at the end is for both.
      const Counted counted{count->count, count->over > Length() ? count->over : over_ ? *over_ : usual};
      check_part(counted, part, [this](const std::string& why) { refuse_wanted(why); });
      (part == SwatchPart::stitches ? wanted.stitch : wanted.row) = counted.over / counted.count;
    }
    return wanted;
  }

 private:
  [[noreturn]] void refuse_wanted(const std::string& why) const { throw Problem(Fault::content, what_ + ": " + why); }
  [[noreturn]] void refuse_whole() const {
    refuse_wanted(fmt::format("'{}' is no gauge, like \"22 st\", \"22 st 18 rows\" or \"20 st over 10 cm\"",
                              printable(trim(text_), 40)));
  }

  std::string_view one(std::string_view rest) {
    SwatchWords words(rest);
    words.take_any({"and", ","});
    std::optional<std::pair<double, SwatchPart>> count;
    const std::size_t comma = words.rest().find(',');
    SwatchWords piece(words.rest().substr(0, comma));
    const std::string_view after =
        comma == std::string_view::npos ? std::string_view() : words.rest().substr(comma + 1);
    try {
      count = piece.count();
    } catch (const Problem&) {
      refuse_whole();
    }
    if (!count) refuse_whole();
    auto& place = count->second == SwatchPart::stitches ? stitches_ : rows_;
    if (place) refuse_wanted(fmt::format("{} are told twice; once is enough", plural(count->second)));
    place = {count->first, {}};
    if (!piece.take_any({"over", "in", "to", "per"})) {
      // Another count may follow with no comma between.
      const std::string_view left = piece.rest();
      return left.empty() ? after : words.rest().substr(static_cast<std::size_t>(left.data() - words.rest().data()));
    }
    const Written written = parse_written(piece.rest(), bare_, what_);
    if (written.unit == Unit::st) refuse_whole();
    place->over = to_length(written, {bare_, {}, false}, what_);
    if (place->over <= Length()) refuse_whole();
    if (!over_) over_ = place->over;
    return after;
  }

  std::string_view text_;
  Unit bare_;
  const std::string& what_;
  std::optional<Counted> stitches_, rows_;
  std::optional<Length> over_;
};

}  // namespace

WantedGauge parse_wanted(std::string_view text, Unit bare, const std::string& what) {
  return WantedReader(text, bare, what).read();
}

}  // namespace ballchange
