#include "paper/strands.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <functional>

#include "base/text.hpp"
#include "paper/lettering.hpp"
#include "paper/notes.hpp"
#include "paper/strands_axis.hpp"
#include "paper/strands_between.hpp"

namespace ballchange {
namespace {

constexpr double kBand = 9;     // how tall a strand is drawn
constexpr double kGap = 13;     // between the two
constexpr double kPole = 2;     // least, from a strand to words about a point of it
constexpr double kCell = 2.4;   // of the marks that tell colours apart
constexpr double kPale = 0.55;  // share of white over what was not measured
constexpr double kSoftest = 0.1;
constexpr Shade kWhite{255, 255, 255};

class StrandsPaper {
 public:
  StrandsPaper(Drawing& drawing, const StrandsScene& scene, const StrandsOnPaper& words, Sheet most)
      : drawing_(drawing),
        scene_(scene),
        words_(words),
        inks_(inks(scene.colours)),
        width_(most.width),
        axis_(scene, most.width) {
    old_side_ = side_of(scene.old_strand);
    new_side_ = side_of(scene.new_strand);
    old_top_ = kLine + 1 + old_side_.tall();
    new_top_ = old_top_ + kBand + kGap;
  }

  Sheet draw(double x, double y) {
    define_fills(drawing_, inks_, {kCell, kCell});
    define_hatching();
    drawing_.open(fmt::format("transform=\"translate({} {})\"", mm(x), mm(y)));
    draw_overlap(drawing_, between(), words_);
    strand(scene_.old_strand, old_top_);
    strand(scene_.new_strand, new_top_);
    if (scene_.left_out) left_out();
    draw_dry_fit(drawing_, between(), words_);
    const double new_foot = new_top_ + kBand;
    beside(scene_.old_strand, old_side_, old_top_, -1);
    beside(scene_.new_strand, new_side_, new_foot, 1);
    drawing_.text(0, kLetters, cut_short(words_.old_name, width_), "font-weight=\"bold\"");
    double foot = new_foot + new_side_.tall() + kLine;
    drawing_.text(0, foot, cut_short(words_.new_name, width_), "font-weight=\"bold\"");
    foot = below(foot + kLine);
    drawing_.close();
    return {width_, foot};
  }

 private:
  [[nodiscard]] bool is_old(const StrandPicture& strand) const { return strand.end == End::old_end; }
  [[nodiscard]] bool is_cut(const StrandPicture& strand) const { return !mark_words(strand).empty(); }
  [[nodiscard]] const std::string& mark_words(const StrandPicture& strand) const {
    return is_old(strand) ? words_.old_mark : words_.new_mark;
  }
  [[nodiscard]] const std::string& trim_words(const StrandPicture& strand) const {
    return is_old(strand) ? words_.old_trim : words_.new_trim;
  }
  [[nodiscard]] PaperSpan trim(const StrandPicture& strand) const {
    const double cut = axis_.at(strand.cut), end = axis_.at(strand.loose_end);
    return {std::min(cut, end), std::max(cut, end)};
  }
  // Not where nothing is drawn.
  [[nodiscard]] std::vector<PaperSpan> trim_parts(const StrandPicture& strand) const {
    const PaperSpan all = trim(strand);
    if (!scene_.left_out || all.from >= axis_.break_at() + StrandsAxis::kBreak) return {all};
    return {{all.from, axis_.break_at()}, {axis_.break_at() + StrandsAxis::kBreak, all.to}};
  }
  // Where its length can be written along what comes off: not across the hook's line.
  [[nodiscard]] PaperSpan trim_room(const StrandPicture& strand) const {
    const PaperSpan off = trim(strand);
    if (!strand.hook) return off;
    const double hook = std::clamp(axis_.at(*strand.hook), off.from, off.to);
    return hook - off.from > off.to - hook ? PaperSpan{off.from, hook} : PaperSpan{hook, off.to};
  }
  // What comes off is measured out beside its strand where its length can be written there.
  [[nodiscard]] bool trim_fits(const StrandPicture& strand) const {
    return is_cut(strand) && written_width(trim_words(strand)) + 8 <= trim_room(strand).wide();
  }
  // What is told beside a strand: names that have no room in it, next the length that comes off, then the points.
  struct Side {
    std::vector<PlacedNote> names, points;
    bool trim = false;
    [[nodiscard]] double to_trim() const { return names.empty() ? 0 : kPole + kLine * double(rows_of(names)); }
    [[nodiscard]] double to_points() const { return std::max(to_trim() + (trim ? kLine + 1 : 0), kPole); }
    [[nodiscard]] double tall() const { return to_points() + kLine * double(rows_of(points)); }
  };
  [[nodiscard]] Side side_of(const StrandPicture& strand) const {
    const std::vector<PointNote> points = points_of(strand);
    std::vector<double> poles;
    for (const PointNote& point : points) poles.push_back(point.at);
    const bool trim = trim_fits(strand);
    if (trim) poles.push_back(axis_.at(strand.loose_end));
    return {placed_notes(names_beside(strand), width_, poles), placed_notes(points, width_), trim};
  }

  [[nodiscard]] bool shows(const StrandPart& piece) const {
    return piece.to > scene_.left && piece.from < scene_.right;
  }
  [[nodiscard]] bool shows_begin(const StrandPart& piece) const { return piece.from > scene_.left; }
  [[nodiscard]] Shade ground(const StrandPart& piece) const {
    const Shade shade = inks_[piece.colour].shade;
    return piece.evidence == Evidence::seen ? shade : blended(shade, kWhite, kPale);
  }

  // The stretches of one colour, from a change to the next.
  void each_run(const StrandPicture& strand,
                const std::function<void(const std::vector<const StrandPart*>&)>& take) const {
    std::vector<const StrandPart*> run;
    for (const StrandPart& piece : strand.pieces) {
      if (!shows(piece)) continue;
      const bool beyond_break = scene_.left_out && piece.from >= scene_.left_out->to && !run.empty() &&
                                run.back()->to <= scene_.left_out->from;
      if (!run.empty() && (piece.starts_here || beyond_break)) {
        take(run);
        run.clear();
      }
      run.push_back(&piece);
    }
    if (!run.empty()) take(run);
  }

  // Where a run has most room for its name: not across a cut, the overlap's edge or the end of what was measured.
  struct Room {
    PaperSpan on;
    const StrandPart* piece = nullptr;
  };
  [[nodiscard]] Room roomiest(const StrandPicture& strand, const std::vector<const StrandPart*>& run) const {
    Room best;
    for (const StrandPart* piece : run) {
      std::vector<double> edges{axis_.at(piece->from), axis_.at(piece->to)};
      for (const Length x : {strand.cut, scene_.overlap_from, scene_.overlap_to}) {
        if (x > piece->from && x < piece->to) edges.push_back(axis_.at(x));
      }
      std::sort(edges.begin(), edges.end());
      for (std::size_t i = 1; i < edges.size(); ++i) {
        const PaperSpan on{edges[i - 1], edges[i]};
        if (best.piece == nullptr || on.wide() > best.on.wide()) best = {on, piece};
      }
    }
    return best;
  }
  [[nodiscard]] std::string name(ColourId colour) const { return printable(scene_.colours[colour].name, 24); }

  [[nodiscard]] std::vector<PointNote> points_of(const StrandPicture& strand) const {
    std::vector<PointNote> points;
    if (is_cut(strand)) points.push_back({axis_.at(strand.cut), mark_words(strand), true});
    if (is_cut(strand) && !trim_fits(strand)) points.push_back({trim(strand).middle(), trim_words(strand)});
    if (strand.hook && *strand.hook >= scene_.left) points.push_back({axis_.at(*strand.hook), "hook", true});
    if (is_old(strand) && scene_.knot) points.push_back({axis_.at(*scene_.knot), "knot", true});
    return points;
  }
  [[nodiscard]] std::vector<PointNote> names_beside(const StrandPicture& strand) const {
    std::vector<PointNote> names;
    each_run(strand, [&](const std::vector<const StrandPart*>& run) {
      const Room room = roomiest(strand, run);
      const bool cut_at_edge = run.front()->from < scene_.left || run.back()->to > scene_.right;
      if (room.on.wide() >= kLetters + 1 || cut_at_edge) return;
      names.push_back({room.on.middle(), name(room.piece->colour)});
    });
    return names;
  }

  void define_hatching() {
    drawing_.define(fmt::format(
        "<pattern id=\"{}\" patternUnits=\"userSpaceOnUse\" width=\"2\" height=\"2\" "
        "patternTransform=\"rotate(45)\"><rect width=\"2\" height=\"2\" fill=\"#fff\" fill-opacity=\".35\"/>"
        "<rect width=\".5\" height=\"2\" fill=\"#000\"/><rect x=\".5\" width=\".5\" height=\"2\" fill=\"#fff\"/>"
        "</pattern>\n",
        drawing_.id("cut-off")));
  }

  void gradient(const std::string& name, std::string_view left, std::string_view right, std::string_view middle = {}) {
    const std::string between = middle.empty() ? std::string() : fmt::format("<stop offset=\".5\" {}/>", middle);
    drawing_.define(fmt::format("<linearGradient id=\"{}\"><stop {}/>{}<stop offset=\"1\" {}/></linearGradient>\n",
                                drawing_.id(name), left, between, right));
  }

  void strand(const StrandPicture& strand, double top) {
    drawing_.open("stroke=\"none\"");
    for (const StrandPart& piece : strand.pieces) {
      if (!shows(piece)) continue;
      const double from = axis_.at(piece.from), to = axis_.at(piece.to);
      drawing_.rect(from, top, to - from, kBand, fmt::format("fill=\"{}\"", drawing_.url(fill_name(piece.colour))));
    }
    soft_edges(strand, top);
    for (const StrandPart& piece : strand.pieces) {
      if (!shows(piece) || piece.evidence == Evidence::seen) continue;
      const double from = axis_.at(piece.from), to = axis_.at(piece.to);
      drawing_.rect(from, top, to - from, kBand, fmt::format("fill=\"#fff\" fill-opacity=\"{}\"", kPale));
    }
    if (is_cut(strand)) {
      for (const PaperSpan& off : trim_parts(strand)) {
        drawing_.rect(off.from, top, off.wide(), kBand, fmt::format("fill=\"{}\"", drawing_.url("cut-off")));
      }
    }
    drawing_.close();
    outline(strand, top);
    names(strand, top);
    if (is_cut(strand)) cut(strand, top);
  }

  // As far as a change may lie off, one colour gives way to the other.
  void soft_edges(const StrandPicture& strand, double top) {
    for (std::size_t i = 1; i < strand.pieces.size(); ++i) {
      const StrandPart& before = strand.pieces[i - 1];
      const StrandPart& after = strand.pieces[i];
      if (!after.starts_here || after.from <= scene_.left || after.from >= scene_.right) continue;
      const double at = axis_.at(after.from);
      const double doubt = after.doubt.cm() * axis_.per_cm();
      // Up to the middle of a section that has another change at its far end.
      const double room_before = (at - axis_.at(before.from)) / (before.starts_here && shows_begin(before) ? 2 : 1);
      const bool last = i + 1 == strand.pieces.size() || !strand.pieces[i + 1].starts_here || after.to >= scene_.right;
      const double room_after = (axis_.at(after.to) - at) / (last ? 1 : 2);
      const double half = std::min({doubt, room_before, room_after});
      narrowed_ = narrowed_ || half < 0.95 * doubt;
      if (half < kSoftest) continue;
      const std::string key = fmt::format("soft-{}-{}", is_old(strand) ? "old" : "new", i);
      gradient(key, fmt::format("stop-color=\"{}\"", hex(inks_[before.colour].shade)),
               fmt::format("stop-color=\"{}\"", hex(inks_[after.colour].shade)));
      drawing_.rect(at - half, top, 2 * half, kBand, fmt::format("fill=\"{}\"", drawing_.url(key)));
      soft_ = true;
    }
  }

  // Solid along what was measured, dashed along the rest; open where the yarn goes on, closed where an offcut ends.
  void outline(const StrandPicture& strand, double top) {
    for (const StrandPart& piece : strand.pieces) {
      if (!shows(piece)) continue;
      const double from = axis_.at(piece.from), to = axis_.at(piece.to);
      const bool seen = piece.evidence == Evidence::seen;
      foretold_ = foretold_ || !seen;
      drawing_.path(fmt::format("M{0} {1}H{2}M{0} {3}H{2}", mm(from), mm(top), mm(to), mm(top + kBand)),
                    fmt::format("fill=\"none\" stroke=\"currentColor\" stroke-width=\".3\"{}",
                                seen ? "" : " stroke-dasharray=\"1.2 .8\""));
      if (piece.starts_here && piece.from > scene_.left) {
        drawing_.path(fmt::format("M{0} {1}v1.4M{0} {2}v-1.4", mm(from), mm(top), mm(top + kBand)),
                      "stroke=\"currentColor\" stroke-width=\".3\"");
      }
    }
    const double end = axis_.at(strand.loose_end);
    drawing_.line(end, top, end, top + kBand, "stroke=\"currentColor\" stroke-width=\".3\"");
    const Length far_end = is_old(strand) ? strand.pieces.front().from : strand.pieces.back().to;
    if (strand.ends && far_end >= scene_.left && far_end <= scene_.right) {
      const double far = axis_.at(far_end);
      drawing_.line(far, top, far, top + kBand, "stroke=\"currentColor\" stroke-width=\".3\"");
      return;
    }
    // It goes on: away from the loose end.
    const double in = is_old(strand) ? 1.5 : -1.5;
    const double edge =
        is_old(strand) ? axis_.at(strand.pieces.front().from) - 4 : axis_.at(strand.pieces.back().to) + 4;
    drawing_.path(fmt::format("M{} {}l{} {}l{} {}", mm(edge + in), mm(top + 2.5), mm(-in), mm(kBand / 2 - 2.5), mm(in),
                              mm(kBand / 2 - 2.5)),
                  "fill=\"none\" stroke=\"currentColor\" stroke-width=\".4\"");
  }

  // On a ground of its own, so that no mark runs through it.
  void written(double middle, double top, const std::string& words, Shade ground) {
    const double wide = written_width(words) + 0.8;
    drawing_.rect(middle - wide / 2, top + kBand / 2 - 2.1, wide, 4.2,
                  fmt::format("rx=\".8\" fill=\"{}\"", hex(ground)));
    drawing_.text(middle, top + kBand / 2 + kSink * kLetters, words,
                  fmt::format("fill=\"{}\" text-anchor=\"middle\"", letters_on(ground)));
  }

  void names(const StrandPicture& strand, double top) {
    each_run(strand, [&](const std::vector<const StrandPart*>& run) {
      const Room room = roomiest(strand, run);
      const std::string whole = name(room.piece->colour);
      const std::string& letter = inks_[room.piece->colour].letter;
      if (written_width(whole) + 2.4 <= room.on.wide()) {
        written(room.on.middle(), top, whole, ground(*room.piece));
      } else if (written_width(letter) + 1.6 <= room.on.wide()) {
        written(room.on.middle(), top, letter, ground(*room.piece));
      }
    });
  }

  void cut(const StrandPicture& strand, double top) {
    const double at = axis_.at(strand.cut), half = strand.cut_doubt.cm() * axis_.per_cm();
    if (half >= kSoftest) {
      const std::string key = is_old(strand) ? "cut-old" : "cut-new";
      static constexpr std::string_view kClear = "stop-color=\"#fff\" stop-opacity=\"0\"";
      gradient(key, kClear, kClear, "stop-color=\"#fff\" stop-opacity=\".9\"");
      drawing_.rect(at - half, top, 2 * half, kBand, fmt::format("fill=\"{}\"", drawing_.url(key)));
      soft_ = true;
    }
    drawing_.line(at, top - 1.2, at, top + kBand + 1.2, "stroke=\"#fff\" stroke-width=\"1.1\"");
    drawing_.line(at, top - 1.2, at, top + kBand + 1.2, "stroke=\"#000\" stroke-width=\".5\"");
  }

  [[nodiscard]] bool overlaps() const { return scene_.overlap_to > scene_.overlap_from; }
  [[nodiscard]] BetweenStrands between() const {
    BetweenStrands between{{}, {}, old_top_, old_top_ + kBand, new_top_, new_top_ + kBand, width_};
    if (overlaps()) between.overlap = PaperSpan{axis_.at(scene_.overlap_from), axis_.at(scene_.overlap_to)};
    if (scene_.fit) between.fit = PaperSpan{axis_.at(scene_.fit->from), axis_.at(scene_.fit->to)};
    return between;
  }

  void left_out() {
    const double from = axis_.break_at() + 1.5, to = from + StrandsAxis::kBreak - 3, y = new_top_ + kBand / 2;
    for (const double x : {from, to}) {
      drawing_.path(fmt::format("M{} {}l1-3l-2-3l1-3", mm(x), mm(new_top_ + kBand)),
                    "fill=\"none\" stroke=\"currentColor\" stroke-width=\".4\"");
    }
    const std::vector<std::string> lines = broken(words_.left_out, StrandsAxis::kBreak - 6);
    double at = y + kSink * kLetters - kLine / 2 * double(lines.empty() ? 0 : lines.size() - 1);
    for (const std::string& line : lines) {
      drawing_.text((from + to) / 2, at, line, "text-anchor=\"middle\"");
      at += kLine;
    }
  }

  // From the strand's edge up (-1) or down (1).
  void beside(const StrandPicture& strand, const Side& side, double edge, double away) {
    draw_notes(drawing_, side.names, edge, kPole, away);
    draw_notes(drawing_, side.points, edge, side.to_points(), away);
    if (!side.trim) return;
    const PaperSpan off = trim(strand);
    const double y = edge + away * (side.to_trim() + kLine / 2 + 0.4);
    const double end = axis_.at(strand.loose_end);
    drawing_.line(end, edge, end, y + away, "stroke=\"currentColor\" stroke-width=\".25\"");
    measured_line(drawing_, off, y, trim_words(strand), {trim_room(strand), off, width_});
  }
  // The scale, what the signs mean, the colours by name.
  double below(double y) {
    y += 1;
    scale_bar(drawing_, 0, y, axis_.per_cm(), words_.told, width_ / 4);
    for (const std::string& line : broken(words_.shift, width_)) {
      y += kLine + 0.6;
      drawing_.text(0, y + kSink * kLetters, line, "font-weight=\"bold\"");
    }
    double x = 0;
    y += kLine + 1;
    const auto sign = [&](std::string_view fill, std::string_view more, const std::string& words) {
      const double wide = 7 + written_width(words) + 4;
      if (x > 0 && x + wide > width_) {
        x = 0;
        y += kLine;
      }
      drawing_.rect(x, y - 2.6, 5.5, 3.2, fmt::format("fill=\"{}\" stroke=\"currentColor\" {}", fill, more));
      drawing_.text(x + 7, y, words, "");
      x += wide;
    };
    if (is_cut(scene_.old_strand) || is_cut(scene_.new_strand)) {
      sign(drawing_.url("cut-off"), "stroke-width=\".2\"", "cut off");
    }
    if (overlaps()) sign("none", "stroke-width=\".5\" stroke-dasharray=\"2 1\"", "both strands, joined");
    if (foretold_) {
      sign("none", "stroke-width=\".3\" stroke-dasharray=\"1.2 .8\"", "pale: not measured, as the repeat has it");
    }
    if (soft_) {
      gradient("soft", "stop-color=\"#777\"", "stop-color=\"#fff\"");
      sign(drawing_.url("soft"), "stroke-width=\".2\"",
           narrowed_ ? "soft edge: so far off it may be, or more where it has no room"
                     : "soft edge: so far off it may be");
    }
    y += 1.4;
    return y + colour_legend(drawing_, scene_.colours, inks_, 0, y, width_).height;
  }

  Drawing& drawing_;
  const StrandsScene& scene_;
  const StrandsOnPaper& words_;
  std::vector<Ink> inks_;
  double width_;
  StrandsAxis axis_;
  Side old_side_, new_side_;
  double old_top_ = 0, new_top_ = 0;
  bool soft_ = false, foretold_ = false;  // is drawn somewhere
  bool narrowed_ = false;                 // a soft edge, for want of room
};

}  // namespace

Sheet draw_strands(Drawing& drawing, const StrandsScene& scene, const StrandsOnPaper& words, double x, double y,
                   Sheet most) {
  return StrandsPaper(drawing, scene, words, most).draw(x, y);
}

}  // namespace ballchange
