#include <fmt/core.h>
#include <array>

#include <algorithm>

#include "base/quantity.hpp"
#include "base/text.hpp"
#include "files/entry.hpp"
#include "files/project_values.hpp"
#include "files/yaml_values.hpp"

namespace ballchange {
namespace {

// The keys every entry has, before its own.
constexpr std::array<std::string_view, 3> kCommonKeys{"n", "at", "did"};

// Reads a value by the type of its field.
class EntryReader {
 public:
  EntryReader(Node node, Unit bare, std::string what) : node_(node), bare_(bare), what_(std::move(what)) {}

  template <typename Value, typename... Kind>
  void operator()(std::string_view key, std::optional<Value>& value, Kind... kind) {
    if (const auto node = find(key)) read(*node, key, value.emplace(), kind...);
  }
  void operator()(std::string_view key, std::vector<std::string>& values) {
    const auto list = find(key);
    if (!list) return;
    require_sequence(*list, key, "it like [row 120 stitch 14 navy begins]");
    for (const Node item : list->children()) read(item, key, values.emplace_back(), TextSize::remark);
  }
  void operator()(std::string_view key, bool& value) {
    if (const auto node = find(key)) value = yes_or_no(*node, key);
  }
  template <typename Value, typename... Kind>
  void operator()(std::string_view key, Value& value, Kind... kind) {
    const Node node = required(node_, key, what_, fmt::format("{}: {}", key, like(value)));
    ++found_;
    read(node, key, value, kind...);
  }
  [[nodiscard]] std::size_t found() const { return found_; }

 private:
  std::optional<Node> find(std::string_view key) {
    const auto node = node_.find(key);
    if (node) ++found_;
    return node;
  }

  static std::string_view like(const std::string&) { return "A"; }
  static std::string_view like(const Mass&) { return "50.2 g"; }
  static std::string_view like(const Amount&) { return "60 cm"; }
  static std::string_view like(int) { return "12"; }

  static void read(Node node, std::string_view key, std::string& value, TextSize size = TextSize::name) {
    value = one_line(node, key, static_cast<std::size_t>(size));
  }
  void read(Node node, std::string_view key, Amount& value, Sign sign = Sign::none) const {
    value = read_amount(node, key, bare_, sign);
  }
  static void read(Node node, std::string_view key, Mass& value) {
    value = parsed(node, key, [&](std::string_view text) { return parse_mass(text, key); });
    if (key == "scale" && value <= Mass()) {
      throw node.problem("scale: a scale's step is more than nothing; write it like 0.1 g");
    }
  }
  static void read(Node node, std::string_view key, int& value, CountFrom least = CountFrom::one) {
    value = read_count(node, key, least == CountFrom::zero ? 0 : 1);
  }
  static void read(Node node, std::string_view key, double& value) { value = read_number(node, key); }
  static void read(Node node, std::string_view key, Method& value) { value = read_method(node, key); }
  static void read(Node node, std::string_view key, BallEnd& value) {
    value = read_choice<BallEnd>(node, key, {{"outside", BallEnd::outside}, {"inside", BallEnd::inside}});
  }
  static void read(Node node, std::string_view key, End& value) {
    value = read_choice<End>(node, key, {{"old", End::old_end}, {"new", End::new_end}});
  }
  static void read(Node node, std::string_view key, Winding& value) {
    value = read_choice<Winding>(node, key, {{"mill", Winding::mill}, {"hand", Winding::hand}});
  }

  Node node_;
  Unit bare_;
  std::string what_;
  std::size_t found_ = 0;
};

struct KeyList {
  std::vector<std::string> keys{kCommonKeys.begin(), kCommonKeys.end()};
  template <typename... Field>
  void operator()(std::string_view key, Field&&...) {
    keys.emplace_back(key);
  }
};

void note_unknown(Node node, const Did& what, UnknownKeys& unknown) {
  KeyList known;
  std::visit([&](const auto& entry) { entry.fields(entry, known); }, what);
  // A line is counted out for each note, so that a file full of odd keys must not ask for one each.
  constexpr std::size_t most = 20;
  for (const Node child : node.children()) {
    if (unknown.notes.size() >= most) return;
    if (std::find(known.keys.begin(), known.keys.end(), child.key()) != known.keys.end()) continue;
    if (!unknown.told.emplace(child.key()).second) continue;
    unknown.notes.push_back(unknown_key_note(child, known.keys));
  }
}

void check_number(Node node, int n) {
  const Node number = required(node, "n", "an entry", fmt::format("n: {}", n));
  const std::string_view text = trim(scalar(number, "n"));
  if (text != fmt::format("{}", n)) {
    throw number.problem(
        fmt::format("n is '{}', but entries are numbered without gaps; write {}", printable(text, 40), n));
  }
}

}  // namespace

LogEntry read_entry(Node node, int n, Unit bare, UnknownKeys& unknown) {
  require_mapping(node, "an entry of the log", "it like '{n: 1, at: 2026-03-02T19:20:00Z, did: row, row: 12}'");
  check_number(node, n);
  const Node at = required(node, "at", "an entry", "at: 2026-03-02T19:20:00Z");
  const Moment moment = parsed(at, "at", [](std::string_view text) { return parse_moment(text, "at"); });
  const Node did = required(node, "did", "an entry", "did: row");
  const std::string_view kind = trim(scalar(did, "did"));
  std::optional<Did> blank = blank_entry(kind);
  if (!blank) throw did.problem(unknown_word("did", kind, kind_names()));
  LogEntry entry{n, moment, std::move(*blank)};
  EntryReader reader(node, bare, fmt::format("a {} entry", kind));
  std::visit([&](auto& what) { what.fields(what, reader); }, entry.what);
  if (reader.found() + kCommonKeys.size() != node.size()) note_unknown(node, entry.what, unknown);
  return entry;
}

EntryWritten written_entry(const LogEntry& entry, Unit bare) {
  EntryWritten written{entry_text(entry), {}};
  const auto refuse_recording = [&](std::string_view why) {
    throw Problem(Fault::content, fmt::format("this {} can't be recorded: {}", kind_name(entry.what), why));
  };
  const Tree alone(written.text, "");
  UnknownKeys unknown;
  try {
    written.entry = read_entry(alone.root(), entry.n, bare, unknown);
  } catch (const Problem& problem) {
    // Its place in a line that nobody has seen says nothing: ":1:40: ".
    const std::string_view told = problem.what();
    const std::size_t place = told.find(": ");
    refuse_recording(place == std::string_view::npos ? told : told.substr(place + 2));
  }
  if (!unknown.notes.empty() || entry_text(written.entry) != written.text)
    refuse_recording("it would not read back the same");
  return written;
}

}  // namespace ballchange
