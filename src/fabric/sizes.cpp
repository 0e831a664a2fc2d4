#include "fabric/sizes.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <string>

#include "base/text.hpp"

namespace ballchange {
namespace {

constexpr std::array<ToolSize, 28> kHooks{{
    {2.25, "B-1"}, {2.5, ""},         {2.75, "C-2"}, {3.125, "D"}, {3.25, "D-3"}, {3.5, "E-4"},   {3.75, "F-5"},
    {4, "G-6"},    {4.25, "G"},       {4.5, "7"},    {5, "H-8"},   {5.25, "I"},   {5.5, "I-9"},   {5.75, "J"},
    {6, "J-10"},   {6.5, "K-10 1/2"}, {7, ""},       {8, "L-11"},  {9, "M/N-13"}, {10, "N/P-15"}, {11.5, "P-16"},
    {12, ""},      {15, "P/Q"},       {15.75, "Q"},  {16, "Q"},    {19, "S"},     {25, "T/U/X"},  {30, "T/X"},
}};

constexpr std::array<ToolSize, 29> kNeedles{{
    {1.5, "000"},  {1.75, "00"}, {2, "0"},        {2.25, "1"}, {2.75, "2"}, {3, ""},   {3.125, "3"}, {3.25, "3"},
    {3.5, "4"},    {3.75, "5"},  {4, "6"},        {4.25, "6"}, {4.5, "7"},  {5, "8"},  {5.25, "9"},  {5.5, "9"},
    {5.75, "10"},  {6, "10"},    {6.5, "10 1/2"}, {7, ""},     {8, "11"},   {9, "13"}, {10, "15"},   {12.5, "17"},
    {12.75, "17"}, {15, "19"},   {19, "35"},      {25, "50"},  {35, "70"},
}};

// A size's names: letters as M and N of "M/N-13", and the number after the dash.
struct Names {
  std::vector<std::string> letters;
  std::string number;
};

void replace_all(std::string& text, std::string_view from, std::string_view to) {
  for (std::size_t at = 0; (at = text.find(from, at)) != std::string::npos; at += to.size()) {
    text.replace(at, from.size(), to);
  }
}

Names names_of(std::string_view text) {
  std::string word = fold_case(text);
  replace_all(word, "½", " 1/2");
  replace_all(word, ".5", " 1/2");
  Names names;
  std::size_t at = 0;
  for (; at < word.size() && !(word[at] >= '0' && word[at] <= '9'); ++at) {
    if (word[at] >= 'a' && word[at] <= 'z') names.letters.emplace_back(1, word[at]);
  }
  for (; at < word.size(); ++at) {
    const bool doubled = word[at] == ' ' && names.number.ends_with(' ');
    if (!doubled) names.number += word[at];
  }
  names.number = std::string(trim(names.number));
  return names;
}

bool covers(const Names& sold, const Names& asked) {
  if (!asked.number.empty() && asked.number != sold.number) return false;
  return std::all_of(asked.letters.begin(), asked.letters.end(), [&](const std::string& letter) {
    return std::find(sold.letters.begin(), sold.letters.end(), letter) != sold.letters.end();
  });
}

// 0 for whole millimetres, then halves, quarters and the rest.
int roughness(double mm) {
  int level = 0;
  for (const double parts : {1.0, 2.0, 4.0}) {
    if (mm * parts == std::floor(mm * parts)) return level;
    ++level;
  }
  return level;
}

// "US" before a size is no letter of it.
std::string_view without_us(std::string_view name) {
  const std::string_view word = trim(name);
  return fold_case(word.substr(0, 2)) == "us" ? trim(word.substr(2)) : word;
}

}  // namespace

std::span<const ToolSize> sizes(Tool tool) {
  if (tool == Tool::hook) return kHooks;
  return kNeedles;
}

std::optional<NamedSize> size_named(Tool tool, std::string_view name) {
  const std::string_view word = without_us(name);
  const auto in = [&](char low, char high) { return !word.empty() && word.front() >= low && word.front() <= high; };
  if (!in('0', '9') && !in('a', 'z') && !in('A', 'Z')) return std::nullopt;
  const Names asked = names_of(word);
  if (asked.letters.empty() && asked.number.empty()) return std::nullopt;
  std::vector<double> found;
  for (const ToolSize& size : sizes(tool)) {
    if (!size.name.empty() && covers(names_of(size.name), asked)) found.push_back(size.mm);
  }
  if (found.empty()) return std::nullopt;
  const auto best =
      std::min_element(found.begin(), found.end(), [](double a, double b) { return roughness(a) < roughness(b); });
  NamedSize named{*best, {}};
  found.erase(best);
  named.also = found;
  return named;
}

double stitch_by_size(double from_mm, double to_mm) { return std::pow(to_mm / from_mm, kStitchBySize); }

double size_by_stitch(double from_mm, double times) { return from_mm * std::pow(times, 1 / kStitchBySize); }

}  // namespace ballchange
