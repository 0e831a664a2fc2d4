#include "slow/worked.hpp"

#include <yaml-cpp/yaml.h>

#include <algorithm>
#include <charconv>
#include <fstream>
#include <stdexcept>
#include <system_error>

namespace ballchange::slow {
namespace {

// "92 cm" or "2 %": the number in front.
double number_in(const std::string& text) {
  double value = 0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
  if (error != std::errc()) throw std::runtime_error("no number in " + text);
  return value;
}

Yarn yarn_from(const YAML::Node& profile) {
  std::vector<Colour> colours;
  std::vector<Section> sections;
  for (const YAML::Node& node : profile["repeat"]) {
    const auto name = node["colour"].as<std::string>();
    auto known = std::find_if(colours.begin(), colours.end(), [&](const Colour& c) { return c.name == name; });
    if (known == colours.end()) {
      Colour colour{name, {}};
      if (node["shade"]) colour.shade = parse_shade(node["shade"].as<std::string>());
      known = colours.insert(colours.end(), colour);
    }
    sections.push_back({static_cast<ColourId>(known - colours.begin()),
                        Length::cm(number_in(node["length"].as<std::string>())),
                        Length::cm(number_in(node["plus_minus"].as<std::string>()))});
  }
  return Yarn{.name = profile["name"].as<std::string>(),
              .fibre = "",
              .ball_mass = {},
              .ball_length = {},
              .ball_plus_minus = number_in(profile["ball_plus_minus"].as<std::string>()) / 100,
              .repeat = Repeat(colours, sections)};
}

WorkedReading reading_from(const YAML::Node& row) {
  WorkedReading worked{.what = row["what"].as<std::string>(),
                       .yarn = yarn_from(row["profile"]),
                       .end = row["end"].as<std::string>() == "new" ? End::new_end : End::old_end,
                       .text = row["reading"].as<std::string>(),
                       .reading = {},
                       .candidates = {}};
  Palette palette{worked.yarn.repeat.colours()};
  worked.reading = parse_reading(worked.text, worked.end, palette, Ruler{}, "reading");
  for (const YAML::Node& c : row["candidates"]) {
    const bool forward = c["direction"].as<std::string>() == "forward";
    worked.candidates.push_back({c["place"].as<double>(), c["colour"].as<std::string>(),
                                 forward ? Direction::forward : Direction::backward, c["probability"].as<double>()});
  }
  return worked;
}

}  // namespace

std::vector<WorkedReading> worked_readings() {
  const std::string path = BALLCHANGE_TESTS "/checks/placed_readings.jsonl";
  std::ifstream file(path);
  std::vector<WorkedReading> rows;
  for (std::string line; std::getline(file, line);) rows.push_back(reading_from(YAML::Load(line)));
  if (rows.empty()) throw std::runtime_error("nothing to check in " + path);
  return rows;
}

}  // namespace ballchange::slow
