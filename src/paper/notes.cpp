#include "paper/notes.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <numeric>
#include <optional>
#include <utility>

#include "paper/lettering.hpp"

namespace ballchange {
namespace {

constexpr double kApart = 2;         // mm between notes of one row
constexpr double kBesideLine = 0.8;  // mm from words to a line that passes them
constexpr double kFromPole = 1;
constexpr std::size_t kMostRows = 6;

bool covers(const PlacedNote& placed, double at) {
  return at > placed.left - kBesideLine && at < placed.left + placed.width + kBesideLine;
}

// Whether two notes can both be read: side by side in a row, or the line of the further one passing the nearer words.
bool clash(const PlacedNote& a, const PlacedNote& b) {
  if (a.row == b.row) return a.left < b.left + b.width + kApart && b.left < a.left + a.width + kApart;
  const PlacedNote& near = a.row < b.row ? a : b;
  const PlacedNote& far = a.row < b.row ? b : a;
  return covers(near, far.note.at);
}

struct Sides {
  double room;  // 0 .. room, in mm
  double most;  // that words may take
  std::vector<double> poles;
};

// Beside its pole, on one side of it.
PlacedNote flag(const PointNote& note, const Sides& sides, bool to_the_left) {
  const double most = std::max(sides.most, written_width(note.least));
  PlacedNote placed{note, 0, std::min(most, written_width(fitted_words(note, most))), 0};
  placed.left = to_the_left ? note.at - kFromPole - placed.width : note.at + kFromPole;
  placed.ends_at = to_the_left;
  return placed;
}

bool on_paper(const PlacedNote& placed, const Sides& sides) {
  return placed.left >= 0 && placed.left + placed.width <= sides.room;
}

bool free_among(const PlacedNote& next, const std::vector<PlacedNote>& placed, const std::vector<double>& poles) {
  const auto clashes = [&](const PlacedNote& other) { return clash(next, other); };
  const auto crossed = [&](double pole) { return covers(next, pole); };
  return std::none_of(placed.begin(), placed.end(), clashes) && std::none_of(poles.begin(), poles.end(), crossed);
}

// In the nearest row that is free; `freely`: where no other pole may pass the words either. False where there is none.
bool place_nearest(const PointNote& note, const std::vector<PointNote>& notes, bool freely, const Sides& sides,
                   std::vector<PlacedNote>& placed) {
  for (std::size_t row = 0; row < kMostRows; ++row) {
    for (const bool to_the_left : {false, true}) {
      PlacedNote next = flag(note, sides, to_the_left);
      next.row = row;
      const auto passed = [&](const PointNote& other) { return &other != &note && covers(next, other.at); };
      if (!on_paper(next, sides) || !free_among(next, placed, sides.poles)) continue;
      if (freely && std::any_of(notes.begin(), notes.end(), passed)) continue;
      placed.push_back(std::move(next));
      return true;
    }
  }
  return false;
}

// Those that come first first. Nothing where one finds no row.
std::optional<std::vector<PlacedNote>> placed_nearest(const std::vector<PointNote>& notes, const Sides& sides) {
  std::vector<PlacedNote> placed;
  for (const PointNote& note : notes) {
    if (!place_nearest(note, notes, true, sides, placed) && !place_nearest(note, notes, false, sides, placed)) {
      return std::nullopt;
    }
  }
  return placed;
}

// Which must stand before their poles: those that don't fit behind them, and those whose words would then lie across
// such a pole.
std::vector<bool> before_poles(const std::vector<PointNote>& notes, const Sides& sides) {
  std::vector<bool> before(notes.size());
  for (bool more = true; more;) {
    more = false;
    for (std::size_t i = 0; i < notes.size(); ++i) {
      if (before[i]) continue;
      const PlacedNote behind = flag(notes[i], sides, false);
      bool turn = !on_paper(behind, sides);
      for (std::size_t k = 0; k < notes.size(); ++k) turn = turn || (before[k] && covers(behind, notes[k].at));
      before[i] = turn && on_paper(flag(notes[i], sides, true), sides);
      more = more || before[i];
    }
  }
  return before;
}

// Like stairs: words that reach to the right lie further out than those under them, from the right on; then those that
// reach to the left, from the left on. No pole then crosses words, at the price of more rows.
std::vector<PlacedNote> placed_as_stairs(const std::vector<PointNote>& notes, const Sides& sides) {
  const std::vector<bool> before = before_poles(notes, sides);
  std::vector<std::size_t> order(notes.size());
  std::iota(order.begin(), order.end(), 0U);
  std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
    if (before[a] != before[b]) return bool(before[b]);
    return before[a] ? notes[a].at < notes[b].at : notes[a].at > notes[b].at;
  });
  std::vector<PlacedNote> placed;
  for (const std::size_t i : order) {
    PlacedNote next = flag(notes[i], sides, before[i]);
    if (!on_paper(next, sides)) next.left = std::clamp(next.left, 0.0, sides.room - next.width);
    while (next.row <= placed.size() && !free_among(next, placed, sides.poles)) ++next.row;
    placed.push_back(std::move(next));
  }
  return placed;
}

// From the other side.
std::vector<PlacedNote> placed_as_mirrored_stairs(const std::vector<PointNote>& notes, const Sides& sides) {
  std::vector<PointNote> mirrored = notes;
  for (PointNote& note : mirrored) note.at = sides.room - note.at;
  Sides other = sides;
  for (double& pole : other.poles) pole = sides.room - pole;
  std::vector<PlacedNote> placed = placed_as_stairs(mirrored, other);
  for (PlacedNote& one : placed) {
    one.note.at = sides.room - one.note.at;
    one.left = sides.room - one.left - one.width;
    one.ends_at = one.left < one.note.at;
  }
  return placed;
}

bool all_apart(const std::vector<PlacedNote>& placed, const std::vector<double>& poles) {
  for (std::size_t i = 0; i < placed.size(); ++i) {
    if (std::any_of(poles.begin(), poles.end(), [&](double pole) { return covers(placed[i], pole); })) return false;
    for (std::size_t k = 0; k < i; ++k) {
      if (clash(placed[i], placed[k])) return false;
    }
  }
  return true;
}

}  // namespace

std::vector<PlacedNote> placed_notes(const std::vector<PointNote>& notes, double room,
                                     const std::vector<double>& poles) {
  std::vector<PlacedNote> stairs = placed_as_stairs(notes, {room, room, poles});
  // Where nothing else keeps words and poles apart, words are cut short.
  constexpr double shorter = 0.8, least = 4 * kLetters;
  for (double most = room; most >= least; most *= shorter) {
    const Sides sides{room, most, poles};
    if (auto placed = placed_nearest(notes, sides)) return std::move(*placed);
    stairs = placed_as_stairs(notes, sides);
    if (all_apart(stairs, poles)) return stairs;
    std::vector<PlacedNote> mirrored = placed_as_mirrored_stairs(notes, sides);
    if (all_apart(mirrored, poles)) return mirrored;
  }
  return stairs;
}

std::string fitted_words(const PointNote& note, double room) {
  if (note.least.empty() || written_width(note.words) <= room) return cut_short(note.words, room);
  constexpr double worth_reading = 2 * kLetters;
  const std::size_t begins = note.name.empty() ? std::string::npos : note.words.find(note.name, note.least.size());
  if (begins != std::string::npos) {
    const std::string before = note.words.substr(0, begins), after = note.words.substr(begins + note.name.size());
    const double left = room - written_width(before) - written_width(after);
    if (left >= worth_reading) return before + cut_short(note.name, left) + after;
  }
  return note.least;
}

std::size_t rows_of(const std::vector<PlacedNote>& notes) {
  std::size_t rows = 0;
  for (const PlacedNote& note : notes) rows = std::max(rows, note.row + 1);
  return rows;
}

void draw_notes(Drawing& drawing, const std::vector<PlacedNote>& notes, double edge, double nearest, double away) {
  for (const PlacedNote& placed : notes) {
    const PointNote& note = placed.note;
    const double y = edge + away * (nearest + kLine * (double(placed.row) + 0.5));
    drawing.line(note.at, edge, note.at, y + away * 1.4,
                 fmt::format("stroke=\"currentColor\" stroke-width=\"{}\"", note.heavy ? ".5" : ".25"));
    drawing.text(
        placed.ends_at ? placed.left + placed.width : placed.left, y + kSink * kLetters,
        fitted_words(note, placed.width + 0.1),
        fmt::format("{}{}", note.heavy ? "font-weight=\"bold\"" : "", placed.ends_at ? " text-anchor=\"end\"" : ""));
  }
}

}  // namespace ballchange
