#include "picture/strands.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

#include "base/normal.hpp"
#include "picture/inward.hpp"

namespace ballchange {
namespace {

constexpr std::size_t kMostRuns = 300;  // more than a picture has columns for

// A stretch of one colour, counted from the loose end inward.
struct Run {
  ColourId colour = 0;
  Length length;
  Evidence evidence = Evidence::seen;
  Length doubt = {};  // of where it ends
};

Length give_or_take(double standard_deviation) { return Length::cm(kNineInTen * standard_deviation); }

double tape_error(const Tape& tape, Length length) { return tape.fixed.cm() + tape.share * length.cm(); }  // cm

// How well the ends of runs are known, counted from the loose end: each written length has the tape's error, what was
// not measured the sections' plus-minus and the ball's.
class Doubt {
 public:
  explicit Doubt(const Blur& blur) : blur_(blur) {}
  void measured(const Entry& entry) {
    const double error = tape_error(blur_.tape, entry.length.value_or(Length()));
    variance_ += error * error + entry.rounding_variance;
  }
  void foretold(const Section& section) { variance_ += section.plus_minus.cm() * section.plus_minus.cm(); }
  void beyond(Length length) { unmeasured_ += length; }
  [[nodiscard]] Length now() const {
    return give_or_take(std::hypot(std::sqrt(variance_), blur_.ball_plus_minus * unmeasured_.cm()));
  }

 private:
  const Blur& blur_;
  double variance_ = 0;  // cm^2
  Length unmeasured_;
};

Length whole(const Inward& inward, const Explained& why) {
  Length sum;
  for (const std::size_t k : why.sections) sum += inward.section(k).length;
  return sum;
}

// As far as was read, then as the repeat has it, at least `reach` long where the repeat is known; no more than
// kMostRuns.
std::vector<Run> runs_inward(const Strand& strand, const Repeat* repeat, Length reach, const Blur& blur) {
  std::vector<Run> runs;
  Doubt doubt(blur);
  std::optional<Inward> inward;
  if (repeat != nullptr && !strand.placing.candidates.empty()) inward.emplace(*repeat, strand);
  const std::vector<Entry>& entries = strand.reading.entries;
  Length sum;
  for (std::size_t i = 0; i < entries.size(); ++i) {
    const Explained* why = inward ? explained(strand.placing, i) : nullptr;
    const Length read = entries[i].length.value_or(Length());
    if (read > Length()) {
      doubt.measured(entries[i]);
      runs.push_back({entries[i].colour, read, Evidence::seen, doubt.now()});
    }
    const bool open = i + 1 == entries.size() && !strand.reading.bar_at_open_end && !strand.cut_short;
    const Length rest = why != nullptr && (open || !entries[i].length) ? whole(*inward, *why) - read : Length();
    if (rest > Length()) {
      for (const std::size_t k : why->sections) doubt.foretold(inward->section(k));
      doubt.beyond(rest);
      runs.push_back({entries[i].colour, rest, Evidence::foretold, doubt.now()});
    }
    sum += read + std::max(rest, Length());
    if (!entries[i].length && why == nullptr) return runs;
  }
  const Explained* last = inward ? explained(strand.placing, entries.size() - 1) : nullptr;
  if (last == nullptr || strand.cut_short) return runs;
  for (std::size_t k = inward->sections(*last).back(); sum < reach && runs.size() < kMostRuns;) {
    k = inward->next(k);
    const Section& section = inward->section(k);
    doubt.foretold(section);
    doubt.beyond(section.length);
    runs.push_back({section.colour, section.length, Evidence::foretold, doubt.now()});
    sum += section.length;
  }
  return runs;
}

// Lays the runs on the axis from the loose end: leftward for the old strand, rightward for the new one.
std::vector<StrandPart> laid(const std::vector<Run>& runs, Length loose_end, End end) {
  std::vector<StrandPart> pieces;
  Length at = loose_end;
  Length doubt;  // of `at`
  for (const Run& run : runs) {
    if (end == End::new_end) {
      const bool starts = pieces.empty() ? false : pieces.back().colour != run.colour;
      pieces.push_back({at, at + run.length, run.colour, run.evidence, starts, starts ? doubt : Length()});
      at += run.length;
    } else {
      if (!pieces.empty() && pieces.back().colour != run.colour) {
        pieces.back().starts_here = true;
        pieces.back().doubt = doubt;
      }
      pieces.push_back({at - run.length, at, run.colour, run.evidence, false});
      at -= run.length;
    }
    doubt = run.doubt;
  }
  if (end == End::old_end) std::reverse(pieces.begin(), pieces.end());
  return pieces;
}

// How far from the loose end the change lies that the cut is measured from.
Length mark_reach(const Mark& mark, Length trim) {
  return mark.from == MarkFrom::loose_end ? trim : trim + mark.distance;
}

// Nothing where nothing comes off: then there is nothing to mark.
Length cut_doubt(const Mark& mark, Length trim, const Tape& tape) {
  if (trim <= Length()) return {};
  return give_or_take(tape_error(tape, mark.from == MarkFrom::loose_end ? trim : mark.distance));
}

// The stretch that the dry fit measures, where both marks are told from the changes it is told by.
std::optional<FitSpan> dry_fit_span(const StrandsScene& scene, const Join& join) {
  if (!join.dry_fit || join.old_mark.from != MarkFrom::start || join.new_mark.from != MarkFrom::end)
    return std::nullopt;
  const FitSpan span{scene.old_strand.cut - join.old_mark.distance, scene.new_strand.cut + join.new_mark.distance};
  constexpr Length kHair = Length::cm(1e-6);
  return abs(span.to - span.from - join.dry_fit->length) < kHair ? std::optional(span) : std::nullopt;
}

// Between what was read on the new end and the section that it is cut in, as far as nothing was read on the old strand
// there; nothing where that is hardly anything.
std::optional<LeftOut> unseen_stretch(const StrandsScene& scene, Length shown_before_cut) {
  const auto seen = [](const StrandPart& piece) { return piece.evidence == Evidence::seen; };
  const std::vector<StrandPart>& old_pieces = scene.old_strand.pieces;
  const std::vector<StrandPart>& new_pieces = scene.new_strand.pieces;
  // Colours between measured ones were read as well, their length alone was not.
  const auto old_first = std::find_if(old_pieces.begin(), old_pieces.end(), seen);
  const auto new_last = std::find_if(new_pieces.rbegin(), new_pieces.rend(), seen);
  Length old_begins = old_first == old_pieces.end() ? scene.old_strand.loose_end : old_first->from;
  if (scene.old_strand.hook) old_begins = std::min(old_begins, *scene.old_strand.hook);
  const LeftOut out{new_last == new_pieces.rend() ? scene.new_strand.loose_end : new_last->to,
                    std::min(scene.new_strand.cut - shown_before_cut, old_begins)};
  const Length rest = scene.right - scene.left - (out.to - out.from);
  if (out.to - out.from < rest * 0.25) return std::nullopt;
  return out;
}

void leave_out(const LeftOut& out, StrandPicture& strand) {
  constexpr Length kHair = Length::cm(1e-6);
  std::vector<StrandPart> kept;
  for (const StrandPart& piece : strand.pieces) {
    if (piece.from < out.from - kHair && strand.end == End::new_end) {
      kept.push_back(piece);
      kept.back().to = std::min(piece.to, out.from);
    }
    if (piece.to > out.to + kHair) {
      kept.push_back(piece);
      kept.back().from = std::max(piece.from, out.to);
      kept.back().starts_here = piece.starts_here && piece.from >= out.to;
    }
  }
  strand.pieces = std::move(kept);
}

bool beyond_reading(const Mark& mark, const Reading& reading) {
  return !mark.changes || *mark.changes >= reading.entries.size();
}

}  // namespace

// Long: one scene, whose parts lie by the same few lengths.
std::optional<StrandsScene> strands_scene(const std::vector<Colour>& colours, const Repeat* repeat,
                                          const Strand& old_strand, const Strand& new_strand, const Join& join,
                                          const Blur& blur) {
  if (!join.trim_old || !join.trim_new) return std::nullopt;
  if (beyond_reading(join.old_mark, old_strand.reading)) return std::nullopt;
  const Length trim_old = *join.trim_old;
  const Length trim_new = *join.trim_new;
  const Length old_reach = std::max(mark_reach(join.old_mark, trim_old), trim_old + join.allowance);
  const Length new_reach = std::max(mark_reach(join.new_mark, trim_new), trim_new + join.allowance);
  const Length old_end;  // the axis starts at the old loose end
  const Length new_end = old_end - trim_old - join.allowance - trim_new;
  const Length left = std::min(old_end - old_reach, new_end);
  const Length right = std::max(old_end, new_end + new_reach);
  const Length margin = std::max((right - left) * 0.12, join.allowance);

  StrandsScene scene;
  scene.colours = colours;
  scene.left = left - margin;
  scene.right = right + margin;
  const auto old_runs = runs_inward(old_strand, repeat, old_end - scene.left, blur);
  const auto new_runs = runs_inward(new_strand, repeat, scene.right - new_end, blur);
  if (std::max(old_runs.size(), new_runs.size()) >= kMostRuns) return std::nullopt;
  scene.old_strand = {End::old_end, laid(old_runs, old_end, End::old_end),        old_end, old_end - trim_old,
                      std::nullopt, cut_doubt(join.old_mark, trim_old, blur.tape)};
  if (old_strand.reading.loose) scene.old_strand.hook = old_end - *old_strand.reading.loose;
  scene.new_strand = {End::new_end, laid(new_runs, new_end, End::new_end),        new_end, new_end + trim_new,
                      std::nullopt, cut_doubt(join.new_mark, trim_new, blur.tape)};
  scene.old_strand.ends = old_strand.cut_short;
  scene.new_strand.ends = new_strand.cut_short;
  scene.overlap_from = scene.new_strand.cut;
  scene.overlap_to = scene.old_strand.cut;
  if (join.leave_knot) scene.knot = old_end;
  scene.fit = dry_fit_span(scene, join);
  if (beyond_reading(join.new_mark, new_strand.reading)) {
    const Length near = std::max(old_reach - trim_old, join.allowance * 3);
    scene.left_out = unseen_stretch(scene, near);
  }
  if (scene.left_out) {
    scene.left = new_end - join.allowance;
    scene.right = right + std::max((old_end - scene.left_out->to) * 0.12, join.allowance);
    leave_out(*scene.left_out, scene.old_strand);
    leave_out(*scene.left_out, scene.new_strand);
  }
  return scene;
}

}  // namespace ballchange
