#include "reading/part.hpp"

#include <fmt/core.h>

#include <algorithm>

#include "base/caret.hpp"
#include "base/code_points.hpp"
#include "base/problem.hpp"
#include "base/quantity.hpp"
#include "base/text.hpp"
#include "reading/reading.hpp"

namespace ballchange {
namespace {

constexpr std::size_t kMostEntries = 1000;

std::vector<std::string_view> split_at_commas(std::string_view text) {
  std::vector<std::string_view> pieces;
  for (std::size_t at = 0; at <= text.size();) {
    const std::size_t comma = std::min(text.find(',', at), text.size());
    pieces.push_back(trim(text.substr(at, comma - at)));
    at = comma + 1;
  }
  return pieces;
}

// Where the length starts: at the first word that begins with a number.
std::size_t length_start(std::string_view entry) {
  bool starts_word = true;
  for (std::size_t at = 0; at < entry.size();) {
    if (starts_word && means_number(entry, at)) return at;
    starts_word = is_blank(next_code_point(entry, at));
  }
  return entry.size();
}

// What follows the numbers and units that the text begins with.
std::string_view after_length(std::string_view text) {
  while (!text.empty()) {
    std::size_t end = 0;
    std::size_t next = 0;
    while (next < text.size() && !is_blank(next_code_point(text, next))) end = next;
    const std::string_view word = text.substr(0, end);
    if (!means_number(text, 0) && !unit_named(word)) return text;
    text = trim(text.substr(end));
  }
  return text;
}

bool is_hook(std::string_view name) { return fold_case(name) == "hook"; }
bool is_ascii_letter(unsigned char c) { return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z'); }
bool ends_in_digit(std::string_view piece) { return !piece.empty() && piece.back() >= '0' && piece.back() <= '9'; }

class PartReader {
 public:
  PartReader(const Source& source, NameBook& book, const BookRules& rules, Unit bare)
      : source_(source), book_(book), rules_(rules), bare_(bare), pieces_(split_at_commas(source.text)) {}

  std::vector<Part> all() {
    if (pieces_.size() > kMostEntries) {
      source_.refuse_at(0, source_.offset(pieces_[kMostEntries]), fmt::format("at most {} entries", kMostEntries));
    }
    std::vector<Part> parts;
    parts.reserve(pieces_.size());
    for (std::size_t i = 0; i < pieces_.size(); ++i) parts.push_back(read(i));
    return parts;
  }

 private:
  Part read(std::size_t i) {
    Part part;
    part.number = i + 1;
    const std::string_view entry = without_marks(pieces_[i], part);
    part.at = source_.offset(entry);
    if (entry.empty()) {
      source_.refuse_at(part.number, part.at, "no colour: write one, like plum 15, or leave out the comma or bar");
    }
    const std::size_t start = length_start(entry);
    part.length_at = part.at + start;
    const std::string_view length = entry.substr(start);
    const std::string name = single_spaced(entry.substr(0, start));
    if (name.empty()) refuse_nameless(i, part, entry);
    part.is_hook = is_hook(name);
    if (part.is_hook && !length.empty()) {
      source_.refuse_at(part.number, part.length_at, "hook is a spot and has no length: write hook alone");
    }
    if (!part.is_hook) part.colour = colour(part, entry.substr(0, start), name);
    if (!length.empty()) {
      refuse_missing_comma(part, length);
      part.written = source_.pointing(part.number, part.length_at,
                                      [&](const std::string& where) { return parse_written(length, bare_, where); });
    }
    return part;
  }

  // Takes off a leading bar and a trailing bar or plus.
  std::string_view without_marks(std::string_view entry, Part& part) const {
    if (entry.starts_with('|')) {
      part.bar_before = source_.offset(entry);
      entry = trim(entry.substr(1));
    }
    while (entry.ends_with('|') || entry.ends_with('+')) {
      std::optional<std::size_t>& mark = entry.back() == '|' ? part.bar_after : part.plus;
      const std::size_t at = source_.offset(entry) + entry.size() - 1;
      if (mark) source_.refuse_at(part.number, at, fmt::format("'{}' stands here twice: write it once", entry.back()));
      mark = at;
      entry = trim(entry.substr(0, entry.size() - 1));
    }
    return entry;
  }

  [[noreturn]] void refuse_nameless(std::size_t i, const Part& part, std::string_view entry) const {
    if (i > 0 && ends_in_digit(pieces_[i - 1])) {
      source_.refuse_at(part.number, part.at,
                        fmt::format("no colour: if this is a decimal, write it with a point, {}.{}",
                                    printable(pieces_[i - 1], 40), printable(entry, 40)));
    }
    source_.refuse_at(part.number, part.at, "no colour: the colour stands first, then its length, like plum 15");
  }

  // "plum 15 sand 11": the first word after the length that is no unit, if it looks like the next entry.
  void refuse_missing_comma(const Part& part, std::string_view length) const {
    const std::string_view rest = after_length(length);
    if (rest.empty()) return;
    const auto first = static_cast<unsigned char>(rest.front());
    const std::size_t at = source_.offset(rest);
    if (first == '|' || first == '+') {
      source_.refuse_at(part.number, at,
                        fmt::format("'{}' between two entries: write a comma in its place", rest.front()));
    }
    if (first < 0x80 && !is_ascii_letter(first)) return;
    const std::size_t number = length_start(rest);
    const std::string name = single_spaced(rest.substr(0, number));
    const bool number_follows = rules_.open && number < rest.size();
    if (number_follows || is_hook(name) || !book_.beginning(name).empty()) {
      source_.refuse_at(part.number, at,
                        fmt::format("no comma before '{}': write one between entries", printable(name, 40)));
    }
  }

  ColourId colour(const Part& part, std::string_view as_written, const std::string& name) {
    std::string spaced(trim(as_written));
    std::replace_if(
        spaced.begin(), spaced.end(), [](char c) { return c >= '\t' && c <= '\r'; }, ' ');
    if (const auto fault = name_fault(spaced)) source_.refuse_at(part.number, part.at + fault->at, fault->why);
    if (const auto known = book_.exact(name)) return *known;
    std::vector<ColourId> found = book_.beginning(name);
    if (rules_.open) std::erase_if(found, [&](ColourId id) { return id >= rules_.known; });
    if (found.size() == 1) return found.front();
    if (rules_.open && found.empty()) return book_.add(name);
    if (found.empty()) {
      source_.refuse_at(part.number, part.at,
                        fmt::format("no colour '{}' in this yarn: {}", printable(name, 40), book_.advice(name)));
    }
    std::vector<std::string> names;
    for (const ColourId id : found) names.push_back(book_.colours()[id].name);
    source_.refuse_at(part.number, part.at, fmt::format("'{}' could be {}: write more of it", name, listed(names)));
  }

  const Source& source_;
  NameBook& book_;
  BookRules rules_;
  Unit bare_;
  std::vector<std::string_view> pieces_;
};

}  // namespace

std::string Source::where(std::size_t entry) const {
  return entry == 0 ? std::string(what) : fmt::format("{}, entry {}", what, entry);
}

void Source::refuse_at(std::size_t entry, std::size_t at, std::string_view why) const {
  throw Problem(Fault::content, fmt::format("{}: {}", where(entry), why), caret_lines(text, at));
}

std::vector<Part> parse_parts(const Source& source, NameBook& book, const BookRules& rules, Unit bare) {
  if (source.text.size() > kMostReadingBytes) {
    source.refuse_at(0, kMostReadingBytes, fmt::format("too long: at most {} kB", kMostReadingBytes >> 10U));
  }
  for (std::size_t at = 0; at < source.text.size();) {
    const std::size_t from = at;
    const bool broken = next_code_point(source.text, at) == 0xFFFD && at - from == 1;
    if (broken) source.refuse_at(0, from, "not valid UTF-8: write it again");
  }
  if (trim(source.text).empty()) {
    // No caret: there is nothing to point at.
    throw Problem(
        Fault::content,
        fmt::format("{}: nothing written: write colours and lengths from the loose end, like plum 15, sand 11",
                    source.what));
  }
  return PartReader(source, book, rules, bare).all();
}

}  // namespace ballchange
