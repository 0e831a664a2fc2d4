#include "files/profile.hpp"

#include <fmt/core.h>

#include <array>
#include <utility>

#include "base/limits.hpp"
#include "base/text.hpp"
#include "files/format_line.hpp"
#include "files/measured.hpp"
#include "files/notes.hpp"
#include "files/profile_sections.hpp"
#include "files/yaml_values.hpp"

namespace ballchange {
namespace {

constexpr int kNewestFormat = 1;
constexpr double kMostBallPlusMinus = 0.15;
constexpr std::string_view kBallLike = "'ball: {mass: 50 g, length: 125 m}'";

Unit read_units(Node node) {
  const std::string_view text = scalar(node, "units");
  for (const Unit unit : {Unit::cm, Unit::in, Unit::st}) {
    if (trim(text) == unit_name(unit)) return unit;
  }
  throw node.problem(fmt::format("units '{}'; write cm, in or st", printable(text, 40)));
}

Mass read_ball_mass(Node node) {
  const Mass mass = parsed(node, "mass", [](std::string_view text) { return parse_mass(text, "mass"); });
  if (mass < kLightestBall) throw node.problem("mass is nothing; write what the ball band says");
  if (mass > kHeaviestBall) throw node.problem("mass is more than 5 kg; write the mass of one ball");
  return mass;
}

Length read_ball_length(Node node, SectionReader& sections) {
  const Length length = sections.length(node, "length");
  if (length < kShortestBall) throw node.problem("length is nothing; write what the ball band says");
  if (length > kLongestBall) {
    const std::string_view most = sections.in_stitches() ? "500 000 st" : "5000 m";
    throw node.problem(fmt::format("length is more than {}; write the length of one ball", most));
  }
  return length;
}

void read_ball(Node node, SectionReader& sections, Yarn& yarn, std::vector<std::string>& notes) {
  static const std::array<std::string, 2> known{"mass", "length"};
  require_mapping(node, "ball", kBallLike);
  if (const auto mass = node.find("mass")) yarn.ball_mass = read_ball_mass(*mass);
  if (const auto length = node.find("length")) yarn.ball_length = read_ball_length(*length, sections);
  note_unknown_keys(node, known, notes);
}

double read_ball_plus_minus(Node node) {
  const double share = parsed(node, "ball_plus_minus", [](std::string_view text) {
    return parse_share(text, "ball_plus_minus", "0 % to 15 %, like 2 %");
  });
  if (share > kMostBallPlusMinus) throw node.problem("ball_plus_minus is more than 15 %; write 0 % to 15 %");
  return share;
}

}  // namespace

Profile read_yarn(Node mapping, Unit bare) {
  static const std::array<std::string, 10> known{"format", "name", "units",           "fibre",  "fiber",
                                                 "felts",  "ball", "ball_plus_minus", "repeat", "measured"};
  require_mapping(mapping, "the yarn", "its keys, beginning with 'name: Orchard'");
  const std::string name =
      one_line(required(mapping, "name", "the yarn", "name: Orchard"), "the yarn's name", kMostNameBytes);
  if (const auto units = mapping.find("units")) bare = read_units(*units);
  std::vector<std::string> notes;
  SectionReader sections(bare, notes);
  Repeat repeat =
      sections.read(required(mapping, "repeat", "the yarn", "repeat: [{colour: plum, length: 92 cm}, ...]"));
  Profile profile{.yarn = {.name = name,
                           .fibre = {},
                           .ball_mass = std::nullopt,
                           .ball_length = std::nullopt,
                           .reckoning = sections.reckoning(),
                           .repeat = std::move(repeat)},
                  .notes = {}};
  if (const auto fibre = find_either(mapping, "fibre", "fiber")) {
    profile.yarn.fibre = one_line(*fibre, "fibre", kMostNameBytes);
  }
  if (const auto felts = mapping.find("felts")) profile.yarn.felts = yes_or_no(*felts, "felts");
  if (const auto ball = mapping.find("ball")) read_ball(*ball, sections, profile.yarn, notes);
  if (const auto share = mapping.find("ball_plus_minus")) profile.yarn.ball_plus_minus = read_ball_plus_minus(*share);
  note_odd_measured(mapping, bare, profile.yarn.reckoning, notes);
  note_unknown_keys(mapping, known, notes);
  profile.notes = std::move(notes);
  return profile;
}

Profile read_profile(std::string text, const std::string& file) {
  const Tree tree(std::move(text), file);
  check_format(tree.root(), "yarn", kNewestFormat);
  Profile profile = read_yarn(tree.root(), Unit::cm);
  shorten_notes(profile.notes, file);
  return profile;
}

}  // namespace ballchange
