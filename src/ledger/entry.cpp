#include "ledger/entry.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

namespace ballchange {
namespace {

template <std::size_t... I>
std::vector<std::string> names_of(std::index_sequence<I...>) {
  return {std::string(std::variant_alternative_t<I, Did>::kName)...};
}

template <std::size_t... I>
std::optional<Did> blank_of(std::string_view kind, std::index_sequence<I...>) {
  std::optional<Did> found;
  const auto take = [&](auto blank) {
    if (decltype(blank)::kName == kind) found = std::move(blank);
  };
  (take(std::variant_alternative_t<I, Did>{}), ...);
  return found;
}

using Kinds = std::make_index_sequence<std::variant_size_v<Did>>;

}  // namespace

std::string_view kind_name(const Did& what) {
  return std::visit([](const auto& entry) { return entry.kName; }, what);
}

const std::vector<std::string>& kind_names() {
  static const std::vector<std::string> names = names_of(Kinds());
  return names;
}

std::optional<Did> blank_entry(std::string_view kind) { return blank_of(kind, Kinds()); }

std::string option_for(std::string_view key) {
  std::string option = "--" + std::string(key);
  std::replace(option.begin(), option.end(), '_', '-');
  return option;
}

std::string_view end_name(BallEnd end) { return end == BallEnd::outside ? "outside" : "inside"; }

std::string_view winding_name(Winding wound) { return wound == Winding::mill ? "mill" : "hand"; }

std::string_view cut_from_name(End end) { return end == End::old_end ? "old" : "new"; }

double to_four_decimals(double number) { return std::round(number * 1e4) / 1e4 + 0.0; }

Amount amount_in(Length length, Unit unit, const Ruler& ruler) {
  return {to_four_decimals(length / unit_length(unit, ruler)), unit};
}

}  // namespace ballchange
