#include <fmt/core.h>

#include "base/number.hpp"
#include "files/profile.hpp"
#include "files/yaml_text.hpp"

namespace ballchange {
namespace {

std::string number(double value) { return plain_number(value, 4); }

std::string length_text(Length length, Reckoning reckoning) {
  return fmt::format("{} {}", number(length.cm()), reckoning == Reckoning::stitches ? "st" : "cm");
}

std::string shade_text(const Shade& shade) {
  return fmt::format("\"#{:02x}{:02x}{:02x}\"", shade.red, shade.green, shade.blue);
}

std::string ball_line(const Yarn& yarn) {
  if (!yarn.ball_mass && !yarn.ball_length) return {};
  std::string out = "ball: {";
  if (yarn.ball_mass) out += fmt::format("mass: {} g", number(yarn.ball_mass->g()));
  if (yarn.ball_mass && yarn.ball_length) out += ", ";
  if (yarn.ball_length) {
    const bool stitches = yarn.reckoning == Reckoning::stitches;
    out += stitches ? "length: " + length_text(*yarn.ball_length, yarn.reckoning)
                    : fmt::format("length: {} m", number(yarn.ball_length->cm() / 100));
  }
  return out + "}\n";
}

}  // namespace

std::string write_profile(const Yarn& yarn) {
  std::string out = fmt::format("format: ballchange yarn 1\nname: {}\n", yaml_text(yarn.name));
  if (!yarn.fibre.empty()) out += fmt::format("fibre: {}\n", yaml_text(yarn.fibre));
  out += fmt::format("felts: {}\n", yarn.felts);
  out += ball_line(yarn);
  out += fmt::format("ball_plus_minus: {} %\nrepeat:\n", number(yarn.ball_plus_minus * 100));
  for (const Section& section : yarn.repeat.sections()) {
    const Colour& colour = yarn.repeat.colours()[section.colour];
    out += fmt::format("  - {{colour: {}, ", yaml_text(colour.name));
    if (colour.shade) out += fmt::format("shade: {}, ", shade_text(*colour.shade));
    out += fmt::format("length: {}, plus_minus: {}}}\n", length_text(section.length, yarn.reckoning),
                       length_text(section.plus_minus, yarn.reckoning));
  }
  return out;
}

}  // namespace ballchange
