#include "show/paint.hpp"

#include <fmt/core.h>

#include <array>
#include <cassert>

#include "base/text.hpp"

namespace ballchange {
namespace {

// Entry 16 to 255 of the palette: a cube of six steps each way, then 24 greys.
Shade palette_shade(int index) {
  static constexpr std::array<std::uint8_t, 6> kCube{0, 95, 135, 175, 215, 255};
  if (index >= 232) {
    const auto grey = static_cast<std::uint8_t>(8 + 10 * (index - 232));
    return {grey, grey, grey};
  }
  const auto at = static_cast<std::size_t>(index - 16);
  return {kCube[at / 36], kCube[at / 6 % 6], kCube[at % 6]};
}

std::string code(Shade ink, Shade ground, Depth depth) {
  if (depth == Depth::truecolour) {
    return fmt::format("\x1b[38;2;{};{};{};48;2;{};{};{}m", ink.red, ink.green, ink.blue, ground.red, ground.green,
                       ground.blue);
  }
  return fmt::format("\x1b[38;5;{};48;5;{}m", palette_index(ink), palette_index(ground));
}

// What a cell is written in; nothing for the terminal's own.
struct Colours {
  Shade ink, ground;
  friend bool operator==(const Colours&, const Colours&) = default;
};
std::optional<Colours> colours_of(const Cell& cell) {
  if (!cell.ground) return std::nullopt;
  const Shade letters = wants_white_letters(*cell.ground) ? Shade{255, 255, 255} : Shade{};
  return Colours{cell.ink.value_or(letters), *cell.ground};
}

}  // namespace

double luminance(Shade shade) {
  return 0.2126 * linear(shade.red) + 0.7152 * linear(shade.green) + 0.0722 * linear(shade.blue);
}

bool wants_white_letters(Shade shade) {
  const double light = luminance(shade);
  // contrast with white against contrast with black
  return 1.05 / (light + 0.05) > (light + 0.05) / 0.05;
}

int palette_index(Shade shade) {
  const Lab wanted = to_lab(shade);
  int best = 16;
  double best_difference = colour_difference(wanted, to_lab(palette_shade(best)));
  for (int i = best + 1; i < 256; ++i) {
    const double difference = colour_difference(wanted, to_lab(palette_shade(i)));
    if (difference < best_difference) {
      best = i;
      best_difference = difference;
    }
  }
  return best;
}

std::size_t write(Row& row, std::size_t at, std::string_view text, std::size_t room) {
  assert(at + room <= row.size());
  std::size_t used = 0;
  for (std::size_t next = 0; next < text.size();) {
    const std::size_t from = next;
    static_cast<void>(next_code_point(text, next));
    const std::string_view glyph = text.substr(from, next - from);
    const std::size_t wide = display_width(glyph);
    if (used + wide > room) break;
    if (wide == 0) {
      if (used > 0) row[at + used - 1].glyph += glyph;
      continue;
    }
    row[at + used].glyph = glyph;
    for (std::size_t i = 1; i < wide; ++i) row[at + used + i].glyph.clear();
    used += wide;
  }
  return used;
}

std::string painted(const Row& row, Depth depth) {
  std::size_t stop = row.size();
  while (stop > 0 && row[stop - 1].glyph == " " && (depth == Depth::none || !row[stop - 1].ground)) --stop;
  std::string out;
  std::optional<Colours> on;
  for (std::size_t i = 0; i < stop; ++i) {
    const auto wanted = depth == Depth::none ? std::nullopt : colours_of(row[i]);
    if (wanted != on) out += wanted ? code(wanted->ink, wanted->ground, depth) : "\x1b[0m";
    on = wanted;
    out += row[i].glyph;
  }
  if (on) out += "\x1b[0m";
  return out + "\n";
}

}  // namespace ballchange
