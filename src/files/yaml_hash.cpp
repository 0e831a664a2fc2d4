#include "files/yaml_hash.hpp"

#include <algorithm>

namespace ballchange {
namespace {

constexpr std::string_view kBlank = " \t\r\n";

bool is_one_of(char c, std::string_view set) { return set.find(c) != std::string_view::npos; }

// Reads only as much of YAML as tells brackets, quoted texts and remarks from each other.
class Brackets {
 public:
  explicit Brackets(std::string_view text) : text_(text) {}

  std::optional<std::size_t> hash() {
    for (at_ = 0; at_ < text_.size(); ++at_) {
      const char c = text_[at_];
      if (c == '#' && (at_ == 0 || is_one_of(text_[at_ - 1], kBlank))) {
        remark();
      } else if (is_one_of(c, "\"'") && value_begins()) {
        skip_quoted(c);
      } else if (is_one_of(c, "{[") && (open_ > 0 || value_begins())) {
        ++open_;
      } else if (is_one_of(c, "}]") && open_ > 0) {
        if (--open_ == 0) hash_.reset();
      }
    }
    return hash_;
  }

 private:
  // Outside brackets a text may hold them, and anywhere a quote.
  [[nodiscard]] bool value_begins() const {
    std::size_t before = at_;
    while (before > 0 && is_one_of(text_[before - 1], " \t")) --before;
    if (before == 0) return true;
    const char c = text_[before - 1];
    if (open_ > 0 && is_one_of(c, "{[,:")) return true;
    return c == '\n' || (before < at_ && is_one_of(c, ":-"));
  }

  void skip_quoted(char quote) {
    for (++at_; at_ < text_.size() && text_[at_] != quote; ++at_) {
      if (quote == '"' && text_[at_] == '\\') ++at_;
    }
  }

  void remark() {
    const std::size_t end = std::min(text_.find('\n', at_), text_.size());
    const std::string_view rest = text_.substr(at_ + 1, end - at_ - 1);
    const bool a_shade = !rest.empty() && !is_one_of(rest.front(), kBlank);
    const bool a_bracket = rest.find_first_of("}]") != std::string_view::npos;
    if (open_ > 0 && !hash_ && (a_shade || a_bracket)) hash_ = at_;
    at_ = end - 1;
  }

  std::string_view text_;
  std::size_t at_ = 0;
  std::size_t open_ = 0;
  std::optional<std::size_t> hash_;
};

}  // namespace

std::optional<std::size_t> hiding_hash(std::string_view text, std::size_t at) {
  return Brackets(text.substr(0, text.find('\n', at))).hash();
}

}  // namespace ballchange
