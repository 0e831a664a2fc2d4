#include "ledger/folding.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <type_traits>
#include <utility>

#include "base/problem.hpp"
#include "base/text.hpp"
#include "fabric/tool_size.hpp"
#include "ledger/cancels.hpp"
#include "ledger/shifts.hpp"
#include "ledger/worked.hpp"

namespace ballchange {
Folding::Folding(const Project& project, std::vector<const Did*> entries, Last last)
    : project_(project), entries_(std::move(entries)), state_(project.yarn) {
  if (last == Last::just_told) just_told_ = static_cast<int>(entries_.size());
  settled_.resize(entries_.size() + 1);
  state_.cancelled = cancelled_entries(entries_, state_.troubles);
  state_.fabric.working = project.piece.working;
  state_.fabric.stitches = project.piece.stitches;
  state_.used = Length();
  open_gauge();
}

// A gauge that is told only later holds for what was worked before it too: there is no other.
void Folding::open_gauge() {
  const auto told = [&](const Amount& amount) -> std::optional<Length> {
    if (amount.unit == Unit::st) return std::nullopt;
    const Length length = to_length({amount.number, amount.unit}, {}, "");
    return can_be_stitch(length) ? std::optional(length) : std::nullopt;
  };
  std::optional<Length> stitch;
  std::optional<Amount> turn = project_.piece.yarn_per_turn;
  if (project_.piece.yarn_per_stitch) stitch = told(*project_.piece.yarn_per_stitch);
  for (std::size_t i = 0; i < entries_.size() && !stitch; ++i) {
    const auto* gauge = std::get_if<did::Gauge>(entries_[i]);
    if (gauge == nullptr || state_.cancelled[i]) continue;
    if (gauge->yarn_per_stitch) stitch = told(*gauge->yarn_per_stitch);
    if (!turn) turn = gauge->yarn_per_turn;
  }
  constexpr std::string_view ask_for_stitch = "tell the yarn per stitch with gauge";
  if (!stitch && project_.yarn.reckoning == Reckoning::stitches) {
    state_.ruler = {Unit::st, std::nullopt, true, ask_for_stitch};
    stitch = Length::cm(1);
  } else {
    state_.ruler = {project_.units, stitch, false, ask_for_stitch};
  }
  aside_.foundation = piece_length(project_.piece.foundation, "foundation");
  aside_.edging = piece_length(project_.piece.edging, "edging");
  state_.gauge =
      GaugeHistory(project_.piece.stitches, project_.piece.foundation ? std::optional(aside_.foundation) : std::nullopt,
                   {stitch, piece_length(turn, "yarn_per_turn")});
}

Length Folding::piece_length(const std::optional<Amount>& amount, std::string_view what) {
  try {
    return length(amount, what);
  } catch (const Problem& problem) {
    remark(problem.what());
    return {};
  }
}

std::string Folding::named(std::string_view key) const {
  return entry_ == just_told_ ? option_for(key) : std::string(key);
}

Length Folding::length(const std::optional<Amount>& amount, std::string_view what) const {
  return amount ? to_length({amount->number, amount->unit}, state_.ruler, named(what)) : Length();
}

WorkPlace Folding::place(int row, std::optional<int> stitch) const {
  const std::optional<int> stitches = state_.fabric.stitches;
  if (stitch && stitches && *stitch > *stitches) {
    throw Problem(Fault::content, fmt::format("stitch {} of a {} of {}; write 0 to {}", *stitch,
                                              row_word(state_.fabric.working), *stitches, *stitches));
  }
  return {row, stitch ? stitch : stitches};
}

void Folding::stand(const WorkPlace& at) {
  state_.at = at;
  state_.used = state_.gauge.used(at);
  strands_.stand(state_.at, state_.used);
}

void Folding::apply(const did::Row& entry) {
  const WorkPlace at = place(entry.row, entry.stitch);
  if (told_ && at < *told_) {
    throw Problem(Fault::content,
                  fmt::format("{} lies before {}, where the work stands; if it was ravelled back, tell that with rip",
                              place_text(at, state_.fabric.working), place_text(*told_, state_.fabric.working)));
  }
  if (state_.at && at < *state_.at) {
    state_.gauge.back_to(at);
    forget_seen_past(at);
  }
  told_ = at;
  const std::optional<Length> before = state_.used;
  stand(at);
  if (before && state_.used && *state_.used > *before) {
    state_.ravelled = std::max(state_.ravelled - (*state_.used - *before), Length());
  }
  for (const std::string& text : entry.seen) take_seen(text, {entry.row, entry.stitch});
}

void Folding::apply(const did::Rip& entry) {
  const WorkPlace back = entry.row == 0 ? WorkPlace{1, 0} : place(entry.row, std::nullopt);
  if (!state_.at) throw Problem(Fault::content, "nothing is worked yet; tell where the work stands with row first");
  if (back >= *state_.at) {
    throw Problem(Fault::content, fmt::format("the end of {0} {1} isn't behind {2}, where the work stands; name a {0} "
                                              "that is finished",
                                              row_word(state_.fabric.working), entry.row,
                                              place_text(*state_.at, state_.fabric.working)));
  }
  ++rips_;
  state_.gauge.back_to(back);
  forget_seen_past(back);
  told_ = back;
  const std::optional<Length> before = state_.used;
  stand(back);
  if (before && state_.used) state_.ravelled += *before - *state_.used;
  if (!strands_.begun()) return;
  for (const std::size_t join : strands_.come_apart()) parted(state_.joins[join]);
}

void Folding::apply(const did::Gauge& entry) {
  did::Gauge::fields(entry, [](std::string_view name, const auto& told) {
    if constexpr (std::is_same_v<decltype(told), const std::optional<double>&>) {
      if (!told || can_be_in_10cm(*told)) return;
      throw Problem(Fault::content, fmt::format("{} is out of reach; a number {}, like 18 or 18.5", name, kIn10cm));
    }
  });
  Gauge gauge = state_.gauge.now();
  if (entry.yarn_per_stitch) {
    const Amount& told = *entry.yarn_per_stitch;
    if (told.unit == Unit::st) {
      throw Problem(Fault::content, "yarn_per_stitch is the length of yarn in one stitch; write it like 1.85 cm");
    }
    const Length stitch = to_length({told.number, told.unit}, {}, "yarn_per_stitch");
    if (!can_be_stitch(stitch)) {
      throw Problem(Fault::content, fmt::format("yarn_per_stitch is out of reach; a stitch takes {}", kStitchTakes));
    }
    gauge.yarn_per_stitch = stitch;
  }
  if (entry.yarn_per_turn) gauge.yarn_per_turn = length(entry.yarn_per_turn, "yarn_per_turn");
  const auto before = state_.gauge.row();
  state_.gauge.change(state_.at.value_or(WorkPlace{1, 0}), gauge);
  const bool other_size = entry.size && state_.size && !same_size(*entry.size, *state_.size);
  sizes_ += other_size ? 1 : 0;
  if (other_size || state_.gauge.row() != before) {
    state_.gauge_changes.push_back({entry_, state_.used, before, state_.gauge.row(), other_size});
  }
  if (!state_.ruler.in_stitches) state_.ruler.yarn_per_stitch = gauge.yarn_per_stitch;
  if (entry.stitches_in_10cm) state_.stitches_in_10cm = entry.stitches_in_10cm;
  if (entry.rows_in_10cm) state_.rows_in_10cm = entry.rows_in_10cm;
  if (entry.washed_stitches_in_10cm) state_.washed_stitches_in_10cm = entry.washed_stitches_in_10cm;
  if (entry.washed_rows_in_10cm) state_.washed_rows_in_10cm = entry.washed_rows_in_10cm;
  if (entry.size) state_.size = entry.size;
}

void Folding::apply(const did::Cancel&) {}

State Folding::run() {
  for (std::size_t i = 0; i < entries_.size(); ++i) {
    if (state_.cancelled[i]) continue;
    entry_ = static_cast<int>(i) + 1;
    try {
      std::visit([this](const auto& entry) { apply(entry); }, *entries_[i]);
    } catch (const Problem& problem) {
      state_.troubles.push_back({entry_, true, problem.what()});
    }
  }
  finish();
  return std::move(state_);
}

void Folding::finish() {
  state_.fabric.yarn_per_stitch = state_.gauge.now().yarn_per_stitch;
  state_.fabric.yarn_per_turn = state_.gauge.now().yarn_per_turn;
  state_.hook = told_;
  if (!state_.ruler.in_stitches && state_.yarn.reckoning == Reckoning::stitches) {
    state_.yarn = in_centimetres(state_.yarn, *state_.ruler.yarn_per_stitch);
  }
  if (const auto first = state_.at && !strands_.begun() ? next_dyed(0) : std::nullopt) begin_with(*first, Length());
  strands_.stand(state_.at, state_.used);
  strands_.tell(state_.balls);
  if (strands_.begun()) state_.working = strands_.current().ball;
  for (JoinState& join : state_.joins) {
    if (join.held == JoinHeld::in_work || join.held == JoinHeld::ahead) join.place = place_of(join);
  }
  tell_past_end();
  add_up(project_, aside_, state_);
  tell_sightings();
  const std::vector<std::size_t> landed = strands_.landed();
  correct_shifts(state_, landed);
  std::optional<Length> running = Length();
  const Length repeat = state_.yarn.repeat.total();
  for (const std::size_t index : landed) {
    JoinState& join = state_.joins[index];
    if (running) running = join.shift ? std::optional(*running + *join.shift) : std::nullopt;
    // A whole repeat skipped is nothing skipped.
    if (running && abs(*running) > repeat / 2) running = nearest(*running, repeat);
    join.running_shift = running;
  }
  state_.totals.running_shift = running;
  std::erase_if(state_.troubles,
                [&](const Trouble& one) { return !one.skipped && settled_[static_cast<std::size_t>(one.entry)]; });
  std::stable_sort(state_.troubles.begin(), state_.troubles.end(),
                   [](const Trouble& a, const Trouble& b) { return a.entry < b.entry; });
}

}  // namespace ballchange
