#include "console/answered.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <cstddef>

#include "base/problem.hpp"
#include "base/text.hpp"
#include "reading/name.hpp"

namespace ballchange {
namespace {

// A length begins with a digit, a point, or a fraction like the half sign; a colour's name never does.
bool begins_with_number(std::string_view text) {
  constexpr char32_t quarter = 0xBC, three_quarters = 0xBE, seventh = 0x2150, last_fraction = 0x215E;
  if (text.empty()) return false;
  std::size_t at = 0;
  const char32_t c = next_code_point(text, at);
  return (c >= U'0' && c <= U'9') || c == U'.' || (c >= quarter && c <= three_quarters) ||
         (c >= seventh && c <= last_fraction);
}

// The written entries of a text, without the marks of open and closed ends.
class Entries {
 public:
  explicit Entries(std::string_view text) {
    for (std::size_t at = 0; at <= text.size();) {
      const std::size_t stop = std::min(text.find(',', at), text.size());
      items_.emplace_back(trim(text.substr(at, stop - at)));
      at = stop + 1;
    }
    std::string& first = items_.front();
    bar_before_ = first.starts_with('|');
    if (bar_before_) first = trim(std::string_view(first).substr(1));
    std::string& last = items_.back();
    while (last.ends_with('|') || last.ends_with('+')) {
      bar_after_ = bar_after_ || last.back() == '|';
      last = trim(std::string_view(last).substr(0, last.size() - 1));
    }
  }

  [[nodiscard]] std::string& at(std::size_t number) { return items_[std::min(number, items_.size()) - 1]; }
  void follow(std::string_view more) {
    items_.emplace_back(more);
    bar_after_ = false;
  }
  [[nodiscard]] std::string text() const {
    return fmt::format("{}{}{}", bar_before_ ? "| " : "", fmt::join(items_, ", "), bar_after_ ? " |" : "");
  }

 private:
  std::vector<std::string> items_;
  bool bar_before_ = false, bar_after_ = false;
};

// "plum 15" -> "15".
std::string_view length_in(std::string_view item) {
  for (std::size_t at = 0; at < item.size(); ++at) {
    if (item[at] == ' ' && begins_with_number(item.substr(at + 1))) return item.substr(at + 1);
  }
  return {};
}

// The word or its first letter; after the word more may be said, as in "yes, 11".
bool says(std::string_view answer, std::string_view word) {
  const std::string folded = fold_case(answer);
  return folded.substr(0, folded.find_first_of(" ,")) == word || folded == word.substr(0, 1);
}

std::string which_follows(Entries entries, const Reading& reading, std::string_view answer, const std::string& name) {
  const Entry& last = reading.entries.back();
  if (begins_with_number(answer)) {
    const std::size_t comma = answer.find(',');
    if (comma == std::string_view::npos) {
      refuse(fmt::format("'{}' is a length; the colour that follows is needed too", printable(answer, 40)));
    }
    entries.at(last.written_as) = fmt::format("{} {}", name, trim(answer.substr(0, comma)));
    entries.follow(trim(answer.substr(comma + 1)));
    return entries.text();
  }
  // With a colour after it the last stretch is whole: what was measured of it so far would be wrong.
  const bool open = last.length && !reading.bar_at_open_end && !reading.loose;
  if (open) entries.at(last.written_as) = name;
  entries.follow(answer);
  return entries.text();
}

std::string with_length(Entries entries, std::size_t number, std::string_view answer, const std::string& name) {
  const std::size_t comma = std::min(answer.find(','), answer.size());
  entries.at(number) = fmt::format("{} {}", name, trim(answer.substr(0, comma)));
  if (comma < answer.size()) entries.follow(trim(answer.substr(comma + 1)));
  return entries.text();
}

std::optional<std::string> renamed(Entries entries, const Entry& entry, std::string_view answer,
                                   const std::vector<Colour>& colours, ColourId other) {
  const NameBook book({colours[entry.colour], colours[other]});
  const auto meant = book.beginning(single_spaced(trim(answer)));
  if (meant.size() != 1) {
    refuse(fmt::format("'{}' is not one of {} and {}", printable(answer, 40), printable(colours[entry.colour].name),
                       printable(colours[other].name)));
  }
  if (meant.front() == 0) return std::nullopt;
  std::string& item = entries.at(entry.written_as);
  const std::string_view length = length_in(item);
  item = length.empty() ? colours[other].name : fmt::format("{} {}", colours[other].name, length);
  return entries.text();
}

}  // namespace

std::optional<std::string> answered(std::string_view text, const Reading& reading, const Question& question,
                                    std::string_view answer, const std::vector<Colour>& colours) {
  const Entry& entry = reading.entries[std::min(question.entry, reading.entries.size() - 1)];
  const std::string& name = colours[entry.colour].name;
  switch (question.kind) {
    case Question::Kind::which_follows:
      return which_follows(Entries(text), reading, answer, name);
    case Question::Kind::first_length:
    case Question::Kind::how_long:
    case Question::Kind::next_change:
      if (begins_with_number(answer)) return with_length(Entries(text), entry.written_as, answer, name);
      break;
    case Question::Kind::look_alike:
      return renamed(Entries(text), entry, answer, colours, question.other);
    case Question::Kind::overlooked:
      if (says(answer, "no")) return std::nullopt;
      if (says(answer, "yes")) refuse("then type the whole reading again, with that piece and its length in it");
      break;
    case Question::Kind::wrong_way:
      if (says(answer, "yes")) return std::nullopt;
      if (says(answer, "no")) refuse("then type the reading again, from the loose end inward");
      break;
  }
  return std::string(answer);
}

}  // namespace ballchange
