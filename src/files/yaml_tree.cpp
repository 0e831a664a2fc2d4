#include "files/yaml_tree.hpp"

#include <fmt/core.h>

#include <algorithm>

#include "base/caret.hpp"
#include "base/text.hpp"

namespace ballchange {
namespace {

bool continues_code_point(char byte) { return (static_cast<unsigned char>(byte) & 0xC0U) == 0x80U; }

// The line around `at`, and a caret below. Of a very long line only what can be shown is looked at.
std::vector<std::string> line_and_caret(std::string_view text, std::size_t line, std::size_t at) {
  constexpr std::size_t most = 400;
  std::size_t begin = line;
  if (at - begin > most) begin = at - most;
  while (begin < at && continues_code_point(text[begin])) ++begin;
  std::size_t end = std::min({text.find_first_of("\r\n", at), text.size(), at + most});
  while (end > at && end < text.size() && continues_code_point(text[end])) --end;
  if (begin == end) return {};
  return caret_lines(text.substr(begin, end - begin), at - begin);
}

}  // namespace

void Tree::index_lines() {
  stretches_.reserve(text_.size() / kStretch + 1);
  Stretch before;
  for (std::size_t at = 0; at <= text_.size(); ++at) {
    if (at % kStretch == 0) stretches_.push_back(before);
    if (at == text_.size()) break;
    if (!continues_code_point(text_[at])) ++before.characters;
    if (text_[at] != '\n') continue;
    ++before.newlines;
    before.line_start = static_cast<std::uint32_t>(at + 1);
  }
}

std::size_t Tree::line_start(std::size_t at) const {
  const std::size_t from = at - at % kStretch;
  const std::size_t newline = std::string_view(text_).substr(from, at - from).rfind('\n');
  return newline == std::string_view::npos ? stretches_[at / kStretch].line_start : from + newline + 1;
}

std::size_t Tree::characters_before(std::size_t at) const {
  const std::string_view since = std::string_view(text_).substr(at - at % kStretch, at % kStretch);
  const auto more = std::count_if(since.begin(), since.end(), [](char c) { return !continues_code_point(c); });
  return stretches_[at / kStretch].characters + static_cast<std::size_t>(more);
}

std::string_view Tree::piece(std::uint32_t offset, std::uint32_t size) const {
  if (offset < text_.size()) return std::string_view(text_).substr(offset, size);
  return std::string_view(decoded_).substr(offset - text_.size(), size);
}

std::string Tree::where(std::size_t offset) const {
  const std::size_t at = std::min(offset, text_.size());
  const std::string_view since = std::string_view(text_).substr(at - at % kStretch, at % kStretch);
  const auto newlines = static_cast<std::size_t>(std::count(since.begin(), since.end(), '\n'));
  const std::size_t line = 1 + stretches_[at / kStretch].newlines + newlines;
  const std::size_t column = 1 + characters_before(at) - characters_before(line_start(at));
  return fmt::format("{}:{}:{}", printable(file_), line, column);
}

Problem Tree::problem(std::size_t offset, const std::string& message) const {
  const std::size_t at = std::min(offset, text_.size());
  return {Fault::content, fmt::format("{}: {}", where(at), message), line_and_caret(text_, line_start(at), at)};
}

Node::Kind Node::kind() const { return tree_->records_[index_].kind; }

bool Node::quoted() const { return tree_->records_[index_].quoted; }

std::string_view Node::text() const {
  const Tree::Record& r = tree_->records_[index_];
  return tree_->piece(r.value, r.value_size);
}

std::string_view Node::key() const {
  const Tree::Record& r = tree_->records_[index_];
  return tree_->piece(r.key, r.key_size);
}

Node::Children Node::children() const { return {tree_, index_ + 1, tree_->records_[index_].end}; }

std::size_t Node::size() const {
  std::size_t count = 0;
  const Children all = children();
  for (auto child = all.begin(); !(child == all.end()); ++child) ++count;
  return count;
}

std::optional<Node> Node::find(std::string_view key) const {
  if (!is(Kind::mapping)) return std::nullopt;
  for (const Node child : children()) {
    if (child.key() == key) return child;
  }
  return std::nullopt;
}

std::size_t Node::place() const {
  const Tree::Record& r = tree_->records_[index_];
  return r.kind == Kind::nothing && r.in_mapping ? r.key_at : r.at;
}

std::size_t Node::key_offset() const { return tree_->records_[index_].key_at; }
std::string Node::where() const { return tree_->where(place()); }
std::string Node::key_where() const { return tree_->where(tree_->records_[index_].key_at); }
Problem Node::problem(const std::string& message) const { return tree_->problem(place(), message); }
Problem Node::key_problem(const std::string& message) const {
  return tree_->problem(tree_->records_[index_].key_at, message);
}

Node::Children::Iterator& Node::Children::Iterator::operator++() {
  index_ = tree_->records_[index_].end;
  return *this;
}

}  // namespace ballchange
