#pragma once
#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/problem.hpp"

// A YAML file as a tree in which every node knows its line. Stricter than YAML: duplicate keys, anchors, aliases, tags,
// directives, a second document, keys that are not plain text, nesting past 32 (the document is level 1), broken UTF-8,
// control characters, and a decimal comma that YAML would take apart inside braces are all refused.
namespace ballchange {

class Tree;

// One place in a tree. Cheap to copy; valid as long as its tree stays where it is.
class Node {
 public:
  enum class Kind : std::uint8_t { nothing, scalar, sequence, mapping };
  class Children;

  [[nodiscard]] Kind kind() const;
  [[nodiscard]] bool is(Kind k) const { return kind() == k; }
  [[nodiscard]] bool quoted() const;            // a scalar written in quotes, or as a block
  [[nodiscard]] std::string_view text() const;  // a scalar's; empty otherwise
  [[nodiscard]] std::string_view key() const;   // within a mapping; empty otherwise
  [[nodiscard]] Children children() const;      // in the order written
  [[nodiscard]] std::size_t size() const;       // how many children, counted one by one
  [[nodiscard]] std::optional<Node> find(std::string_view key) const;

  // Bytes of the text before the value and before its key, a byte-order mark not counted.
  [[nodiscard]] std::size_t offset() const { return place(); }
  [[nodiscard]] std::size_t key_offset() const;
  // "orchard.yaml:4:9": the value, or its key.
  [[nodiscard]] std::string where() const;
  [[nodiscard]] std::string key_where() const;
  // Problem(content) "orchard.yaml:4:9: message", with the line and a caret; a value that is not there is pointed at by
  // its key.
  [[nodiscard]] Problem problem(const std::string& message) const;
  [[nodiscard]] Problem key_problem(const std::string& message) const;

 private:
  friend class Tree;
  Node(const Tree* tree, std::size_t index) : tree_(tree), index_(index) {}
  [[nodiscard]] std::size_t place() const;
  const Tree* tree_;
  std::size_t index_;
};

class Tree {
 public:
  static constexpr std::size_t kMostBytes = std::size_t{64} << 20U;
  static constexpr std::size_t kMostLevels = 32;

  // `file` names the text in messages. Throws Problem(content).
  Tree(std::string text, std::string file);
  Tree(const Tree&) = delete;
  Tree& operator=(const Tree&) = delete;

  [[nodiscard]] Node root() const { return {this, 0}; }  // Kind::nothing in an empty file
  [[nodiscard]] const std::string& file() const { return file_; }
  // As Node::problem, for any place in the text, a byte-order mark not counted.
  [[nodiscard]] Problem problem(std::size_t offset, const std::string& message) const;

 private:
  friend class Node;
  friend class TreeBuilder;
  // Offsets, not views: 100,000 log entries stay small. Offsets past the text
  // lie in decoded_. Records are in the order of the file; a node's children lie between it and `end`.
  struct Record {
    std::uint32_t at = 0, key_at = 0;
    std::uint32_t key = 0, key_size = 0, value = 0, value_size = 0;
    std::uint32_t end = 0;
    Node::Kind kind = Node::Kind::nothing;
    bool quoted = false, in_mapping = false;
  };
  [[nodiscard]] std::string_view piece(std::uint32_t offset, std::uint32_t size) const;
  // What lies before a stretch of kStretch bytes, so that a place is found without counting from the file's start.
  struct Stretch {
    std::uint32_t newlines = 0, line_start = 0, characters = 0;
  };
  static constexpr std::size_t kStretch = 4096;
  void index_lines();
  [[nodiscard]] std::size_t line_start(std::size_t at) const;
  [[nodiscard]] std::size_t characters_before(std::size_t at) const;
  [[nodiscard]] std::string where(std::size_t offset) const;
  void check_characters() const;
  void refuse_directives() const;

  std::string file_, text_, decoded_;
  std::vector<Record> records_;
  std::vector<Stretch> stretches_;
};

class Node::Children {
 public:
  class Iterator {
   public:
    Iterator(const Tree* tree, std::size_t index) : tree_(tree), index_(index) {}
    Node operator*() const { return {tree_, index_}; }
    Iterator& operator++();
    bool operator==(const Iterator& other) const { return index_ == other.index_; }

   private:
    const Tree* tree_;
    std::size_t index_;
  };
  Children(const Tree* tree, std::size_t first, std::size_t end) : tree_(tree), first_(first), end_(end) {}
  [[nodiscard]] Iterator begin() const { return {tree_, first_}; }
  [[nodiscard]] Iterator end() const { return {tree_, end_}; }

 private:
  const Tree* tree_;
  std::size_t first_, end_;
};

}  // namespace ballchange
