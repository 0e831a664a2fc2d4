#include "commands/help_topics.hpp"

#include <doctest/doctest.h>
#include <fmt/format.h>

#include <algorithm>
#include <iterator>
#include <string>

#include "base/text.hpp"
#include "join/method.hpp"

using namespace ballchange;

// Half a screen with five ways to join; a sixth may take its line or two.
std::ptrdiff_t most_lines(const HelpTopic& topic) {
  constexpr std::ptrdiff_t half_a_screen = 14, joins = 5;
  return half_a_screen + (topic.name == "joins" ? 2 * (std::ssize(methods()) - joins) : 0);
}

TEST_CASE("a word on the craft is half a screen") {
  for (const HelpTopic& topic : help_topics()) {
    CAPTURE(topic.name);
    CHECK(std::count(topic.text.begin(), topic.text.end(), '\n') <= most_lines(topic));
    std::string_view rest = topic.text;
    while (!rest.empty()) {
      const std::size_t stop = rest.find('\n');
      const std::string line(rest.substr(0, stop));
      CAPTURE(line);
      CHECK(display_width(line) <= 80);
      rest.remove_prefix(stop + 1);
    }
  }
}

TEST_CASE("help joins tells of every method what it usually takes") {
  const auto topics = help_topics();
  const auto joins =
      std::find_if(topics.begin(), topics.end(), [](const HelpTopic& topic) { return topic.name == "joins"; });
  REQUIRE(joins != topics.end());
  for (const MethodRow& row : methods()) {
    CAPTURE(row.name);
    const std::size_t at = joins->text.find(fmt::format("\n  {:<10}", row.name));
    REQUIRE(at != std::string_view::npos);
    const std::string line(joins->text.substr(at + 1, joins->text.find('\n', at + 1) - at - 1));
    CHECK(line.find(fmt::format("{} {}", row.takes.usual, row.in_stitches ? "stitches" : "cm")) !=
          std::string_view::npos);
  }
}
