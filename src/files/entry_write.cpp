#include <fmt/core.h>

#include <type_traits>
#include <utility>

#include "base/problem.hpp"
#include "base/text.hpp"
#include "files/entry.hpp"
#include "files/yaml_text.hpp"
#include "files/yaml_values.hpp"

namespace ballchange {
namespace {

std::string number(std::string_view key, double value) {
  const double written = to_four_decimals(value);
  if (written == 0 && value != 0) {
    throw Problem(Fault::content, fmt::format("{}: less than 0.0001 can't be written down", option_for(key)));
  }
  return fmt::format("{}", written);
}

class EntryWriter {
 public:
  template <typename Value, typename... Kind>
  void operator()(std::string_view key, const std::optional<Value>& value, Kind... kind) {
    if (value) (*this)(key, *value, kind...);
  }
  void operator()(std::string_view key, const std::string& value, TextSize size = TextSize::name) {
    add(key, text(key, value, size));
  }
  void operator()(std::string_view key, const std::vector<std::string>& values) {
    if (values.empty()) return;
    std::string list;
    for (const std::string& value : values) {
      list += (list.empty() ? "[" : ", ") + text(key, value, TextSize::remark);
    }
    add(key, list + "]");
  }
  void operator()(std::string_view key, const Amount& value, Sign sign = Sign::none) {
    // A shift is worked out, and may come to nearly nothing.
    const double told = sign == Sign::either ? to_four_decimals(value.number) : value.number;
    add(key, number(key, told) + " " + std::string(unit_name(value.unit)));
  }
  void operator()(std::string_view key, const Mass& value) { add(key, number(key, value.g()) + " g"); }
  void operator()(std::string_view key, int value, CountFrom = CountFrom::one) { add(key, fmt::format("{}", value)); }
  void operator()(std::string_view key, double value) { add(key, number(key, value)); }
  void operator()(std::string_view key, bool value) {
    if (value) add(key, "true");
  }
  void operator()(std::string_view key, Method value) { add(key, method_row(value).name); }
  void operator()(std::string_view key, BallEnd value) { add(key, end_name(value)); }
  void operator()(std::string_view key, Winding value) { add(key, winding_name(value)); }
  void operator()(std::string_view key, End value) { add(key, cut_from_name(value)); }

  void add(std::string_view key, std::string_view value) {
    out_ += fmt::format("{}{}: {}", out_.empty() ? "{" : ", ", key, value);
  }
  [[nodiscard]] std::string finish() { return std::move(out_) + "}"; }

 private:
  static std::string text(std::string_view key, const std::string& value, TextSize size) {
    const std::string trimmed = without_tabs(trim(value));
    // The text of a note stands in the command line by itself.
    const std::string told = key == "text" ? "the text" : option_for(key);
    if (const auto fault = line_fault(trimmed, told, static_cast<std::size_t>(size))) {
      throw Problem(Fault::content, *fault);
    }
    return yaml_text(trimmed);
  }

  std::string out_;
};

}  // namespace

std::string entry_text(const LogEntry& entry) {
  EntryWriter writer;
  writer("n", entry.n);
  writer.add("at", format_moment(entry.at));
  writer.add("did", kind_name(entry.what));
  std::visit([&](const auto& what) { what.fields(what, writer); }, entry.what);
  return writer.finish();
}

}  // namespace ballchange
