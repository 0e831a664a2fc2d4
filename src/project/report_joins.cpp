#include "project/report_joins.hpp"

#include <fmt/format.h>

#include "base/problem.hpp"
#include "join/advice.hpp"
#include "match/place.hpp"
#include "show/place.hpp"

namespace ballchange {
namespace {

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
    told.ends = fmt::format("The old end lay {}, the new one {}.", where(*old_strand), where(*new_strand));
    return told;
  }

 private:
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
