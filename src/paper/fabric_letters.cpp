#include "paper/fabric_letters.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <optional>
#include <set>
#include <utility>

#include "paper/lettering.hpp"

namespace ballchange {
namespace {

constexpr int kMostLetters = 400;
constexpr double kLetterAcross = 18, kLetterDown = 15;  // mm from letter to letter where rows are too low for one
constexpr double kPlate = 3;                            // mm, how wide such a letter's plate is

class Letters {
 public:
  Letters(Drawing& drawing, const FabricScene& scene, const std::vector<Ink>& inks, double scale)
      : drawing_(drawing), scene_(scene), inks_(inks), scale_(scale), lettered_(inks.size()) {}

  void draw() {
    scene_.row_height.cm() * scale_ < 0.9 * kLetters ? letters_on_plates() : letters_in_rows();
    letter_the_rest();
  }

 private:
  [[nodiscard]] double width() const { return scene_.width().cm() * scale_; }
  [[nodiscard]] double height() const { return scene_.height().cm() * scale_; }
  [[nodiscard]] PaperBox paper(const FabricBox& box) const { return on_paper(scene_, box, scale_); }

  // Where rows are too low for a letter, those of the colours around it, here and there, each on its shade.
  void letters_on_plates() {
    const FabricColours colours(scene_);
    const double down =
        std::max(kLetterDown, std::sqrt(width() * height() * kLetterDown / kLetterAcross / kMostLetters));
    const int lines = std::max(1, int(height() / down)), columns = std::max(1, int(width() / kLetterAcross));
    for (int line = 0; line < lines; ++line) {
      for (int column = 0; column < columns; ++column) {
        const Spot middle{width() * (column + 0.5) / columns, height() * (line + 0.5) / lines};
        const Lettered best = rarest_near(colours, middle, width() / columns, height() / lines);
        const double half = kPlate * double(best.colours.size()) / 2;
        const double left = std::max(best.at.x, half) - half;  // not over the rows' numbers
        for (std::size_t i = 0; i < best.colours.size(); ++i) {
          const double middle_of = left + kPlate * (double(i) + 0.5);
          plate({middle_of, best.at.y}, best.colours[i]);
        }
      }
    }
  }
  struct Spot {
    double x = 0, y = 0;
  };
  struct Lettered {
    Spot at;
    std::vector<ColourId> colours;
  };
  // Around a point of the grid, where the colour lies that has the fewest letters so far: short ones would get none.
  [[nodiscard]] Lettered rarest_near(const FabricColours& colours, Spot middle, double wide, double tall) const {
    static constexpr std::array<double, 7> kShifts{0, -0.12, 0.12, -0.24, 0.24, -0.36, 0.36};
    const auto size = [this](double mm) { return Length::cm(mm / scale_); };
    std::optional<Lettered> best;
    int fewest = 0;
    for (const double down : kShifts) {
      for (const double across : kShifts) {
        const Spot at{middle.x + across * wide, middle.y + down * tall};
        Lettered here{at,
                      colours.in({size(at.x - kPlate), size(at.y - kLetters / 2), size(2 * kPlate), size(kLetters)})};
        int least = std::numeric_limits<int>::max();
        for (const ColourId colour : here.colours) least = std::min(least, lettered_[colour]);
        if (best && least >= fewest) continue;
        fewest = least;
        best = std::move(here);
      }
    }
    return *best;
  }
  void plate(Spot middle, ColourId colour) {
    const Ink& ink = inks_[colour];
    // Of a piece lower than they are, letters stand above it.
    if (height() < 2 * kLetters) middle.y = -kLetters / 2 - 0.4;
    drawing_.rect(middle.x - kPlate / 2, middle.y - kLetters / 2, kPlate, kLetters + 0.2,
                  fmt::format("fill=\"{}\"", hex(ink.shade)));
    drawing_.text(middle.x, middle.y + kSink * kLetters, ink.letter,
                  fmt::format("fill=\"{}\" text-anchor=\"middle\"", letters_on(ink.shade)));
    ++lettered_[colour];
    plates_.push_back(middle);
  }

  // Colours whose stretches are all too short for the above: one in each third of the piece, where they are widest.
  void letter_the_rest() {
    struct Place {
      double wide = 0;
      Spot middle;
      ColourId colour = 0;
      int third = 0;
    };
    std::vector<Place> places;
    for (const FabricPatch& patch : scene_.patches) {
      if (lettered_[patch.colour] > 0) continue;
      for (const FabricBox& one : patch.boxes) {
        const PaperBox box = paper(one);
        const auto inside = [](double at, double all) {
          return std::clamp(at, std::min(kPlate, all) / 2, std::max(kPlate, all) - kPlate / 2);
        };
        const Spot middle{inside((box.left + box.right) / 2, width()), (box.top + box.bottom) / 2};
        places.push_back({box.right - box.left, middle, patch.colour, 3 * one.row / (scene_.rows + 1)});
      }
    }
    std::stable_sort(places.begin(), places.end(), [](const Place& a, const Place& b) { return a.wide > b.wide; });
    std::set<std::pair<ColourId, int>> told;
    for (const Place& place : places) {
      if (!is_free(place.middle) || !told.emplace(place.colour, place.third).second) continue;
      plate(place.middle, place.colour);
    }
    // Other letters stand on all of them.
    for (const Place& place : places) {
      if (lettered_[place.colour] == 0) plate(place.middle, place.colour);
    }
  }
  [[nodiscard]] bool is_free(Spot at) const {
    return std::none_of(plates_.begin(), plates_.end(), [&](Spot other) {
      return std::abs(at.x - other.x) < kPlate &&
             (height() < 2 * kLetters || std::abs(at.y - other.y) < kLetters + 0.2);
    });
  }

  // In patches that have room for one.
  void letters_in_rows() {
    int written = 0;
    for (const FabricPatch& patch : scene_.patches) {
      const auto widest =
          std::max_element(patch.boxes.begin(), patch.boxes.end(),
                           [](const FabricBox& a, const FabricBox& b) { return a.to - a.from < b.to - b.from; });
      const PaperBox box = paper(*widest);
      if (box.right - box.left < 2 * kLetters || box.bottom - box.top < 0.9 * kLetters) continue;
      if (++written > kMostLetters) return;
      const Ink& ink = inks_[patch.colour];
      const Spot middle{(box.left + box.right) / 2, (box.top + box.bottom) / 2};
      ++lettered_[patch.colour];
      plates_.push_back(middle);
      drawing_.text(middle.x, middle.y + 0.36 * kLetters, ink.letter,
                    fmt::format("fill=\"{}\" text-anchor=\"middle\"", letters_on(ink.shade)));
    }
  }

  Drawing& drawing_;
  const FabricScene& scene_;
  const std::vector<Ink>& inks_;
  double scale_;
  std::vector<int> lettered_;  // by colour
  std::vector<Spot> plates_;   // the middles of all letters
};

}  // namespace

PaperBox on_paper(const FabricScene& scene, const FabricBox& box, double scale) {
  const SheetBox on = on_sheet(scene, box);
  const auto at = [scale](Length length) { return std::round(length.cm() * scale * 100) / 100; };
  return {at(on.x), at(on.y), at(on.x + on.width), at(on.y + on.height)};
}

void draw_fabric_letters(Drawing& drawing, const FabricScene& scene, const std::vector<Ink>& inks, double scale) {
  Letters(drawing, scene, inks, scale).draw();
}

}  // namespace ballchange
