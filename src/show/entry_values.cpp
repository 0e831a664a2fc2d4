#include "show/entry_values.hpp"

#include <algorithm>

#include "base/problem.hpp"

namespace ballchange {
namespace {

class Collector {
 public:
  explicit Collector(const Ruler& ruler) : ruler_(ruler) {}

  template <typename Value, typename... Kind>
  void operator()(std::string_view key, const std::optional<Value>& value, Kind... kind) {
    if (value) (*this)(key, *value, kind...);
  }
  void operator()(std::string_view key, const std::string& value, TextSize = TextSize::name) { add(key, value); }
  void operator()(std::string_view key, const std::vector<std::string>& values) {
    if (!values.empty()) add(key, values);
  }
  void operator()(std::string_view key, const Amount& value, Sign = Sign::none) { add(key, length(value)); }
  void operator()(std::string_view key, const Mass& value) { add(key, value.g()); }
  void operator()(std::string_view key, int value, CountFrom = CountFrom::one) { add(key, value); }
  void operator()(std::string_view key, double value) { add(key, value); }
  void operator()(std::string_view key, bool value) {
    if (value) add(key, value);
  }
  void operator()(std::string_view key, Method value) { add(key, std::string(method_row(value).name)); }
  void operator()(std::string_view key, BallEnd value) { add(key, std::string(end_name(value))); }
  void operator()(std::string_view key, Winding value) { add(key, std::string(winding_name(value))); }
  void operator()(std::string_view key, End value) { add(key, std::string(cut_from_name(value))); }

  [[nodiscard]] std::vector<std::pair<std::string_view, EntryValue>> take() { return std::move(values_); }

 private:
  void add(std::string_view key, EntryValue value) { values_.emplace_back(key, std::move(value)); }
  [[nodiscard]] EntryValue length(const Amount& amount) const {
    try {
      return to_length({amount.number, amount.unit}, ruler_, "").cm();
    } catch (const Problem&) {
      return std::monostate();
    }
  }

  const Ruler& ruler_;
  std::vector<std::pair<std::string_view, EntryValue>> values_;
};

void value_member(Json& json, std::string_view key, const EntryValue& value) {
  json.key(key);
  if (const auto* text = std::get_if<std::string>(&value)) {
    json.text(*text);
  } else if (const auto* number = std::get_if<double>(&value)) {
    json.number(*number);
  } else if (const auto* count = std::get_if<int>(&value)) {
    json.integer(*count);
  } else if (const auto* holds = std::get_if<bool>(&value)) {
    json.boolean(*holds);
  } else if (const auto* list = std::get_if<std::vector<std::string>>(&value)) {
    json.array();
    for (const std::string& one : *list) json.text(one);
    json.end();
  } else {
    json.null();
  }
}

}  // namespace

std::vector<std::pair<std::string_view, EntryValue>> entry_values(const Did& what, const Ruler& ruler) {
  Collector collector(ruler);
  std::visit([&](const auto& entry) { entry.fields(entry, collector); }, what);
  return collector.take();
}

const std::vector<std::string_view>& entry_keys() {
  static const std::vector<std::string_view> keys = [] {
    std::vector<std::string_view> all;
    const auto note = [&all](std::string_view key, const auto&...) {
      if (std::find(all.begin(), all.end(), key) == all.end()) all.push_back(key);
    };
    for (const std::string& kind : kind_names()) {
      std::visit([&](const auto& entry) { entry.fields(entry, note); }, *blank_entry(kind));
    }
    return all;
  }();
  return keys;
}

void entry_members(Json& json, const LogEntry& entry, const Ruler& ruler) {
  json.member("n", entry.n).member("at", format_moment(entry.at)).member("did", kind_name(entry.what));
  for (const auto& [key, value] : entry_values(entry.what, ruler)) value_member(json, key, value);
}

void totals_json(Json& json, const Totals& totals) {
  json.object().member("joins", totals.joins).member("knots_left", totals.knots_left);
  json.member("discard", totals.discard);
  json.member("allowance", totals.allowance).member("waste", totals.waste);
  json.member("waste_mass", totals.waste_mass ? std::optional(totals.waste_mass->g()) : std::nullopt);
  json.member("waste_share", totals.waste_share).member("running_shift", totals.running_shift);
  json.key("by_cause").object().member("begin", totals.by_cause.begin).member("step", totals.by_cause.step);
  json.member("allowance", totals.by_cause.allowance).member("knots", totals.by_cause.knots);
  json.member("swatches", totals.by_cause.swatches).end().end();
}

}  // namespace ballchange
