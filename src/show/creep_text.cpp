#include <fmt/core.h>

#include <algorithm>
#include <cmath>

#include "base/normal.hpp"
#include "base/number.hpp"
#include "base/text.hpp"
#include "ledger/shifts.hpp"
#include "show/creep.hpp"
#include "show/entry_text.hpp"

namespace ballchange {
namespace {

using creeping::Creep;
using creeping::Use;

constexpr double kInch = 2.54;

// In halves: "half a stitch", "1.5 stitches".
std::string half_stitches(double count) {
  const double halves = std::round(std::abs(count) * 2) / 2;
  if (halves == 0.5) return "half a stitch";
  return fmt::format("{} {}", plain_number(halves, 1), halves == 1 ? "stitch" : "stitches");
}

// Finer than a tape: of a stitch, or of what a row creeps.
std::string fine(Length length, Told told, int decimals) {
  const bool inches = told == Told::inches;
  return fmt::format("{} {}", plain_number(std::abs(length.cm()) / (inches ? kInch : 1), decimals),
                     inches ? "in" : "cm");
}

struct Words {
  const CreepShown& shown;
  const Creep& creep;
  Told told;

  [[nodiscard]] bool in_stitches() const { return shown.state.ruler.in_stitches; }
  [[nodiscard]] Length stitch() const { return *shown.state.gauge.now().yarn_per_stitch; }
  [[nodiscard]] double a_repeat() const { return creep.fewer_stitches; }
  [[nodiscard]] std::string_view row() const { return row_word(shown.state.fabric.working); }
  // Rounds to something that can be told.
  [[nodiscard]] bool tells() const { return creep.plain() && std::abs(a_repeat()) >= 0.25; }

  [[nodiscard]] std::string tension() const {
    const Length least = Length::cm(told == Told::inches ? kInch / 100 : 0.01);
    return fmt::format("{} of yarn a stitch, give or take {}; the gauge says {}.", fine(creep.per_stitch, told, 2),
                       fine(std::max(kNineInTen * creep.per_stitch_sd, least), told, 2), fine(stitch(), told, 2));
  }

  // Whole stitches where it is known no better.
  [[nodiscard]] std::string counted(double count) const {
    const bool roughly = kNineInTen * (creep.per_repeat_sd / stitch()) >= 1.5;
    if (!roughly || std::abs(count) < 1) return half_stitches(count);
    return "about " + stitches(std::lround(std::abs(count)));
  }

  // What of it the hand does, and what the ball in work: " (5 your hand, 3 ball A's repeat)".
  [[nodiscard]] std::string parts() const {
    const double repeat = shown.state.yarn.repeat.total() / stitch();
    const double hand = repeat * (1 - 1 / (1 + creep.looser.mean));
    const double ball = a_repeat() - hand;
    const bool both = std::lround(std::abs(hand)) > 0 && std::lround(std::abs(ball)) > 0;
    if (!both || (hand > 0) != (ball > 0) || !shown.state.working) return {};
    const long of_hand = std::lround(std::abs(hand));
    const long of_ball = std::lround(std::abs(a_repeat())) - of_hand;
    if (of_ball < 1) return {};
    return fmt::format(" ({} your hand, {} ball {}'s repeat)", of_hand, of_ball,
                       printable(shown.state.balls[*shown.state.working].id, 40));
  }

  [[nodiscard]] std::string how_far() const {
    std::string text =
        fmt::format("colours come {} a repeat {}{}", counted(a_repeat()), a_repeat() > 0 ? "early" : "late", parts());
    if (creep.per_row && !in_stitches()) text += fmt::format(", {} a {}", fine(*creep.per_row, told, 1), row());
    return fmt::format("{}; it shows from about {} a repeat on.", text, half_stitches(shown.shows_from / stitch()));
  }

  [[nodiscard]] std::string not_yet() const {
    if (!creep.ball_seen) return "not known of the ball in work: tell where its colours fall.";
    const double most = std::abs(a_repeat()) + kNineInTen * (creep.per_repeat_sd / stitch());
    return fmt::format("none that can be told: at most {} a repeat either way.",
                       half_stitches(std::ceil(most * 2) / 2));
  }

  // Stitches less in a row that take it back to the gauge's length.
  [[nodiscard]] long less_a_row() const {
    const auto stitches = shown.state.fabric.stitches;
    if (!stitches) return 0;
    return std::lround(*stitches * creep.creep.mean / (1 + creep.creep.mean));
  }

  [[nodiscard]] std::string remedy() const {
    std::string text =
        fmt::format("work {} by {} a repeat", a_repeat() > 0 ? "tighter" : "looser", counted(a_repeat()));
    const long less = less_a_row();
    if (less != 0) {
      const std::string count = std::abs(less) == 1 ? "one stitch" : stitches(std::abs(less));
      text += fmt::format(", or in a new piece {} {} a {}", count, less > 0 ? "less" : "more", row());
    }
    if (shown.size) {
      const std::string to = plain_number(shown.size->to_mm, 3);
      text += fmt::format(", or {} instead of {}",
                          shown.size->needle ? fmt::format("{} mm needles", to) : fmt::format("a {} mm hook", to),
                          plain_number(shown.size->from_mm, 3));
    }
    return text + ".";
  }

  [[nodiscard]] std::string record() const {
    const bool inches = told == Told::inches;
    const std::string length = fmt::format(
        "{}{}", plain_number(creep.per_stitch.cm() / (inches ? kInch : 1), inches ? 3 : 2), inches ? "in" : "cm");
    return fmt::format("ballchange gauge {} --yarn-per-stitch {}", typed_path(shown.path), length);
  }
};

bool some_colour_comes_once(const Repeat& repeat) {
  const auto& sections = repeat.sections();
  return std::any_of(sections.begin(), sections.end(), [&](const Section& one) {
    return std::count_if(sections.begin(), sections.end(),
                         [&](const Section& other) { return other.colour == one.colour; }) == 1;
  });
}

std::string_view why_unused(Use use, const Repeat& repeat) {
  switch (use) {
    case Use::counted:
      break;
    case Use::first:
      return "what is seen next is counted from it.";
    case Use::several:
      return some_colour_comes_once(repeat)
                 ? "it might be several places of the yarn, and tells nothing yet; tell one whose colour comes once a "
                   "repeat."
                 : "it might be several places of the yarn, and tells nothing: no colour of it comes once a repeat, so "
                   "only the reading of the end the work began with says where colours lie.";
    case Use::again:
      return "told before, and counted once.";
    case Use::unfitting:
      return "no such change can lie there, so it isn't counted: look again, or cancel the entry.";
    case Use::no_place:
      return "not counted while the stitches of a row or the yarn per stitch aren't known.";
  }
  return {};
}

std::string corrected(const CreepShown& shown, const JoinState& join, Told told) {
  const Repeat& repeat = shown.state.yarn.repeat;
  const std::string_view colour = repeat.colours()[join.seen->colour].name;
  const bool as_reckoned = bears_out(join, repeat);
  std::string text = fmt::format("{} made {}{}: at the {} of entry {} colours are {}", printable(colour, 60),
                                 half_stitches(join.seen->stitches), as_reckoned ? ", as reckoned" : "",
                                 join.knot ? "knot" : "join", join.entry, shift_words(*shift_told(join, repeat), told));
  if (as_reckoned) return text + ".";
  if (join.recorded_shift && abs(*join.recorded_shift - *join.shift) >= Length::cm(0.05)) {
    text += fmt::format(" (by its readings: {})", shift_words(*join.recorded_shift, told));
  }
  return text + ".";
}

// The first that doesn't fit the others, by its entry.
std::string unfitting_text(const CreepShown& shown) {
  const auto& all = shown.creep->sightings;
  const auto first = std::find_if(all.begin(), all.end(), [](const auto& one) { return one.use == Use::unfitting; });
  if (first == all.end()) return {};
  const Sighting& sighting = shown.state.sightings[first->sighting];
  const int more = shown.creep->unfitting - 1;
  return fmt::format(
      "{} (entry {}){} fit the other colours that were seen and {}n't counted: look again, or cancel it.",
      printable(sighting.seen.text, 60), sighting.entry,
      more == 0 ? " does not" : fmt::format(" and {} more do not", more), more == 0 ? "is" : "are");
}

std::string doubtful_text(const Creep& creep) {
  return fmt::format(
      "not told: {} of {} colours that were seen don't fit the others. Look where they really fall, and "
      "cancel what is wrong.",
      creep.unfitting, creep.unfitting + creep.counted + (creep.anchored ? 1 : 0));
}

}  // namespace

namespace {

// "about 5 % longer than the yarn's: colours come 13 cm (7 stitches) a repeat late"
std::string longer_words(double share, Length repeat, std::optional<Length> stitch, Told told) {
  const Length off = abs(repeat * share);
  const long count = stitch && told != Told::stitches ? std::lround(off / *stitch) : 0;
  return fmt::format("about {} % {} than the yarn's: colours come {}{} a repeat {}",
                     plain_number(std::abs(share) * 100, 0), share > 0 ? "longer" : "shorter", tape(off, told),
                     count > 0 ? fmt::format(" ({})", stitches(count)) : std::string(), share > 0 ? "late" : "early");
}

}  // namespace

std::string longer_text(const creeping::Share& longer, Length repeat, std::optional<Length> stitch, Told told) {
  return fmt::format("its repeat is {}.", longer_words(longer.mean, repeat, stitch, told));
}

std::string longer_text(const creeping::Longer& longer, Length repeat, std::optional<Length> stitch, Told told) {
  if (!longer.unusual) return longer_text(longer.likely, repeat, stitch, told);
  return fmt::format("its repeat as it was read is {}, if it goes on so. Read one repeat more of it to be sure.",
                     longer_words(longer.as_read, repeat, stitch, told));
}

std::string creep_lines(const CreepShown& shown, Told told, std::size_t columns) {
  if (!shown.creep) return {};
  if (shown.creep->doubtful()) return labelled("Creep", doubtful_text(*shown.creep), columns);
  if (!shown.creep->known) return {};
  const Words words{shown, *shown.creep, told};
  std::string text;
  if (!words.in_stitches()) text += labelled("Tension", words.tension(), columns);
  if (const std::string unfit = unfitting_text(shown); !unfit.empty()) text += labelled("Mind", unfit, columns);
  if (!words.tells()) return text + labelled("Creep", words.not_yet(), columns);
  text += labelled("Creep", words.how_far(), columns);
  if (abs(words.creep.per_repeat) < shown.shows_from / 2) return text;
  text += labelled("To mend", words.remedy(), columns);
  if (!words.in_stitches()) {
    text += labelled("Or record", "what your hand takes, to reckon on with it:", columns);
    text += std::string(kLabelWidth, ' ') + words.record() + "\n";
  }
  return text;
}

std::string longer_balls_lines(const CreepShown& shown, Told told, std::size_t columns) {
  std::string text;
  if (!shown.creep || shown.creep->doubtful()) return text;
  const Length repeat = shown.state.yarn.repeat.total();
  for (const creeping::BallRepeat& ball : shown.creep->balls) {
    if (!plain(ball.longer) || is_nothing(repeat * ball.longer.mean, told)) continue;
    text += labelled(text.empty() ? "Differs" : "",
                     fmt::format("ball {}: {}", printable(ball.ball, 60),
                                 longer_text(ball.longer, repeat, shown.state.fabric.yarn_per_stitch, told)),
                     columns);
  }
  return text;
}

std::string seen_lines(const CreepShown& shown, int entry, Told told, std::size_t columns) {
  std::string text;
  const auto add = [&](const std::string& line) { text += labelled(text.empty() ? "Seen" : "", line, columns); };
  if (shown.creep) {
    for (const creeping::Watched& watched : shown.creep->sightings) {
      const Sighting& sighting = shown.state.sightings[watched.sighting];
      if (sighting.entry < entry || watched.use == Use::counted) continue;
      add(fmt::format("{}: {}", printable(sighting.seen.text, 60), why_unused(watched.use, shown.state.yarn.repeat)));
    }
  }
  for (const JoinState& join : shown.state.joins) {
    if (join.held == JoinHeld::in_work && join.seen && join.seen->entry >= entry) add(corrected(shown, join, told));
  }
  return text;
}

}  // namespace ballchange
