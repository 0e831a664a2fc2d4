#pragma once
#include <string>
#include <vector>

#include "base/shade.hpp"
#include "yarn/repeat.hpp"

namespace ballchange {

// How the colours of a yarn are told apart in a picture: by shade and, since not every eye or printer can, by a letter.
struct Ink {
  Shade shade;
  bool guessed = false;  // no shade was told: that of its name, where CSS has one, otherwise a grey of its own
  std::string letter;    // each colour its own: a letter of its name where one is free, otherwise a digit or two
};
[[nodiscard]] std::vector<Ink> inks(const std::vector<Colour>& colours);

}  // namespace ballchange
