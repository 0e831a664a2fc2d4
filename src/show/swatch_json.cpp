#include "show/json.hpp"
#include "show/swatch.hpp"

namespace ballchange {
namespace {

constexpr double kFourInches = 10.16;  // cm

std::string_view us_name(Tool tool, double mm) {
  for (const ToolSize& size : sizes(tool)) {
    if (size.mm == mm) return size.name;
  }
  return {};
}

void size_members(Json& json, Tool tool, double mm) {
  const std::string_view us = us_name(tool, mm);
  json.member("mm", mm).key("us");
  if (us.empty()) {
    json.null();
  } else {
    json.text(us);
  }
}

void count_members(Json& json, const std::string& what, const std::optional<GaugeMean>& mean) {
  json.member(what + "_in_10cm", mean ? std::optional(mean->in_10cm()) : std::nullopt);
  json.member(what + "_give_or_take", mean ? std::optional(mean->give_or_take_in_10cm()) : std::nullopt);
}

void gauge_object(Json& json, Tool tool, const SizeGauge& gauge) {
  json.object();
  if (gauge.mm) {
    size_members(json, tool, *gauge.mm);
  } else {
    json.key("mm").null().key("us").null();
  }
  json.member("swatches", gauge.swatches);
  count_members(json, "stitches", gauge.stitch);
  count_members(json, "rows", gauge.row);
  json.member("yarn_per_stitch", gauge.yarn ? std::optional(gauge.yarn->mean) : std::nullopt);
  json.member("yarn_give_or_take", gauge.yarn ? std::optional(gauge.yarn->give_or_take()) : std::nullopt).end();
}

void expected_member(Json& json, std::string_view name, Tool tool, const std::optional<ExpectedGauge>& expected) {
  json.key(name);
  if (!expected) {
    json.null();
    return;
  }
  json.object();
  size_members(json, tool, expected->size.mm);
  count_members(json, "stitches", expected->stitch);
  count_members(json, "rows", expected->row);
  json.end();
}

void want_member(Json& json, const SwatchShown& shown) {
  static constexpr std::string_view kReach[] = {"keep", "try-next", "at-odds", "no-size", "out-of-yarn"};
  const auto in_10cm = [](const std::optional<Length>& one) {
    return one ? std::optional(10 / one->cm()) : std::nullopt;
  };
  const NextSize& next = *shown.next;
  json.key("want").object().member("stitches_in_10cm", in_10cm(shown.wanted->stitch));
  json.member("rows_in_10cm", in_10cm(shown.wanted->row));
  json.member("verdict", kReach[static_cast<std::size_t>(next.reach)]);
  json.member("stitches_at_mm", next.stitches_at_mm).member("rows_at_mm", next.rows_at_mm);
  expected_member(json, "next", shown.tool, next.best);
  expected_member(json, "for_stitches", shown.tool, next.for_stitches);
  expected_member(json, "for_rows", shown.tool, next.for_rows);
  json.end();
}

template <class Value, class Judge>
void against_value(Json& json, const std::optional<Value>& value, Judge judge) {
  static constexpr std::string_view kAgainst[] = {"within", "below", "above"};
  if (!value) {
    json.null();
    return;
  }
  json.text(kAgainst[static_cast<std::size_t>(judge(*value))]);
}

void class_member(Json& json, const SwatchShown& shown) {
  const YarnClass& one = *shown.yarn_class;
  const bool hook = shown.tool == Tool::hook;
  const UsualRange& stitches = hook ? one.crochet_stitches : one.knit_stitches;
  const UsualRange& mm = hook ? one.hook_mm : one.needle_mm;
  json.key("class").object().member("number", one.number).member("name", one.name);
  json.key("stitches_in_4in").array().number(stitches.low).number(stitches.high).end();
  json.key("mm").array().number(mm.low).number(mm.high).end().key("gauges").array();
  for (const SizeGauge& gauge : shown.gauges) {
    json.object().key("stitches");
    against_value(json, gauge.stitch,
                  [&](const GaugeMean& mean) { return against_stitches(stitches, mean.in_10cm() * kFourInches / 10); });
    json.key("mm");
    against_value(json, gauge.mm, [&](double size) { return against_size(mm, size); });
    json.end();
  }
  json.end().end();
}

}  // namespace

std::string swatch_json(const SwatchShown& shown) {
  static constexpr std::string_view kChain[] = {"not-told", "counts", "apart"};
  Json json;
  json.object().member("format", "ballchange gauge 1").member("tool", tool_name(shown.tool));
  json.key("gauges").array();
  for (const SizeGauge& gauge : shown.gauges) gauge_object(json, shown.tool, gauge);
  json.end().member("in_hand", shown.in_hand);
  if (shown.sharper) {
    json.key("sharper").object().member("wider", shown.sharper->wider);
    json.member("wider_give_or_take", shown.sharper->with_wider.give_or_take_in_10cm());
    json.member("another_give_or_take", shown.sharper->with_another.give_or_take_in_10cm()).end();
  }
  if (shown.next) want_member(json, shown);
  if (shown.yarn_class != nullptr) class_member(json, shown);
  json.member("turning_chain", kChain[static_cast<std::size_t>(shown.turn.chain)]);
  json.member("yarn_per_turn", shown.turn.yarn).member("turn_give_or_take", shown.turn.doubt);
  json.member("row_stitches", shown.turn.stitches);
  json.key("multiple").object().member("of", shown.pattern.of).member("plus", shown.pattern.plus).end();
  json.member("unit", "cm").end();
  return json.take();
}

}  // namespace ballchange
