#include "show/json.hpp"

#include <doctest/doctest.h>

#include <limits>
#include <string>

namespace ballchange {
namespace {

std::string one_number(double value) { return Json().array().number(value).end().take(); }
std::string one_text(std::string_view value) { return Json().array().text(value).end().take(); }

TEST_CASE("numbers have at most four decimals and at least one") {
  struct Case {
    double value;
    const char* text;
  };
  for (const Case& c : {Case{77, "[77.0]\n"},
                        {0.99251, "[0.9925]\n"},
                        {1.0 / 3, "[0.3333]\n"},
                        {-0.00001, "[0.0]\n"},
                        {-2.5, "[-2.5]\n"},
                        {1e6, "[1000000.0]\n"}}) {
    CHECK(one_number(c.value) == c.text);
  }
}

TEST_CASE("what is no number is null, never NaN") {
  CHECK(one_number(std::numeric_limits<double>::quiet_NaN()) == "[null]\n");
  CHECK(one_number(std::numeric_limits<double>::infinity()) == "[null]\n");
}

TEST_CASE("strings are valid JSON and harmless on a terminal whatever the bytes") {
  // RFC 8259, section 7: quotation mark, reverse solidus and controls are escaped; above U+FFFF as a pair.
  struct Case {
    const char* raw;
    const char* text;
  };
  for (const Case& c : {Case{"a\"b\\c", R"(["a\"b\\c"])"},
                        {"\x1b[31m", R"(["\u001b[31m"])"},
                        {"\xff", R"(["\ufffd"])"},
                        {"\xe2\x80\xae", R"(["\u202e"])"},
                        {"gr\xc3\xbcn", "[\"gr\xc3\xbcn\"]"},
                        {"\xf3\xa0\x80\x81", R"(["\udb40\udc01"])"},
                        {"\x7f\xc2\x85", R"(["\u007f\u0085"])"}}) {
    CAPTURE(c.raw);
    CHECK(one_text(c.raw) == std::string(c.text) + "\n");
  }
}

TEST_CASE("members are parted by commas at every level") {
  Json json;
  json.object().key("a").array().object().member("b", 1).end().object().end().end();
  json.member("c", true).member("d", std::optional<double>()).member("e", 2.5_cm).member("f", "g").end();
  CHECK(json.take() == R"({"a":[{"b":1},{}],"c":true,"d":null,"e":2.5,"f":"g"})"
                       "\n");
}

}  // namespace
}  // namespace ballchange
