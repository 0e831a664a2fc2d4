#include "project/report_joins.hpp"

#include <fmt/core.h>

#include <algorithm>

#include "base/problem.hpp"
#include "base/text.hpp"
#include "join/advice.hpp"
#include "match/place.hpp"
#include "paper/strands.hpp"
#include "picture/strands.hpp"
#include "show/join_words.hpp"
#include "show/place.hpp"

namespace ballchange {
namespace {

constexpr Sheet kStrands{150, 60};

class Ends {
 public:
  Ends(const OpenProject& open, Told told)
      : open_(open), told_(told), ruler_(ruler_on_record(open.state.ruler, open.project)), matcher_(open.state.yarn) {}

  [[nodiscard]] ReportJoin of(const JoinState& join) {
    const LogEntry& entry = open_.project.entries[static_cast<std::size_t>(join.entry) - 1];
    ReportJoin told{join, entry, {}, {}};
    const auto& cut = std::get<did::Join>(entry.what);
    const auto old_strand = placed(cut.old_reading, End::old_end, join.old_ball);
    const auto new_strand = placed(cut.new_reading, End::new_end, join.new_ball);
    if (!old_strand || !new_strand) return told;
    told.picture = picture(join, *old_strand, *new_strand);
    told.ends = fmt::format("The old end lay {}, the new one {}.", where(*old_strand), where(*new_strand));
    return told;
  }

 private:
  [[nodiscard]] std::string picture(const JoinState& state, const Strand& old_strand, const Strand& new_strand) const {
    const Join join = as_made(state, old_strand.reading, new_strand.reading);
    const Repeat& repeat = open_.state.yarn.repeat;
    const auto scene = strands_scene(repeat.colours(), &repeat, old_strand, new_strand, join,
                                     {Tape(), open_.state.yarn.ball_plus_minus});
    if (!scene) return {};
    const StrandsOnPaper words = words_for(state, *scene);
    Drawing drawing(fmt::format("join-{}", state.entry), words.title, words.description);
    const Sheet sheet = draw_strands(drawing, *scene, words, 1, 1, kStrands);
    return drawing.inline_svg({sheet.width + 2, sheet.height + 2});
  }

  [[nodiscard]] StrandsOnPaper words_for(const JoinState& join, const StrandsScene& scene) const {
    const auto ball = [](const std::string& id) { return id.empty() ? "" : ", ball " + printable(id, 40); };
    const auto trim = [&](Length length) { return is_nothing(length, told_) ? "" : tape(length, told_); };
    StrandsOnPaper words;
    words.title = fmt::format("Both strands at the join of entry {}", join.entry);
    words.old_name = "Old strand" + ball(join.old_ball);
    words.new_name = "New strand" + ball(join.new_ball);
    words.old_trim = trim(join.trim_old);
    words.new_trim = trim(join.trim_new);
    if (!words.old_trim.empty()) words.old_mark = "cut";
    if (!words.new_trim.empty()) words.new_mark = "cut";
    if (join.allowance && !join.knot_left)
      words.overlap = fmt::format("{}, {}", tape(*join.allowance, told_), method_row(join.method).name);
    if (scene.left_out) words.left_out = tape(scene.left_out->to - scene.left_out->from, told_) + " left out";
    words.told = told_;
    words.shift = shift_text(join.shift.value_or(Length()), {}, told_);
    words.description = "The old strand above the new one, as they were joined: " +
                        (words.old_trim.empty() ? "nothing" : words.old_trim) + " off the old end, " +
                        (words.new_trim.empty() ? "nothing" : words.new_trim) + " off the new one." +
                        (words.shift.empty() ? "" : " " + words.shift);
    return words;
  }

  // All that was read of both ends is worth showing.
  [[nodiscard]] static Join as_made(const JoinState& state, const Reading& old_end, const Reading& new_end) {
    const auto rest = [](const Reading& reading, Length trim) {
      return Mark{0, {}, MarkFrom::start, std::max(Length(), reading.measured() - trim), {}, true};
    };
    Join join;
    join.trim_old = state.trim_old;
    join.trim_new = state.trim_new;
    join.discard = state.trim_old + state.trim_new;
    join.allowance = state.allowance.value_or(Length());
    join.shift = state.shift.value_or(Length());
    join.leave_knot = state.knot_left;
    join.old_mark = rest(old_end, state.trim_old);
    join.new_mark = rest(new_end, state.trim_new);
    return join;
  }

  // Nothing where it wasn't read, or its place isn't settled.
  std::optional<Strand> placed(const std::optional<std::string>& text, End end, const std::string& id) {
    if (!text) return std::nullopt;
    Palette palette{open_.state.yarn.repeat.colours(), false};
    try {
      Reading reading = parse_reading(*text, end, palette, ruler_, "entry");
      const BallState* ball = open_.state.find_ball(id);
      const MatchOptions match = ball == nullptr ? MatchOptions() : expected({}, *ball, ball->from);
      Placing placing = matcher_.match(reading, match);
      if (placing.verdict != Verdict::settled) return std::nullopt;
      return Strand{std::move(reading), std::move(placing)};
    } catch (const Problem&) {
      return std::nullopt;
    }
  }

  [[nodiscard]] std::string where(const Strand& strand) const {
    return place_text(open_.state.yarn.repeat, strand.placing.place, told_, doubt_of(strand.placing));
  }

  const OpenProject& open_;
  Told told_;
  Ruler ruler_;
  Matcher matcher_;
};

}  // namespace

std::vector<ReportJoin> report_joins(const OpenProject& open, Told told) {
  Ends ends(open, told);
  std::vector<ReportJoin> joins;
  for (const JoinState& join : open.state.joins) joins.push_back(ends.of(join));
  return joins;
}

}  // namespace ballchange
