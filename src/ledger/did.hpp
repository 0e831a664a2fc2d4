#pragma once
#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/length.hpp"
#include "base/limits.hpp"
#include "base/measure.hpp"
#include "join/method.hpp"
#include "reading/reading.hpp"

// What each kind of entry of a log holds (DEVELOPERS.md: to add one). fields() names every key once, in the order
// written. What must be there is plain; an optional, a list or a bool need not.
namespace ballchange {

// A length as it was told; stitches become yarn by the gauge in force. A shift may be negative.
struct Amount {
  double number = 0;
  Unit unit = Unit::cm;
  friend bool operator==(const Amount&, const Amount&) = default;
};

enum class BallEnd { outside, inside };
enum class Winding { mill, hand };
enum class Sign { none, either };
enum class CountFrom { zero, one };

enum class TextSize : std::size_t { name = kMostNameBytes, remark = 2'000, reading = 65'536 };  // bytes at most

namespace did {

struct Ball {
  static constexpr std::string_view kName = "ball";
  std::string ball;
  std::optional<Mass> mass, scale;  // scale: the step of mass; left out: as it is written
  std::optional<std::string> dye_lot, outside, inside;
  std::optional<BallEnd> from;
  std::optional<Winding> wound;
  bool plain = false;  // a second yarn of one colour
  std::optional<Amount> length;
  std::optional<int> offcut;  // a piece cut off at that entry
  std::optional<End> cut_from;
  template <typename Self, typename Visit>
  static void fields(Self& self, Visit&& visit) {
    visit("ball", self.ball);
    visit("mass", self.mass);
    visit("dye_lot", self.dye_lot);
    visit("outside", self.outside, TextSize::reading);
    visit("inside", self.inside, TextSize::reading);
    visit("from", self.from);
    visit("wound", self.wound);
    visit("plain", self.plain);
    visit("length", self.length);
    visit("offcut", self.offcut);
    visit("cut_from", self.cut_from);
    visit("scale", self.scale);
  }
  friend bool operator==(const Ball&, const Ball&) = default;
};

struct Begin {
  static constexpr std::string_view kName = "begin";
  std::string ball;
  std::optional<Amount> trim_new;
  template <typename Self, typename Visit>
  static void fields(Self& self, Visit&& visit) {
    visit("ball", self.ball);
    visit("trim_new", self.trim_new);
  }
  friend bool operator==(const Begin&, const Begin&) = default;
};

struct Row {
  static constexpr std::string_view kName = "row";
  int row = 1;
  std::optional<int> stitch;      // without it the row is finished
  std::vector<std::string> seen;  // "row 120 stitch 14 navy begins"
  template <typename Self, typename Visit>
  static void fields(Self& self, Visit&& visit) {
    visit("row", self.row);
    visit("stitch", self.stitch, CountFrom::zero);
    visit("seen", self.seen);
  }
  friend bool operator==(const Row&, const Row&) = default;
};

struct Join {
  static constexpr std::string_view kName = "join";
  std::string ball;  // the fresh one; the same one at a knot
  bool knot = false;
  std::optional<Method> method;
  std::optional<Amount> allowance, trim_old, trim_new;
  std::optional<int> row, stitch;  // where the join's middle fell
  bool at_least = false;           // or later: no hook was shown
  std::optional<Amount> shift;     // + skipped, - repeated; not known when left out
  std::optional<std::string> old_reading, new_reading;

  // A knot that stays as it was tied: nothing is cut, and nothing of the work's yarn goes into it.
  [[nodiscard]] bool leaves_knot() const { return knot && !method && !allowance && !trim_old && !trim_new; }
  template <typename Self, typename Visit>
  static void fields(Self& self, Visit&& visit) {
    visit("ball", self.ball);
    visit("knot", self.knot);
    visit("method", self.method);
    visit("allowance", self.allowance);
    visit("trim_old", self.trim_old);
    visit("trim_new", self.trim_new);
    visit("row", self.row);
    visit("stitch", self.stitch, CountFrom::zero);
    visit("at_least", self.at_least);
    visit("shift", self.shift, Sign::either);
    visit("old", self.old_reading, TextSize::reading);
    visit("new", self.new_reading, TextSize::reading);
  }
  friend bool operator==(const Join&, const Join&) = default;
};

struct Weigh {
  static constexpr std::string_view kName = "weigh";
  std::string ball;
  Mass mass;
  std::optional<Mass> scale;  // the step it shows; left out: as the mass is written
  template <typename Self, typename Visit>
  static void fields(Self& self, Visit&& visit) {
    visit("ball", self.ball);
    visit("mass", self.mass);
    visit("scale", self.scale);
  }
  friend bool operator==(const Weigh&, const Weigh&) = default;
};

struct Rip {
  static constexpr std::string_view kName = "rip";
  int row = 0;  // back to the end of that row; 0: only the foundation is left
  template <typename Self, typename Visit>
  static void fields(Self& self, Visit&& visit) {
    visit("row", self.row, CountFrom::zero);
  }
  friend bool operator==(const Rip&, const Rip&) = default;
};

struct Cancel {
  static constexpr std::string_view kName = "cancel";
  int entry = 1;
  template <typename Self, typename Visit>
  static void fields(Self& self, Visit&& visit) {
    visit("entry", self.entry);
  }
  friend bool operator==(const Cancel&, const Cancel&) = default;
};

struct Gauge {
  static constexpr std::string_view kName = "gauge";
  std::optional<Amount> yarn_per_stitch, yarn_per_turn;
  std::optional<double> stitches_in_10cm, rows_in_10cm;                // as worked
  std::optional<double> washed_stitches_in_10cm, washed_rows_in_10cm;  // the same piece washed and dried
  std::optional<std::string> size;
  template <typename Self, typename Visit>
  static void fields(Self& self, Visit&& visit) {
    visit("yarn_per_stitch", self.yarn_per_stitch);
    visit("yarn_per_turn", self.yarn_per_turn);
    visit("stitches_in_10cm", self.stitches_in_10cm);
    visit("rows_in_10cm", self.rows_in_10cm);
    visit("washed_stitches_in_10cm", self.washed_stitches_in_10cm);
    visit("washed_rows_in_10cm", self.washed_rows_in_10cm);
    visit("size", self.size);
  }
  friend bool operator==(const Gauge&, const Gauge&) = default;
};

struct Swatch {
  static constexpr std::string_view kName = "swatch";
  std::string ball;
  Amount length;
  template <typename Self, typename Visit>
  static void fields(Self& self, Visit&& visit) {
    visit("ball", self.ball);
    visit("length", self.length);
  }
  friend bool operator==(const Swatch&, const Swatch&) = default;
};

struct Note {
  static constexpr std::string_view kName = "note";
  std::string text;
  std::optional<int> offcut;  // what was cut off at that entry is used up, the text says for what
  std::optional<End> cut_from;
  template <typename Self, typename Visit>
  static void fields(Self& self, Visit&& visit) {
    visit("text", self.text, TextSize::remark);
    visit("offcut", self.offcut);
    visit("cut_from", self.cut_from);
  }
  friend bool operator==(const Note&, const Note&) = default;
};

}  // namespace did
}  // namespace ballchange
