#include "show/offcuts.hpp"

#include <fmt/core.h>

#include <algorithm>

#include "base/text.hpp"

namespace ballchange {
namespace {

const std::string& colour_name(const State& state, ColourId colour) { return state.yarn.repeat.colours()[colour].name; }

// "plum 15 cm, sand 11 cm, rust 60 cm"; a long one as far as every section was told once.
std::string colours_along(const State& state, const offcuts::Offcut& offcut, Told told) {
  std::string text;
  std::size_t sections = 0;
  for (const offcuts::Stretch& stretch : offcut.stretches) {
    // The first one may be part of the section that then comes again.
    if (sections > state.yarn.repeat.size()) {
      return text + fmt::format(", and so on, {} in all", amount(offcut.length(), told));
    }
    sections += stretch.count;
    text += fmt::format("{}{} {}", text.empty() ? "" : ", ", printable(colour_name(state, stretch.colour), 40),
                        tape(stretch.length, told));
  }
  return text;
}

// "Entry 12, new end of ball B, 86 cm: plum 15 cm, sand 11 cm, rust 60 cm; long enough to bridge a join."
std::string kept_text(const OffcutsShown& shown, const offcuts::Kept& one, Told told) {
  const OffcutState& offcut = shown.state.offcuts[one.offcut];
  std::string text = fmt::format("entry {}, {} end", offcut.entry, cut_from_name(offcut.cut_from));
  if (offcut.ball) text += fmt::format(" of ball {}", printable(shown.state.balls[*offcut.ball].id, 40));
  text += fmt::format(", {}: ", amount(offcut.length, told));
  if (!one.placed) return text + "its colours aren't known.";
  text += colours_along(shown.state, *one.placed, told);
  return text + (shown.enough.to_bridge(offcut.length) ? "; may bridge a join." : ".");
}

// "rust 60 cm (entry 12), 44 cm (entry 3)"; the longest of each colour.
std::string sewing_text(const OffcutsShown& shown, Told told) {
  constexpr std::size_t kMost = 3;  // of a colour
  std::string text;
  const std::vector<offcuts::Sewing> all = offcuts::to_sew(shown.kept, shown.enough.sewing);
  for (auto from = all.begin(); from != all.end();) {
    const auto to = std::find_if(from, all.end(), [&](const offcuts::Sewing& s) { return s.colour != from->colour; });
    text += fmt::format("{}{}", text.empty() ? "" : "; ", printable(colour_name(shown.state, from->colour), 40));
    const auto count = static_cast<std::size_t>(to - from);
    for (std::size_t i = 0; i < std::min(count, kMost); ++i, ++from) {
      text += fmt::format("{} {} (entry {})", i == 0 ? "" : ",", tape(from->length, told),
                          shown.state.offcuts[from->offcut].entry);
    }
    if (count > kMost) text += fmt::format(" and {} more", count - kMost);
    from = to;
  }
  return text;
}

}  // namespace

std::string offcut_cut_from(const State& state, const OffcutState& offcut) {
  const auto of_it = [&](const OffcutState& other) { return other.entry == offcut.entry; };
  const bool two = std::count_if(state.offcuts.begin(), state.offcuts.end(), of_it) > 1;
  return two ? fmt::format(" --cut-from {}", cut_from_name(offcut.cut_from)) : std::string();
}

std::string offcut_lines(const OffcutsShown& shown, Told told, std::size_t columns) {
  if (shown.kept.empty()) {
    return labelled(
        "Offcuts",
        fmt::format("none is long enough: {} for sewing up, {} to bridge a join.", amount(shown.enough.sewing, told),
                    shown.enough.bridging ? amount(*shown.enough.bridging, told) : "more"),
        columns);
  }
  std::string text;
  for (const offcuts::Kept& one : shown.kept) {
    text += labelled(text.empty() ? "Offcuts" : "", kept_text(shown, one, told), columns);
  }
  const std::string sewing = sewing_text(shown, told);
  if (!sewing.empty())
    text += labelled("To sew", sewing + ": long enough for sewing up or edging in that colour.", columns);
  text += labelled("Then", "make one a ball to bridge a join with, or tell that it is used up:", columns);
  const OffcutState& last = shown.state.offcuts[shown.kept.back().offcut];
  const std::string which = fmt::format("--offcut {}{}", last.entry, offcut_cut_from(shown.state, last));
  const std::string path = typed_path(shown.path);
  for (const std::string& line : {fmt::format("ballchange ball {} {}", path, which),
                                  fmt::format("ballchange note {} \"sewed up the side\" {}", path, which)}) {
    text += std::string(kLabelWidth, ' ') + line + "\n";
  }
  return text;
}

std::string offcuts_line(const OffcutsShown& shown, Told told, std::size_t columns) {
  if (shown.kept.empty()) return {};
  Length longest;
  for (const offcuts::Kept& one : shown.kept) {
    longest = std::max(longest, shown.state.offcuts[one.offcut].length);
  }
  const std::string many = shown.kept.size() == 1
                               ? fmt::format("1 kept, {} long", amount(longest, told))
                               : fmt::format("{} kept, up to {} long", shown.kept.size(), amount(longest, told));
  return labelled("Offcuts", many + ": log --offcuts shows their colours.", columns);
}

std::string offcut_ball_text(const State& state, const BallState& ball, const std::optional<offcuts::Offcut>& placed,
                             Told told) {
  const std::string length = amount(ball.length.value_or(Length()), told);
  if (placed) return fmt::format("{}: {}.", length, colours_along(state, *placed, told));
  return fmt::format("{}. Where it lies on the repeat isn't known: tell its end with --new when it is joined.", length);
}

void offcuts_member(Json& json, const OffcutsShown& shown) {
  const State& state = shown.state;
  json.key("offcuts").array();
  for (const offcuts::Kept& one : shown.kept) {
    const OffcutState& offcut = state.offcuts[one.offcut];
    json.object().member("entry", offcut.entry).member("cut_from", cut_from_name(offcut.cut_from));
    json.member("ball", offcut.ball ? std::optional(state.balls[*offcut.ball].id) : std::nullopt);
    json.member("length", offcut.length);
    json.member("bridges", one.placed.has_value() && shown.enough.to_bridge(offcut.length));
    json.key("colours");
    if (!one.placed) {
      json.null();
    } else {
      json.array();
      for (const offcuts::Stretch& stretch : one.placed->stretches) {
        json.object().member("colour", colour_name(state, stretch.colour)).member("length", stretch.length).end();
      }
      json.end();
    }
    json.end();
  }
  json.end().member("offcuts_used", state.totals.offcuts_used);
}

}  // namespace ballchange
