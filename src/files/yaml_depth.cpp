#include "files/yaml_depth.hpp"

#include <algorithm>

// yaml-cpp holds everything from a bracket to its partner before it tells of the first one: two million open brackets
// take it seconds and a gigabyte. So they are counted first.
namespace ballchange {
namespace {

bool is_space(char c) { return c == ' ' || c == '\t' || c == '\n' || c == '\r'; }

class BracketScan {
 public:
  BracketScan(std::string_view text, std::size_t most) : text_(text), most_(most) {}

  std::optional<std::size_t> first_too_deep() {
    while (at_ < text_.size()) {
      const char c = text_[at_];
      if (is_space(c)) {
        fresh_ = fresh_ || (c == '\n' && depth_ == 0);
        ++at_;
      } else if (c == '#' && spaced(at_)) {
        at_ = line_end(at_);
      } else if (fresh_ && (c == '"' || c == '\'')) {
        pass_quoted(c);
      } else if (fresh_ && depth_ == 0 && (c == '|' || c == '>')) {
        pass_block();
      } else {
        if ((c == '[' || c == '{') && (fresh_ || depth_ > 0) && ++depth_ + around_ > most_) return at_;
        if ((c == ']' || c == '}') && depth_ > 0) --depth_;
        fresh_ = token_may_follow(c);
        if (fresh_ && depth_ == 0) around_ = 1;
        quoted_ = false;
        ++at_;
      }
    }
    return std::nullopt;
  }

 private:
  [[nodiscard]] bool spaced(std::size_t at) const { return at == 0 || is_space(text_[at - 1]); }
  [[nodiscard]] bool space_after(std::size_t at) const { return at + 1 == text_.size() || is_space(text_[at + 1]); }
  [[nodiscard]] std::size_t line_end(std::size_t at) const { return std::min(text_.find('\n', at), text_.size()); }

  // Whether a quote or bracket behind this character would be one, not a part of a plain text.
  [[nodiscard]] bool token_may_follow(char c) const {
    if (c == ':') return space_after(at_) || quoted_;
    if (c == '-' || c == '?') return fresh_ && space_after(at_);
    return depth_ > 0 && (c == '[' || c == '{' || c == ',');
  }

  void pass_quoted(char quote) {
    for (++at_; at_ < text_.size(); ++at_) {
      const bool escape = quote == '"' ? text_[at_] == '\\' : text_.substr(at_).starts_with("''");
      if (escape) {
        ++at_;
      } else if (text_[at_] == quote) {
        break;
      }
    }
    at_ = std::min(at_ + 1, text_.size());
    fresh_ = false;
    quoted_ = true;
  }

  // A block text goes on while its lines are blank or indented further than the key or dash it belongs to.
  void pass_block() {
    const std::size_t newline = at_ == 0 ? std::string_view::npos : text_.rfind('\n', at_ - 1);
    const std::size_t line = newline == std::string_view::npos ? 0 : newline + 1;
    std::size_t owner = std::min(text_.find_first_not_of(' ', line), at_);
    while (owner < at_ && (text_[owner] == '-' || text_[owner] == '?') && space_after(owner)) {
      const std::size_t next = text_.find_first_not_of(' ', owner + 1);
      if (next == at_) break;
      owner = next;
    }
    const std::size_t indent = owner == at_ ? 0 : owner - line + 1;
    do {
      at_ = std::min(line_end(at_) + 1, text_.size());
      const std::size_t first = std::min(text_.find_first_not_of(' ', at_), text_.size());
      if (first < text_.size() && first < at_ + indent && !is_space(text_[first])) break;
    } while (at_ < text_.size());
    fresh_ = true;
  }

  std::string_view text_;
  std::size_t most_;
  std::size_t at_ = 0;
  std::size_t depth_ = 0;
  std::size_t around_ = 0;  // 1 once a key or dash has shown that the brackets lie within something
  bool fresh_ = true;       // a quote or bracket here would be one, not a part of a plain text
  bool quoted_ = false;     // right behind a quoted text
};

}  // namespace

std::optional<std::size_t> bracket_too_deep(std::string_view text, std::size_t most) {
  return BracketScan(text, most).first_too_deep();
}

}  // namespace ballchange
