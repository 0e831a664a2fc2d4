#pragma once
#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/measure.hpp"
#include "files/yaml_tree.hpp"
#include "yarn/yarn.hpp"

namespace ballchange {

// The `repeat` of a yarn: a list of sections, all in stitches or none. Throws Problem(content) with file and line.
class SectionReader {
 public:
  // Notes on keys that are not known are added to `notes`.
  SectionReader(Unit bare, std::vector<std::string>& notes) : bare_(bare), notes_(notes) {}

  [[nodiscard]] Repeat read(Node list);
  // After read(): how its lengths are reckoned, and further lengths in the same way.
  [[nodiscard]] Reckoning reckoning() const;
  [[nodiscard]] bool in_stitches() const { return reckoning() == Reckoning::stitches; }
  [[nodiscard]] Length length(Node node, std::string_view what);

 private:
  Section read_section(Node item);
  ColourId read_colour(Node node);
  void read_shade(Node node, ColourId colour);
  Length read_plus_minus(Node node, Length length);
  void refuse_equal_neighbours(Node list, const std::vector<Section>& sections) const;

  Unit bare_;
  std::vector<std::string>& notes_;
  std::optional<bool> in_stitches_;  // known from the first length on
  std::vector<Colour> colours_;
  std::vector<std::string> folded_;  // their names, in lower case
};

}  // namespace ballchange
