#include "files/append_text.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <cassert>
#include <optional>
#include <string_view>

#include "base/text.hpp"

namespace ballchange {
namespace {

constexpr std::string_view kByteOrderMark = "\xEF\xBB\xBF";

bool same(Node a, Node b) {
  if (a.kind() != b.kind() || a.quoted() != b.quoted() || a.key() != b.key() || a.text() != b.text()) return false;
  const Node::Children of_a = a.children();
  const Node::Children of_b = b.children();
  auto x = of_a.begin();
  auto y = of_b.begin();
  for (; !(x == of_a.end()) && !(y == of_b.end()); ++x, ++y) {
    if (!same(*x, *y)) return false;
  }
  return x == of_a.end() && y == of_b.end();
}

// Whether the log `after` is the log `before` with the entries as further items.
bool only_adds(Node before, Node after, const std::vector<std::string>& entries) {
  if (!after.is(Node::Kind::sequence) || after.key() != before.key()) return false;
  const Node::Children items = after.children();
  auto item = items.begin();
  for (const Node old : before.children()) {
    if (item == items.end() || !same(old, *item)) return false;
    ++item;
  }
  for (const std::string& entry : entries) {
    const Tree alone(entry, "the new entry");
    if (item == items.end() || !same(alone.root(), *item)) return false;
    ++item;
  }
  return item == items.end();
}

bool only_log_differs(Node before, Node after, const std::vector<std::string>& entries) {
  if (!after.is(Node::Kind::mapping)) return false;
  const Node::Children of_before = before.children();
  const Node::Children of_after = after.children();
  auto x = of_before.begin();
  auto y = of_after.begin();
  for (;;) {
    if (x == of_before.end() || y == of_after.end()) return false;
    const Node old = *x;
    const Node now = *y;
    ++x;
    ++y;
    if (x == of_before.end()) return y == of_after.end() && only_adds(old, now, entries);
    if (!same(old, now)) return false;
  }
}

bool is_blank(char c) { return c == ' ' || c == '\t'; }

// Where the new entries go in, and how.
class LogText {
 public:
  LogText(std::string_view text, const Tree& tree) : text_(text), tree_(tree), log_(last_key()) {
    if (log_.is(Node::Kind::sequence)) {
      text_[log_.offset()] == '[' ? open_brackets() : take_indent();
    } else {
      require_nothing();
    }
    refuse_document_end();
    refuse_open_end();
  }

  [[nodiscard]] std::string with(const std::vector<std::string>& entries) const {
    const std::size_t newline = text_.rfind('\n');
    const bool crlf = newline != std::string_view::npos && newline > 0 && text_[newline - 1] == '\r';
    const std::string_view line_end = crlf ? "\r\n" : "\n";
    std::string out(text_.substr(0, cut_from_));
    out += text_.substr(cut_to_);
    if (!text_.ends_with('\n')) out += line_end;
    for (const std::string& entry : entries) out += fmt::format("{:{}}- {}{}", "", indent_, entry, line_end);
    return out;
  }

  [[nodiscard]] Node log() const { return log_; }

 private:
  [[nodiscard]] Node last_key() const {
    const Node root = tree_.root();
    if (!root.is(Node::Kind::mapping)) throw root.problem("no project here; it begins 'format: ballchange project 1'");
    if (text_[root.offset()] == '{') {
      throw root.problem("the project stands in braces, where no entry can be added; write each key on its own line");
    }
    std::optional<Node> last;
    for (const Node child : root.children()) last = child;
    if (last && last->key() == "log") return *last;
    if (const auto log = root.find("log")) {
      throw log->key_problem(fmt::format("the log must be the last key; move it below '{}', with all its entries",
                                         printable(last->key(), 60)));
    }
    assert(last);  // a mapping without braces holds a key
    throw last->key_problem("no log below here; write 'log: []' as the last line");
  }

  [[nodiscard]] std::size_t column(std::size_t at) const {
    const std::size_t newline = at == 0 ? std::string_view::npos : text_.rfind('\n', at - 1);
    return newline == std::string_view::npos ? at : at - newline - 1;
  }

  void take_indent() {
    indent_ = column(log_.offset());
    const std::string_view before = text_.substr(log_.offset() - indent_, indent_);
    if (text_[log_.offset()] != '-' || before.find_first_not_of(' ') != std::string_view::npos) {
      throw log_.problem("the log's first entry must begin with '- ' on a line of its own; move it there");
    }
  }

  void below_key() { indent_ = column(log_.key_offset()) + 2; }

  // "log: []" becomes "log:".
  void open_brackets() {
    if (log_.size() > 0) {
      throw log_.problem(
          "the log stands in brackets, where no entry can be added; write each entry on its own line, "
          "with '- ' before it");
    }
    cut_from_ = log_.offset();
    while (cut_from_ > 0 && is_blank(text_[cut_from_ - 1])) --cut_from_;
    cut_to_ = text_.find_first_not_of(" \t", log_.offset() + 1);
    if (cut_from_ == 0 || text_[cut_from_ - 1] != ':' || cut_to_ == std::string_view::npos || text_[cut_to_] != ']') {
      throw log_.problem("an empty log must stand on one line; write 'log: []'");
    }
    ++cut_to_;
    if (cut_to_ < text_.size() && text_[cut_to_] == '#') {
      throw tree_.problem(cut_to_,
                          "'#' begins a remark only after a blank; put one before it, as in 'log: []  # none'");
    }
    below_key();
  }

  // A log that is there, but has no value: only remarks may follow.
  void require_nothing() {
    if (!log_.is(Node::Kind::nothing)) throw log_.problem("the log must be a list of entries; write 'log: []'");
    std::size_t at = text_.find(':', log_.key_offset()) + 1;
    while (at < text_.size()) {
      const std::size_t end = std::min(text_.find('\n', at), text_.size());
      const std::size_t first = text_.find_first_not_of(" \t\r", at);
      if (first < end && text_[first] != '#') throw log_.problem("an empty log is written 'log: []'");
      at = end + 1;
    }
    below_key();
  }

  void refuse_document_end() const {
    const std::size_t at = text_.find("\n...", log_.key_offset());
    if (at == std::string_view::npos) return;
    const std::size_t after = at + 4;
    if (after < text_.size() && !is_blank(text_[after]) && text_[after] != '\r' && text_[after] != '\n') return;
    throw tree_.problem(at + 1, "'...' ends the project, and no entry can be added below it; remove this line");
  }

  // Blanks without a line end after them: YAML readers don't agree whether a block that keeps its line ends ('>+')
  // already holds this one, and so whether the one added here would change it.
  void refuse_open_end() const {
    const std::size_t newline = text_.rfind('\n');
    if (newline == std::string_view::npos || newline + 1 == text_.size()) return;
    if (text_.find_first_not_of(" \t", newline + 1) != std::string_view::npos || !keeps_line_ends()) return;
    throw tree_.problem(newline + 1,
                        "the last line holds only blanks, below a block that keeps its line ends ('+'); "
                        "remove it");
  }

  // Whether somewhere in the log a line ends in a block's "|+" or ">+".
  [[nodiscard]] bool keeps_line_ends() const {
    for (std::size_t at = text_.find('+', log_.key_offset()); at != std::string_view::npos;
         at = text_.find('+', at + 1)) {
      const std::size_t mark = text_.find_last_not_of("0123456789", at - 1);
      const std::size_t after = text_.find_first_not_of("0123456789 \t\r", at + 1);
      const bool ends_line = after == std::string_view::npos || text_[after] == '\n' || text_[after] == '#';
      if (ends_line && (text_[mark] == '|' || text_[mark] == '>')) return true;
    }
    return false;
  }

  std::string_view text_;
  const Tree& tree_;
  Node log_;
  std::size_t indent_ = 0;
  std::size_t cut_from_ = 0, cut_to_ = 0;
};

// A '%' at the start of a line below the log is a directive to YAML, and ends what stands before it.
std::optional<std::size_t> directive_below(std::string_view text, Node log) {
  const std::size_t at = text.find("\n%", log.key_offset());
  return at == std::string_view::npos ? std::nullopt : std::optional(at + 1);
}

Problem unsafe(Node log) {
  std::optional<Node> last;
  for (const Node item : log.children()) last = item;
  return (last ? *last : log)
      .problem(
          "no entry can be added safely below this one; write it in braces on one line, as in '- {n: 1, did: note}'");
}

}  // namespace

std::string add_entries(const std::string& text, const Tree& before, const std::vector<std::string>& entries) {
  const bool marked = text.starts_with(kByteOrderMark);
  const std::string_view plain = std::string_view(text).substr(marked ? kByteOrderMark.size() : 0);
  const LogText log(plain, before);
  std::string added = (marked ? std::string(kByteOrderMark) : "") + log.with(entries);
  if (added.size() > Tree::kMostBytes) {
    throw Problem(Fault::content,
                  fmt::format("{}: with the new entry it would be larger than 64 MB; go on in a new project",
                              printable(before.file())));
  }
  assert(std::all_of(entries.begin(), entries.end(), [](const std::string& entry) {
    return entry.starts_with('{') && entry.ends_with('}') && entry.find_first_of("\r\n") == std::string::npos;
  }));
  std::optional<Tree> after;
  const auto refuse_added = [&] {
    if (const auto at = directive_below(plain, log.log())) {
      throw before.problem(*at, "this line begins with '%', and no entry can be added below it; remove it");
    }
    throw unsafe(log.log());
  };
  try {
    after.emplace(added, before.file());
  } catch (const Problem&) {
    refuse_added();
  }
  if (!only_log_differs(before.root(), after->root(), entries)) refuse_added();
  return added;
}

}  // namespace ballchange
