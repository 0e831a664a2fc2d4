#include <fmt/core.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <iterator>

#include "base/number.hpp"
#include "base/text.hpp"
#include "show/fall.hpp"
#include "show/page.hpp"
#include "show/place.hpp"

namespace ballchange {
namespace {

constexpr std::size_t kMostListed = 6;       // of the look wanted
constexpr std::size_t kMostListedOfAll = 3;  // of each, where none is wanted
constexpr double kSteady = 0.01;             // what yarn a row may well differ by

constexpr std::array<Look, 4> kLooks{Look::argyle, Look::swirl, Look::columns, Look::stripes};

std::string share(double forgives) {
  if (forgives < 0.0005) return "nothing";
  if (forgives > 0.1) return "over 10 %";
  return fmt::format("{:.1f} %", std::floor(forgives * 1000) / 10);
}

class FallPage {
 public:
  FallPage(const FallShown& shown, const Screen& screen, Told told) : shown_(shown), page_(screen, told) {}

  std::string take() {
    if (shown_.in_mind) in_mind();
    if (shown_.low > 0) widths();
    if (shown_.in_mind) after();
    if (shown_.beginning) begin();
    if (!shown_.turn_told && !rounds() && (shown_.in_mind || shown_.low > 0)) turn();
    const bool any_size = shown_.stitches_in_10cm || shown_.rows_in_10cm;
    if (shown_.washed && any_size) page_.say("Sizes", "once washed and dried; on the hook count stitches and rows.");
    return page_.take();
  }

 private:
  [[nodiscard]] bool rounds() const { return shown_.colouring.working == Working::rounds; }
  [[nodiscard]] std::string_view rows_word() const {
    return shown_.colouring.working == Working::rows ? "rows" : "rounds";
  }
  [[nodiscard]] Told on_work() const { return page_.told() == Told::inches ? Told::inches : Told::centimetres; }

  [[nodiscard]] std::string in_work(double count, std::optional<double> in_10cm) const {
    return in_10cm ? ", " + tape(Length::cm(count / *in_10cm * 10), on_work()) : std::string();
  }

  [[nodiscard]] std::string tall(const Fall& one, const Colouring& yarn) const {
    if (!one.rows) return {};
    std::string text = fmt::format("{:.0f} {}{}", *one.rows, rows_word(), in_work(*one.rows, shown_.rows_in_10cm));
    const auto less = rows_with(yarn, one.stitches, -0.01);
    const auto more = rows_with(yarn, one.stitches, 0.01);
    if (!less || !more || std::lround(*less) == std::lround(*more)) return text;
    // So near to columns, 1 % leads past them: taller than told as well as lower.
    if (*one.rows > std::max(*less, *more)) return text + fmt::format(" ({:.0f} or more)", std::min(*less, *more));
    return text + fmt::format(" ({:.0f} to {:.0f})", std::min(*less, *more), std::max(*less, *more));
  }
  [[nodiscard]] std::string tall(const Fall& one) const { return tall(one, shown_.colouring); }

  static std::string counted_stitches(double count) {
    const std::string number = plain_number(count, 1);
    return number + (number == "1" ? " stitch" : " stitches");
  }

  [[nodiscard]] std::string what(const Fall& one) const { return what(one, shown_.colouring); }
  [[nodiscard]] std::string what(const Fall& one, const Colouring& yarn) const {
    switch (one.look) {
      case Look::columns:
        return rounds() ? "the colours stack in columns"
                        : fmt::format("columns: every second {} stacks, those between mirror it",
                                      shown_.colouring.working == Working::rows ? "row" : "round");
      case Look::argyle:
        return "argyle, diamonds " + tall(one, yarn) + " tall";
      case Look::swirl:
        return fmt::format("the colours swirl {} a round to the {}, and come round again after {}",
                           counted_stitches(abs(one.drift) / yarn.stitch), one.drift > Length() ? "beginning" : "end",
                           tall(one, yarn));
      case Look::stripes:
        return fmt::format("stripes, the whole repeat {} tall{}{}", tall(one, yarn),
                           shorter_than(one.row).empty() ? "" : "; ", shorter_than(one.row));
      case Look::scattered:
        break;
    }
    return "the colours scatter: neither columns nor diagonals nor stripes";
  }

  // The colours that are nowhere long enough.
  [[nodiscard]] std::string shorter_than(Length row) const {
    const Repeat& repeat = shown_.yarn.repeat;
    std::vector<Length> longest(repeat.colours().size());
    for (const Section& section : repeat.sections()) {
      longest[section.colour] = std::max(longest[section.colour], section.length);
    }
    std::vector<std::string> names;
    for (std::size_t k = 0; k < longest.size(); ++k) {
      if (longest[k] > Length() && longest[k] < row) names.push_back(printable(repeat.colours()[k].name, 40));
    }
    if (names.empty()) return {};
    return fmt::format("{} {} less than a {}", and_list(names), names.size() == 1 ? "fills" : "fill", one_word());
  }

  [[nodiscard]] std::string_view one_word() const {
    return shown_.colouring.working == Working::rows ? "row" : "round";
  }

  [[nodiscard]] std::string_view caption(Look look) const {
    switch (look) {
      case Look::argyle:
        return "diagonals cross in diamonds, so tall";
      case Look::swirl:
        return "the colours climb one way, and come round again after";
      case Look::columns:
        return rounds() ? "the colours stack" : "every second one stacks, those between mirror it";
      default:
        return "most colours fill a whole one or more, and the repeat comes again after";
    }
  }

  void row(const Fall& one) {
    std::string text = fmt::format("{} st{}", one.stitches, in_work(one.stitches, shown_.stitches_in_10cm));
    if (one.rows) text += ": " + tall(one);
    page_.say("", text + fmt::format("; forgives {}", share(one.forgives)));
  }

  void list(Look look, std::size_t most) {
    std::vector<Fall> some;
    std::copy_if(shown_.widths.begin(), shown_.widths.end(), std::back_inserter(some),
                 [look](const Fall& one) { return one.look == look; });
    if (some.empty()) return;
    std::string name(look_name(look));
    name.front() = static_cast<char>(name.front() - 'a' + 'A');
    page_.say(name, fmt::format("{}:", caption(look)));
    if (shown_.verbose) most = some.size();
    for (std::size_t k = 0; k < std::min(most, some.size()); ++k) row(some[k]);
    if (some.size() > most) page_.say("", fmt::format("and {} more widths: --verbose", some.size() - most));
    if (look != Look::stripes) return;
    const auto narrowest =
        std::min_element(some.begin(), some.end(), [](const Fall& a, const Fall& b) { return a.row < b.row; });
    const std::string less = shorter_than(narrowest->row);
    if (!less.empty()) page_.say("But", fmt::format("{} at any of these.", less));
  }

  void widths() {
    if (std::none_of(shown_.widths.begin(), shown_.widths.end(),
                     [](const Fall& one) { return one.look != Look::scattered; })) {
      return none();
    }
    for (const Look look : kLooks) list(look, shown_.look ? kMostListed : kMostListedOfAll);
    page_.say("Forgives", fmt::format("how much more or less yarn a {} may take before the look goes; in brackets what "
                                      "1 % does.",
                                      one_word()));
    double best = 0;
    for (const Fall& one : shown_.widths) {
      if (one.look != Look::scattered) best = std::max(best, one.forgives);
    }
    if (best < kSteady) page_.say("Mind", "none of these forgives 1 %: even tension decides.");
  }

  [[nodiscard]] std::string listed(const std::vector<Fall>& some) const {
    std::vector<std::string> list;
    for (const Fall& one : some) {
      list.push_back(fmt::format("{} ({}forgives {})", stitches(one.stitches), one.rows ? tall(one) + "; " : "",
                                 share(one.forgives)));
    }
    return and_list(list);
  }

  [[nodiscard]] std::string nearest(const std::vector<Fall>& some) const {
    return (shown_.look ? "the nearest that do: " : "the nearest that don't: ") + listed(some);
  }

  void none() {
    const std::string where = shown_.low == shown_.high
                                  ? "at " + stitches(shown_.low)
                                  : fmt::format("from {} to {} stitches", shown_.low, shown_.high);
    std::string text = fmt::format("{} the colours {}", where,
                                   shown_.look ? fmt::format("make no {}", look_name(*shown_.look)) : "only scatter");
    if (shown_.rows) text += fmt::format(" about {:.0f} {} tall", *shown_.rows, rows_word());
    if (!shown_.other_heights.empty()) text += "; nearest in height: " + listed(shown_.other_heights);
    if (!shown_.outside.empty()) text += "; " + nearest(shown_.outside);
    page_.say("None", text + ".");
  }

  void in_mind() {
    const WidthInMind& mind = *shown_.in_mind;
    if (mind.instead) {
      const int more = mind.instead->stitches - mind.fall.stitches;
      page_.say(more > 0 ? "Add" : "Take off", fmt::format("{}: {}; it forgives {}.", stitches(std::abs(more)),
                                                           what(*mind.instead), share(mind.instead->forgives)));
    }
    if (mind.size) {
      page_.say(mind.instead ? "Or try" : "Try",
                fmt::format("{} mm instead of {} and the same stitches: {}, if a tenth thicker takes a twentieth more "
                            "yarn a stitch, as is usual; a swatch tells.",
                            plain_number(mind.size->to_mm, 3), plain_number(mind.size->from_mm, 3),
                            what(mind.size->fall, mind.size->colouring)));
    }
    std::string text = what(mind.fall);
    if (mind.fall.look != Look::scattered) text += fmt::format("; it forgives {}", share(mind.fall.forgives));
    if (!mind.outside.empty()) {
      text +=
          fmt::format("; the nearest {}: {}",
                      shown_.look ? fmt::format("of {}", look_name(*shown_.look)) : "that don't", listed(mind.outside));
    }
    page_.say(fmt::format("{} st", mind.fall.stitches), text + ".");
    if (mind.size && !mind.size->note.empty()) page_.say("Size", mind.size->note + ".");
  }

  void after() {
    const WidthInMind& mind = *shown_.in_mind;
    if (!mind.panel_rows) return;
    page_.say("Ring", ring(mind));
    if (mind.between) page_.say("Panels", panels(mind));
  }

  // What 1 % more yarn a row comes to after so many.
  [[nodiscard]] Length with_more(int rows) const { return shown_.in_mind->fall.row * (rows * kSteady); }
  [[nodiscard]] bool is_felt(Length moved) const { return moved > 2 * shown_.colouring.stitch; }
  [[nodiscard]] std::string tape_of(Length length) const { return amount(length, page_.told(), length / 4); }

  [[nodiscard]] std::string ring(const WidthInMind& mind) const {
    if (mind.closings.empty()) {
      std::string text =
          fmt::format("no count up to {} {} brings the last to meet the first", *mind.ring_rows, rows_word());
      if (const auto& one = mind.nearest_closing) {
        text += fmt::format("; nearest is {}, {} {}", one->rows, amount(abs(one->miss), page_.told()),
                            one->miss > Length() ? "past it" : "short of it");
      }
      return text + ".";
    }
    std::string text = fmt::format("the last meets the first after {}, within two stitches by this gauge.{}",
                                   closing_counts(mind.closings), up_to(mind));
    const int nearest = mind.closings.back().rows;
    if (!is_felt(with_more(nearest))) return text;
    return text + fmt::format(" 1 % more yarn a {} moves that by {} after {}: watch the yarn.", one_word(),
                              tape_of(with_more(nearest)), nearest);
  }

  [[nodiscard]] std::string up_to(const WidthInMind& mind) const {
    if (!mind.ring_rows || *mind.ring_rows >= *mind.panel_rows) return {};
    return fmt::format(" Counts beyond {} were not looked at.", *mind.ring_rows);
  }

  // "2 to 12 and 40 rows, of these every second one": those nearest to the count told, which is the most of them.
  [[nodiscard]] std::string closing_counts(const std::vector<Closing>& closings) const {
    const int step = rounds() ? 1 : 2;
    struct Stretch {
      int from = 0, to = 0;
    };
    std::vector<Stretch> stretches;
    for (const Closing& one : closings) {
      if (!stretches.empty() && stretches.back().to + step == one.rows) {
        stretches.back().to = one.rows;
      } else {
        stretches.push_back({one.rows, one.rows});
      }
    }
    const std::size_t most = shown_.verbose ? stretches.size() : kMostListed;
    const std::size_t left_out = stretches.size() - std::min(most, stretches.size());
    std::vector<std::string> list;
    bool gaps = false;
    for (std::size_t k = left_out; k < stretches.size(); ++k) {
      const auto& [from, to] = stretches[k];
      const bool many = to - from > 2 * step;
      gaps = gaps || many;
      if (many) list.push_back(fmt::format("{} to {}", from, to));
      for (int rows = from; !many && rows <= to; rows += step) list.push_back(std::to_string(rows));
    }
    const bool one = closings.size() == 1 && closings.front().rows == 1;
    std::string text = fmt::format("{} {}", and_list(list), one ? one_word() : rows_word());
    if (gaps && step == 2) text += " (even counts only)";
    if (left_out > 0) text += fmt::format(", and {} lower ones (--verbose)", left_out);
    return text;
  }

  // Where the yarn is begun holds whatever the gauge turns out to be, so it comes first.
  [[nodiscard]] std::string panels(const WidthInMind& mind) const {
    const std::string where = shown_.beginning
                                  ? place_text(shown_.yarn.repeat, shown_.beginning->from, page_.told(), Length())
                                  : std::string("at the same place of the colours as the first one's");
    const Length moved = with_more(*mind.panel_rows);
    const Length off = *mind.between;
    std::string text =
        fmt::format("begin every panel's foundation {}. By this gauge {} after {} {}.", where,
                    is_nothing(off, page_.told())
                        ? std::string("nothing is to be cut off")
                        : fmt::format("cut {} off", is_felt(moved) ? tape_of(off) : amount(off, page_.told())),
                    *mind.panel_rows, rows_word());
    if (!is_felt(moved)) return text;
    return text + fmt::format(" 1 % more yarn a {} moves that by {}: go by the colours.", one_word(), tape_of(moved));
  }

  void begin() {
    const Beginning& begin = *shown_.beginning;
    const Repeat& repeat = shown_.yarn.repeat;
    const auto place = [&](Length at) { return place_text(repeat, at, page_.told(), Length()); };
    if (!begin.let_by && begin.foundation <= Length()) {
      return page_.say("Begin", fmt::format("{}, where the first stitch is to be.", place(begin.from)));
    }
    if (!begin.let_by) {
      return page_.say("Begin",
                       fmt::format("the foundation {}: after its {} the first stitch is {}.", place(begin.from),
                                   amount(begin.foundation, page_.told()), place(begin.wanted)));
    }
    std::string text = is_nothing(*begin.let_by, page_.told())
                           ? std::string("the foundation right at the loose end")
                           : fmt::format("the foundation {} from the loose end", amount(*begin.let_by, page_.told()));
    text += fmt::format(": the first stitch is then {}.", place(begin.wanted));
    const long extra = begin.foundations ? std::lround(*begin.foundations) : 0;
    if (extra > 0) {
      text += fmt::format(" Or make {} of foundation more, from the loose end on, and leave the first {} over.",
                          stitches(extra), extra);
    }
    page_.say("Begin", text);
  }

  // Of a chain that isn't counted the colours scatter at widths where they seemed to fall well.
  void turn() {
    page_.say("Turn",
              "none told, so taken as none. A turning chain takes yarn and moves the colours: tell it with "
              "--yarn-per-turn (0: none).");
  }

  const FallShown& shown_;
  Page page_;
};

}  // namespace

std::string_view look_name(Look look) {
  switch (look) {
    case Look::columns:
      return "columns";
    case Look::argyle:
      return "argyle";
    case Look::swirl:
      return "swirl";
    case Look::stripes:
      return "stripes";
    case Look::scattered:
      break;
  }
  return "scattered";
}

bool of_height_wanted(const Fall& one, const FallShown& shown) {
  constexpr double alike = 0.15;  // of the height
  return !shown.rows || !one.rows || std::abs(std::log(*one.rows / *shown.rows)) <= alike;
}

std::string fall_screen(const FallShown& shown, const Screen& screen, Told told) {
  return FallPage(shown, screen, told).take();
}

}  // namespace ballchange
