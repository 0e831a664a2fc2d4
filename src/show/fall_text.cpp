#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "base/number.hpp"
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

  [[nodiscard]] std::string tall(const Fall& one) const {
    if (!one.rows) return {};
    std::string text = fmt::format("{:.0f} {}{}", *one.rows, rows_word(), in_work(*one.rows, shown_.rows_in_10cm));
    const auto less = rows_with(shown_.colouring, one.stitches, -0.01);
    const auto more = rows_with(shown_.colouring, one.stitches, 0.01);
    if (less && more && std::lround(*less) != std::lround(*more)) {
      text += fmt::format(" ({:.0f} to {:.0f})", std::min(*less, *more), std::max(*less, *more));
    }
    return text;
  }

  [[nodiscard]] std::string what(const Fall& one) const {
    switch (one.look) {
      case Look::columns:
        return rounds() ? "the colours stack in columns"
                        : fmt::format("columns: every second {} stacks, those between mirror it",
                                      shown_.colouring.working == Working::rows ? "row" : "round");
      case Look::argyle:
        return "argyle, diamonds " + tall(one) + " tall";
      case Look::swirl:
        return fmt::format("the colours swirl {} stitches a round to the {}, and come round again after {}",
                           plain_number(abs(one.drift) / shown_.colouring.stitch, 1),
                           one.drift > Length() ? "beginning" : "end", tall(one));
      case Look::stripes:
        return "stripes, the whole repeat " + tall(one) + " tall";
      case Look::scattered:
        break;
    }
    return "the colours scatter: neither columns nor diagonals nor stripes";
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
        return "each colour fills whole ones, and the repeat comes again after";
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
    for (std::size_t k = 0; k < std::min(most, some.size()); ++k) row(some[k]);
    if (some.size() > most) page_.say("", fmt::format("and {} more widths", some.size() - most));
  }

  void widths() {
    if (std::none_of(shown_.widths.begin(), shown_.widths.end(),
                     [](const Fall& one) { return one.look != Look::scattered; })) {
      return none();
    }
    for (const Look look : kLooks) list(look, shown_.look ? kMostListed : kMostListedOfAll);
    page_.say("Forgives", fmt::format("how much more or less yarn a {} may take before the look goes; in brackets what "
                                      "1 % does.",
                                      shown_.colouring.working == Working::rows ? "row" : "round"));
    const double best = std::max_element(shown_.widths.begin(), shown_.widths.end(), [](const Fall& a, const Fall& b) {
                          return a.forgives < b.forgives;
                        })->forgives;
    if (best < kSteady) page_.say("Mind", "none of these forgives 1 %: even tension decides.");
  }

  void none() {
    std::string text = fmt::format("from {} to {} stitches the colours {}", shown_.low, shown_.high,
                                   shown_.look ? fmt::format("make no {}", look_name(*shown_.look)) : "only scatter");
    if (shown_.rows) text += fmt::format(" about {:.0f} {} tall", *shown_.rows, rows_word());
    for (std::size_t k = 0; k < shown_.outside.size(); ++k) {
      const Fall& one = shown_.outside[k];
      text += fmt::format("{} {} stitches",
                          k > 0         ? " and"
                          : shown_.look ? "; the nearest that do:"
                                        : "; the nearest that don't:",
                          one.stitches);
      if (one.rows) text += fmt::format(" ({})", tall(one));
    }
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
      page_.say(
          mind.instead ? "Or try" : "Try",
          fmt::format("{} mm instead of {} and the same stitches: {}, if the yarn in a stitch changes as the "
                      "size; a swatch tells.",
                      plain_number(mind.size->to_mm, 3), plain_number(mind.size->from_mm, 3), what(mind.size->fall)));
    }
    std::string text = what(mind.fall);
    if (mind.fall.look != Look::scattered) text += fmt::format("; it forgives {}", share(mind.fall.forgives));
    page_.say(fmt::format("{} st", mind.fall.stitches), text + ".");
    if (mind.size && !mind.size->note.empty()) page_.say("Size", mind.size->note + ".");
  }

  void after() {
    const WidthInMind& mind = *shown_.in_mind;
    if (!mind.panel_rows) return;
    std::string list;
    for (std::size_t k = 0; k < std::min(mind.closings.size(), kMostListed); ++k) {
      if (k > 0) list += ", ";
      list += std::to_string(mind.closings[k].rows);
    }
    page_.say("Ring", list.empty()
                          ? fmt::format("no count up to {} {} brings the last to meet the first.", *mind.panel_rows,
                                        rows_word())
                          : fmt::format("the last meets the first after {} {}, within a stitch.", list, rows_word()));
    if (!mind.between) return;
    page_.say("Panels", fmt::format("after {} {} {}, and the next panel's colours fall as this one's.",
                                    *mind.panel_rows, rows_word(),
                                    is_nothing(*mind.between, page_.told())
                                        ? "go straight on"
                                        : fmt::format("cut {} off", amount(*mind.between, page_.told()))));
  }

  void begin() {
    const Beginning& begin = *shown_.beginning;
    const Repeat& repeat = shown_.yarn.repeat;
    const auto place = [&](Length at) { return place_text(repeat, at, page_.told(), Length()); };
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

std::string fall_screen(const FallShown& shown, const Screen& screen, Told told) {
  return FallPage(shown, screen, told).take();
}

}  // namespace ballchange
