#include <fmt/core.h>
#include <yaml-cpp/eventhandler.h>
#include <yaml-cpp/exceptions.h>
#include <yaml-cpp/parser.h>

#include <algorithm>
#include <array>
#include <istream>
#include <optional>
#include <streambuf>
#include <tuple>
#include <utility>

#include "base/text.hpp"
#include "files/yaml_dash.hpp"
#include "files/yaml_depth.hpp"
#include "files/yaml_hash.hpp"
#include "files/yaml_tree.hpp"

// yaml-cpp's own tree keeps duplicate keys silently and takes some fifty times the memory; its events carry all that is
// needed. Its recursion follows the nesting, which is stopped at level 32.
namespace ballchange {
namespace {

constexpr std::size_t kLongestKey = 1024;  // bytes that YAML 1.2 lets a key on one line have (7.4.2)

// Reads straight from the text: a string stream would hold a second copy.
class TextBuffer : public std::streambuf {
 public:
  explicit TextBuffer(std::string& text) { setg(text.data(), text.data(), text.data() + text.size()); }
};

constexpr const char* kAnchor = "an anchor (&) is not understood here; write the text in quotes, or out in full";
constexpr const char* kAlias = "an alias (*) is not understood here; write the text in quotes, or out in full";
constexpr const char* kTag = "a tag (!) is not understood here; write the text in quotes, or leave the tag out";
constexpr const char* kTooDeep = "nested more than 32 deep; use fewer levels";
static_assert(Tree::kMostLevels == 32);

struct Wording {
  std::string_view theirs, ours;
};

std::string our_words(std::string_view theirs) {
  using namespace YAML::ErrorMsg;
  static const std::array wordings{
      Wording{END_OF_MAP, "this line does not belong to the one above; check its indent and its colon"},
      Wording{END_OF_SEQ, "this line does not belong to the list above; check its indent and its dash"},
      Wording{TAB_IN_INDENTATION, "a tab in the indent; use spaces"},
      Wording{EOF_IN_SCALAR, "a quote is never closed; add it"},
      Wording{DOC_IN_SCALAR, "a quote is never closed; add it"},
      Wording{UNKNOWN_TOKEN, "a text can't begin with this character; put the text in quotes"},
      Wording{INVALID_ESCAPE, "an unknown escape; write a backslash twice, or use single quotes"},
      Wording{MAP_VALUE, "a colon out of place; put a text that holds one in quotes, or check the indent"},
      Wording{FLOW_END, "a closing bracket with no opening one; remove it"},
      Wording{MULTIPLE_ANCHORS, kAnchor},
      Wording{ANCHOR_NOT_FOUND, kAnchor},
      Wording{CHAR_IN_ANCHOR, kAnchor},
      Wording{ALIAS_NOT_FOUND, kAlias},
      Wording{CHAR_IN_ALIAS, kAlias},
      Wording{MULTIPLE_TAGS, kTag},
      Wording{END_OF_VERBATIM_TAG, kTag},
      Wording{INVALID_HEX, "an escape that names no character; write a backslash twice, or use single quotes"},
      Wording{INVALID_UNICODE, "an escape that names no character; write a backslash twice, or use single quotes"},
      Wording{MAP_KEY, "a question mark out of place; put a text that begins with one in quotes"},
      Wording{CHAR_IN_BLOCK,
              "nothing but a digit or a sign follows a | or > here; put a text that begins with it in quotes"},
      Wording{BLOCK_ENTRY, "a dash out of place; begin a list on a line of its own"},
  };
  for (const Wording& w : wordings) {
    if (theirs.substr(0, w.theirs.size()) == w.theirs) return std::string(w.ours);
  }
  return fmt::format("not readable as YAML ({}); check indent, brackets and quotes", printable(theirs));
}

bool is_digit(char c) { return c >= '0' && c <= '9'; }

}  // namespace

class TreeBuilder : public YAML::EventHandler {
 public:
  explicit TreeBuilder(Tree& tree) : tree_(tree) {}

  void OnDocumentStart(const YAML::Mark& mark) override {
    if (started_) {
      throw tree_.problem(offset(mark), "a second document begins here; keep one, its keys all at the same indent");
    }
    started_ = true;
  }
  void OnDocumentEnd() override {}

  void OnNull(const YAML::Mark& mark, YAML::anchor_t) override {
    refuse_tag(mark);
    if (key_expected()) throw no_key_problem(offset(mark));
    Tree::Record& r = open(mark, Node::Kind::nothing);
    if (r.in_mapping) {
      refuse_decimal_comma(r);
      refuse_torn_text(r);
    } else if (!parents_.empty()) {
      r.at = static_cast<std::uint32_t>(empty_item(tree_.text_, r.at));
    }
    close();
  }

  void OnAlias(const YAML::Mark& mark, YAML::anchor_t) override { throw alias_problem(mark); }
  void OnAnchor(const YAML::Mark& mark, const std::string&) override { throw tree_.problem(offset(mark), kAnchor); }

  void OnScalar(const YAML::Mark& mark, const std::string&, YAML::anchor_t, const std::string& value) override {
    refuse_tag(mark);
    refuse_open_quote(offset(mark));
    if (key_expected()) {
      key_at_ = offset(mark);
      std::tie(key_, key_size_) = keep(mark, value);
      parents_.back().key_seen = true;
      return;
    }
    const auto kept = keep(mark, value);
    Tree::Record& r = open(mark, Node::Kind::scalar);
    std::tie(r.value, r.value_size) = kept;
    const char first = r.at < tree_.text_.size() ? tree_.text_[r.at] : ' ';
    r.quoted = first == '"' || first == '\'' || first == '|' || first == '>';
    close();
  }

  void OnSequenceStart(const YAML::Mark& mark, const std::string&, YAML::anchor_t, YAML::EmitterStyle::value) override {
    begin(mark, Node::Kind::sequence);
  }
  void OnSequenceEnd() override { end(); }
  void OnMapStart(const YAML::Mark& mark, const std::string&, YAML::anchor_t, YAML::EmitterStyle::value) override {
    begin(mark, Node::Kind::mapping);
  }
  void OnMapEnd() override {
    refuse_duplicates(parents_.back().record);
    end();
  }

  [[nodiscard]] Problem alias_problem(const YAML::Mark& mark) const { return tree_.problem(offset(mark), kAlias); }

  // yaml-cpp's own refusal in our words, where a person would look for the cause.
  [[nodiscard]] Problem reworded(const YAML::Exception& e) const {
    if (e.msg == YAML::ErrorMsg::UNKNOWN_ANCHOR) return alias_problem(e.mark);
    const std::string& text = tree_.text_;
    const std::size_t at = offset(e.mark);
    const auto bracket = open_bracket();
    if (const auto hash = hiding_hash(text, at)) return hash_problem(*hash);
    if (!bracket || (e.msg != YAML::ErrorMsg::END_OF_MAP_FLOW && e.msg != YAML::ErrorMsg::END_OF_SEQ_FLOW)) {
      return tree_.problem(at, our_words(e.msg));
    }
    return unclosed_problem(*bracket);
  }
  [[nodiscard]] std::uint32_t offset(const YAML::Mark& mark) const {
    const auto size = static_cast<std::uint32_t>(tree_.text_.size());
    return mark.pos < 0 ? size : std::min(static_cast<std::uint32_t>(mark.pos), size);
  }

 private:
  [[nodiscard]] Problem hash_problem(std::size_t hash) const {
    return tree_.problem(hash, "a # hides the rest of its line; put a shade in quotes, like \"#5b2a59\"");
  }

  [[nodiscard]] Problem unclosed_problem(std::size_t bracket) const {
    const char opening = tree_.text_[bracket];
    return tree_.problem(
        bracket, fmt::format("this {} is never closed, or a comma is missing in it; add the '{}' or ','", opening,
                             opening == '{' ? '}' : ']'));
  }

  // Whether a bracket is a key, {a: b}: c, and not just left open: then yaml-cpp takes it for one, too.
  [[nodiscard]] bool closed_before_colon(std::size_t bracket) const {
    const std::string_view line =
        std::string_view(tree_.text_).substr(bracket, tree_.text_.find('\n', bracket) - bracket);
    const std::size_t end = line.find_last_of("}]");
    const std::size_t next = end == std::string_view::npos ? end : line.find_first_not_of(' ', end + 1);
    return next != std::string_view::npos && line[next] == ':';
  }

  // Nothing, or what YAML takes for nothing, stands where a key should.
  [[nodiscard]] Problem no_key_problem(std::size_t at) const {
    const std::string& text = tree_.text_;
    const std::string_view word = std::string_view(text).substr(at, text.find_first_of(" :,{}\r\n", at) - at);
    if (!word.empty()) {
      return tree_.problem(
          at, fmt::format("'{}' means nothing in YAML, so it can't be a key; {}", printable(word, 40),
                          word.size() > kLongestKey ? "at most 1,024 bytes can be one" : "put it in quotes"));
    }
    if (at < text.size() && text[at] == ',') return tree_.problem(at, "a comma too many; remove it");
    return tree_.problem(at, "a key is missing; write one before the colon");
  }

  struct Parent {
    std::size_t record = 0;
    bool key_seen = false;
  };

  // Where the innermost { or [ stands that is still open.
  [[nodiscard]] std::optional<std::size_t> open_bracket() const {
    if (parents_.empty()) return std::nullopt;
    const std::size_t at = tree_.records_[parents_.back().record].at;
    if (at >= tree_.text_.size() || (tree_.text_[at] != '{' && tree_.text_[at] != '[')) return std::nullopt;
    return at;
  }

  [[nodiscard]] bool in_mapping() const {
    return !parents_.empty() && tree_.records_[parents_.back().record].kind == Node::Kind::mapping;
  }
  [[nodiscard]] bool key_expected() const { return in_mapping() && !parents_.back().key_seen; }

  Tree::Record& open(const YAML::Mark& mark, Node::Kind kind) {
    Tree::Record r;
    r.at = offset(mark);
    r.kind = kind;
    if (in_mapping()) {
      r.in_mapping = true;
      r.key_at = key_at_;
      r.key = key_;
      r.key_size = key_size_;
      parents_.back().key_seen = false;
    }
    return tree_.records_.emplace_back(r);
  }
  void close() { tree_.records_.back().end = static_cast<std::uint32_t>(tree_.records_.size()); }

  void begin(const YAML::Mark& mark, Node::Kind kind) {
    refuse_tag(mark);
    if (key_expected()) {
      // What a # hides may be the bracket's end, so that all up to there is taken for a key.
      const auto hash = hiding_hash(tree_.text_, tree_.text_.size());
      if (!hash && open_bracket() == offset(mark) && !closed_before_colon(offset(mark))) {
        throw unclosed_problem(offset(mark));
      }
      throw hash ? hash_problem(*hash) : tree_.problem(offset(mark), "a key must be plain text; put it in quotes");
    }
    if (parents_.size() == Tree::kMostLevels) throw tree_.problem(offset(mark), kTooDeep);
    open(mark, kind);
    parents_.push_back({tree_.records_.size() - 1});
  }
  void end() {
    tree_.records_[parents_.back().record].end = static_cast<std::uint32_t>(tree_.records_.size());
    parents_.pop_back();
  }

  // Where the value lies: in the text when it stands there letter for letter, otherwise among the decoded ones.
  std::pair<std::uint32_t, std::uint32_t> keep(const YAML::Mark& mark, const std::string& value) {
    const std::uint32_t at = offset(mark);
    const auto size = static_cast<std::uint32_t>(value.size());
    for (const std::uint32_t start : {at, at + 1}) {
      if (start < tree_.text_.size() && tree_.text_.compare(start, size, value) == 0) return {start, size};
    }
    for (std::size_t i = 0; i < value.size();) {
      const char32_t c = next_code_point(value, i);
      if ((c < 0x20 && c != '\n' && c != '\t') || (c >= 0x7F && c < 0xA0)) {
        throw tree_.problem(at, "a control character in this text; remove it");
      }
    }
    const auto start = static_cast<std::uint32_t>(tree_.text_.size() + tree_.decoded_.size());
    tree_.decoded_ += value;
    return {start, size};
  }

  void refuse_tag(const YAML::Mark& mark) const {
    const std::uint32_t at = offset(mark);
    if (at < tree_.text_.size() && tree_.text_[at] == '!') throw tree_.problem(at, kTag);
  }

  // yaml-cpp takes the end of the file for the missing quote.
  void refuse_open_quote(std::size_t at) const {
    const std::string& text = tree_.text_;
    if (at >= text.size() || (text[at] != '"' && text[at] != '\'')) return;
    const char quote = text[at];
    for (std::size_t i = at + 1; i < text.size(); ++i) {
      if (quote == '"' && text[i] == '\\') {
        ++i;
      } else if (text[i] == quote) {
        if (quote == '"' || i + 1 == text.size() || text[i + 1] != quote) return;
        ++i;
      }
    }
    throw tree_.problem(at, "this quote is never closed; add the closing one");
  }

  // {outside: plum 15, rust 30} reaches us as outside: plum 15 and a key "rust 30", which has no colon.
  void refuse_torn_text(const Tree::Record& r) const {
    const std::string& text = tree_.text_;
    const std::size_t next = text.find_first_not_of(' ', std::size_t{r.key_at} + r.key_size);
    if (!open_bracket() || next == std::string::npos || (text[next] != ',' && text[next] != '}')) return;
    throw tree_.problem(r.key_at,
                        fmt::format("'{}' has no value; if it goes on from the text before it, put the whole in quotes",
                                    printable(tree_.piece(r.key, r.key_size), 40)));
  }

  // {length: 60,5 cm} reaches us as length: 60 and a key "5 cm" with no value.
  void refuse_decimal_comma(const Tree::Record& r) const {
    const std::string& text = tree_.text_;
    std::size_t comma = r.key_at;
    while (comma > 0 && text[comma - 1] == ' ') --comma;
    if (comma < 2 || !is_digit(text[r.key_at]) || text[comma - 1] != ',' || !is_digit(text[comma - 2])) return;
    std::size_t first = comma - 2;
    while (first > 0 && (is_digit(text[first - 1]) || text[first - 1] == '.')) --first;
    std::string whole = printable(text.substr(first, comma - 1 - first), 40);
    const std::string rest = printable(tree_.piece(r.key, r.key_size), 40);
    const std::string written = fmt::format("{},{}", whole, rest);
    std::erase(whole, '.');  // between thousands
    throw tree_.problem(first, fmt::format("a decimal comma in '{}'; write '{}.{}'", written, whole, rest));
  }

  void refuse_duplicates(std::size_t mapping) const {
    std::vector<std::size_t> sorted;
    for (std::size_t i = mapping + 1; i < tree_.records_.size(); i = tree_.records_[i].end) sorted.push_back(i);
    const auto key = [&](std::size_t i) { return tree_.piece(tree_.records_[i].key, tree_.records_[i].key_size); };
    std::sort(sorted.begin(), sorted.end(),
              [&](std::size_t a, std::size_t b) { return std::pair(key(a), a) < std::pair(key(b), b); });
    std::size_t first = 0;
    std::size_t again = 0;
    for (std::size_t i = 1; i < sorted.size(); ++i) {
      if (key(sorted[i - 1]) != key(sorted[i]) || (again != 0 && sorted[i] > again)) continue;
      first = sorted[i - 1];
      again = sorted[i];
    }
    if (again == 0) return;
    const std::string earlier = tree_.where(tree_.records_[first].key_at);
    const std::string place = earlier.substr(printable(tree_.file_).size() + 1);
    throw tree_.problem(tree_.records_[again].key_at, fmt::format("'{}' stands here twice (first at {}); keep one",
                                                                  printable(key(again), 60), place));
  }

  Tree& tree_;
  std::vector<Parent> parents_;
  std::uint32_t key_at_ = 0, key_ = 0, key_size_ = 0;
  bool started_ = false;
};

void Tree::check_characters() const {
  for (std::size_t at = 0; at < text_.size();) {
    const std::size_t start = at;
    const char c = text_[at];
    if ((c >= ' ' && c <= '~') || c == '\n' || c == '\t') {
      ++at;
      continue;
    }
    if (c == '\r' && at + 1 < text_.size() && text_[at + 1] == '\n') {
      at += 2;
      continue;
    }
    const char32_t point = next_code_point(text_, at);
    if (point == 0xFFFD && at - start == 1) {
      throw problem(start, "not UTF-8 text; save the file as UTF-8");
    }
    if (c == '\r')
      throw problem(start, "a line end that is a bare CR (U+000D); save the file with LF or CRLF line ends");
    if (c == '\0') throw problem(start, "a NUL (U+0000), as in UTF-16; save the file as UTF-8");
    if (point < 0xA0) {
      throw problem(start, fmt::format("a control character (U+{:04X}); remove it", static_cast<unsigned>(point)));
    }
  }
}

// They stand before the document or past its end; yaml-cpp passes over them without a word.
void Tree::refuse_directives() const {
  const std::string_view text = text_;
  bool outside = true;
  for (std::size_t line = 0; line < text.size();) {
    if (outside && text[line] == '%') throw problem(line, "a directive (%) is not understood here; remove the line");
    const std::size_t end = std::min(text.find('\n', line), text.size());
    const std::string_view words = trim(text.substr(line, end - line));
    if (text.substr(line, 3) == "..." && (words.size() == 3 || words[3] == ' ' || words[3] == '\t')) {
      outside = true;
    } else if (!words.empty() && words.front() != '#') {
      outside = false;
    }
    line = end + 1;
  }
}

Tree::Tree(std::string text, std::string file) : file_(std::move(file)), text_(std::move(text)) {
  if (text_.size() > kMostBytes) {
    throw Problem(Fault::content, fmt::format("{}: larger than 64 MB; split it up", printable(file_)));
  }
  if (text_.starts_with("\xEF\xBB\xBF")) text_.erase(0, 3);
  index_lines();
  // yaml-cpp passes over this one, and what it then says of places is off by its bytes.
  if (text_.starts_with("\xEF\xBB\xBF")) throw problem(0, "two byte-order marks; save the file as UTF-8 without any");
  check_characters();
  refuse_directives();
  if (const auto deep = bracket_too_deep(text_, kMostLevels)) throw problem(*deep, kTooDeep);
  TreeBuilder builder(*this);
  try {
    TextBuffer buffer(text_);
    std::istream in(&buffer);
    YAML::Parser parser(in);
    while (parser.HandleNextDocument(builder)) {
    }
  } catch (const YAML::Exception& e) {
    throw builder.reworded(e);
  }
  if (records_.empty()) records_.push_back({.end = 1});
}

}  // namespace ballchange
