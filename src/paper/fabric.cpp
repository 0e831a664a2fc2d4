#include "paper/fabric.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <map>
#include <optional>
#include <utility>

#include "paper/fabric_letters.hpp"
#include "paper/lettering.hpp"
#include "show/text.hpp"

namespace ballchange {
namespace {

constexpr double kLeft = 24, kRight = 24, kAbove = 3;  // mm: margins for rows and balls, for joins
constexpr double kThin = 0.6;                          // mm
constexpr double kLeastShare = 0.4;                    // of the paper, that the piece gets whatever stands below it
constexpr std::size_t kMostShapes = 20'000;
constexpr double kLabel = 3.8, kFarthest = 8;  // mm: of a join beside the piece; from its row
constexpr double kTrueSize = 10;               // mm on paper for a cm of fabric

std::string fixed(double number) { return fmt::format("{:.2f}", number); }

class FabricPaper {
 public:
  FabricPaper(Drawing& drawing, const FabricOnPaper& piece, double x, double y, Sheet most)
      : drawing_(drawing),
        piece_(piece),
        scene_(piece.scene),
        inks_(inks(scene_.colours)),
        heading_(broken(piece.heading, most.width)),
        x_(x + kLeft),
        y_(y + above()) {
    // The scale, and what the signs mean, which may take two lines.
    const double below = legend_size(scene_.colours, most.width).height + 4 * kLine;
    const double wide = (most.width - kLeft - kRight) / scene_.width().cm();
    const double tall = std::max(most.height - above() - below, kLeastShare * most.height) / scene_.height().cm();
    scale_ = std::min({wide, tall, kTrueSize});
  }

  Sheet draw(Sheet most) {
    const Sheet cell{scene_.stitch_width.cm() * scale_, scene_.row_height.cm() * scale_};
    define_fills(drawing_, inks_, cell, piece_.key);
    for (std::size_t i = 0; i < heading_.size(); ++i) {
      drawing_.text(x_ - kLeft, y_ - above() + double(i + 1) * kLine - 1, heading_[i], "font-weight=\"bold\"");
    }
    drawing_.open(fmt::format("transform=\"translate({} {})\"", mm(x_), mm(y_)));
    patches();
    soften();
    veil();
    draw_fabric_letters(drawing_, scene_, inks_, scale_);
    drawing_.rect(0, 0, width(), height(), "fill=\"none\" stroke=\"currentColor\" stroke-width=\".25\"");
    rows();
    balls();
    joins();
    drawing_.close();
    return below(most);
  }

 private:
  [[nodiscard]] double above() const { return kAbove + double(heading_.size()) * kLine; }
  [[nodiscard]] double width() const { return scene_.width().cm() * scale_; }
  [[nodiscard]] double height() const { return scene_.height().cm() * scale_; }

  [[nodiscard]] PaperBox paper(const FabricBox& box) const { return on_paper(scene_, box, scale_); }
  // Of the point where so many stitches of a row are done, at the row's middle.
  [[nodiscard]] std::pair<double, double> point(const OnRow& place) const {
    const PaperBox box = paper({place.row, place.done, place.done});
    return {box.left, (box.top + box.bottom) / 2};
  }

  // Rows too thin to be told apart blend into each other, as they do in the eye.
  [[nodiscard]] std::string_view edges() const {
    return scene_.row_height.cm() * scale_ < kThin ? "stroke=\"none\"" : "shape-rendering=\"crispEdges\"";
  }

  // Too many to be shapes of their own, and too small to be soft.
  [[nodiscard]] bool fine() const { return scene_.patches.size() > kMostShapes; }

  void patches() {
    drawing_.open(edges());
    std::vector<std::string> of_colour(scene_.colours.size());
    for (const FabricPatch& patch : scene_.patches) {
      std::string d = fine() ? std::move(of_colour[patch.colour]) : std::string();
      for (const FabricBox& part : patch.boxes) {
        const PaperBox box = paper(part);
        const std::string wide = fixed(box.right - box.left);
        d += fmt::format("M{} {}h{}v{}h-{}z", fixed(box.left), fixed(box.top), wide, fixed(box.bottom - box.top), wide);
      }
      if (fine()) {
        of_colour[patch.colour] = std::move(d);
      } else {
        filled(d, patch.colour);
      }
    }
    for (ColourId colour = 0; colour < of_colour.size(); ++colour) {
      if (!of_colour[colour].empty()) filled(of_colour[colour], colour);
    }
    drawing_.close();
  }
  void filled(const std::string& d, ColourId colour) {
    drawing_.path(d, fmt::format("fill=\"{}\"", drawing_.url(fill_name(colour, piece_.key))));
  }

  // Yarn changes colour over a few centimetres, not between two stitches.
  void soften() {
    if (fine()) return;
    std::map<std::string, bool> defined;
    const double stitches = piece_.soft / scene_.stitch_width;
    drawing_.open(edges());
    for (std::size_t i = 1; i < scene_.patches.size(); ++i) {
      const FabricPatch& before = scene_.patches[i - 1];
      const FabricPatch& after = scene_.patches[i];
      const FabricBox& end = before.boxes.back();
      const FabricBox& begin = after.boxes.front();
      if (end.row != begin.row) continue;
      const double half = std::min({stitches / 2, (end.to - end.from) / 2, (begin.to - begin.from) / 2});
      const PaperBox box = paper({end.row, end.to - half, begin.from + half});
      if (box.right - box.left < 0.05) continue;
      const bool leftward = runs_leftward(scene_, end.row);
      const std::string name = fmt::format("{}soft-{}-{}", piece_.key, leftward ? after.colour : before.colour,
                                           leftward ? before.colour : after.colour);
      if (!defined[name])
        gradient(name, leftward ? after.colour : before.colour, leftward ? before.colour : after.colour);
      defined[name] = true;
      drawing_.rect(box.left, box.top, box.right - box.left, box.bottom - box.top,
                    fmt::format("fill=\"{}\"", drawing_.url(name)));
    }
    drawing_.close();
  }

  void gradient(const std::string& name, ColourId left, ColourId right) {
    drawing_.define(
        fmt::format("<linearGradient id=\"{}\"><stop stop-color=\"{}\"/><stop offset=\"1\" "
                    "stop-color=\"{}\"/></linearGradient>\n",
                    drawing_.id(name), hex(inks_[left].shade), hex(inks_[right].shade)));
  }

  // Over what isn't worked yet.
  void veil() {
    if (!scene_.done) return;
    const OnRow& done = *scene_.done;
    std::string d;
    const PaperBox rest = paper({done.row, done.done, double(scene_.stitches)});
    if (done.row < scene_.rows) d = fmt::format("M0 0H{}V{}H0z", fixed(width()), fixed(rest.top));
    if (rest.right > rest.left) {
      d += fmt::format("M{} {}H{}V{}H{}z", fixed(rest.left), fixed(rest.top), fixed(rest.right), fixed(rest.bottom),
                       fixed(rest.left));
    }
    if (d.empty()) return;
    drawing_.path(d, "fill=\"#fff\" fill-opacity=\".6\"");
    const auto [x, y] = point(done);
    static_cast<void>(y);
    const bool leftward = runs_leftward(scene_, done.row);
    // The edge of what is done: along the row below, up at the hook, along this row.
    const double far = leftward ? 0 : width(), near = leftward ? width() : 0;
    drawing_.path(
        fmt::format("M{} {}H{}V{}H{}", fixed(far), fixed(rest.bottom), fixed(x), fixed(rest.top), fixed(near)),
        "fill=\"none\" stroke=\"currentColor\" stroke-width=\".5\" stroke-dasharray=\"1.5 1\"");
  }

  void rows() {
    static constexpr std::array<int, 10> kSteps{1, 2, 5, 10, 20, 50, 100, 200, 500, 1000};
    int step = kSteps.back();
    for (const int s : kSteps) {
      if (s * scene_.row_height.cm() * scale_ < 1.6 * kLetters) continue;
      step = s;
      break;
    }
    for (int row = step; row <= scene_.rows; row += step) {
      const double y = point({row, 0}).second;
      drawing_.line(-1, y, 0, y, "stroke=\"currentColor\" stroke-width=\".25\"");
      drawing_.text(-1.6, y + 0.36 * kLetters, std::to_string(row), "text-anchor=\"end\"");
    }
  }

  // Beside their rows: a bar from where each begins to where the next does.
  void balls() {
    double free = height() + kLetters;  // words below this are written already
    for (std::size_t i = 0; i < scene_.balls.size(); ++i) {
      const BallMark& ball = scene_.balls[i];
      if (ball.label.empty()) continue;
      const double bottom = i == 0 ? height() : point(ball.from).second;
      const double top = i + 1 < scene_.balls.size() ? point(scene_.balls[i + 1].from).second : 0;
      const double x = -9.5;
      drawing_.path(fmt::format("M{0} {1}H{2}V{3}H{0}", fixed(x + 1), fixed(bottom - 0.2), fixed(x), fixed(top + 0.2)),
                    "fill=\"none\" stroke=\"currentColor\" stroke-width=\".3\"");
      const double middle = (top + bottom) / 2 + 0.36 * kLetters;
      if (middle > free - kLetters) continue;
      free = middle;
      drawing_.text(x - 1, middle, cut_short(ball.label, kLeft - 11), "text-anchor=\"end\"");
    }
  }

  // Where it is too long the name is cut, not what the join is out of step.
  static std::string label_within(const JoinMark& join, double room) {
    const std::string shift = join.shift.empty() ? join.shift : " " + join.shift;
    return join.name.empty() ? join.shift : cut_short(join.name, room - written_width(shift)) + shift;
  }

  void joins() {
    double free = height() + 2 * kLetters;
    for (const JoinMark& join : scene_.joins) {
      const auto [x, y] = point(join.at);
      const char* const sign =
          join.knot_left ? "m-1 0a1 1 0 0 0 2 0a1 1 0 0 0-2 0z" : "m-1.2 0l1.2-1.2 1.2 1.2-1.2 1.2z";
      drawing_.path(fmt::format("M{} {}{}", fixed(x), fixed(y), sign),
                    "fill=\"#fff\" stroke=\"#000\" stroke-width=\".4\"");
      // Those near each other stand above each other, each with a line to its row; further off they would mislead.
      const double at = std::min(y, free - kLabel);
      if (y - at > kFarthest) continue;
      free = at;
      drawing_.line(width(), y, width() + 1, at, "stroke=\"currentColor\" stroke-width=\".25\"");
      drawing_.text(width() + 1.6, at + 0.36 * kLetters, label_within(join, kRight - 2), "");
    }
  }

  // The scale, the colours by name, what the signs mean.
  Sheet below(Sheet most) {
    const double left = x_ - kLeft;
    double y = y_ + height() + kLine;
    double widest = std::min(most.width, kLeft + width() + kRight);
    const double bar = scale(y);
    y += 1.2;
    widest = std::max(widest, kLeft + bar);
    const Sheet legend = colour_legend(drawing_, scene_.colours, inks_, left, y, most.width, piece_.key);
    y += legend.height;
    widest = std::max(widest, legend.width);
    for (const std::string& line : broken(signs(), most.width)) {
      y += kLine;
      drawing_.text(left, y, line, "");
      widest = std::max(widest, written_width(line));
    }
    return {widest, y + 1 - (y_ - above())};
  }

  [[nodiscard]] std::string signs() const {
    std::string said;
    const auto say = [&](std::string_view words) { said += fmt::format("{}{}", said.empty() ? "" : "; ", words); };
    const auto is_knot = [](const JoinMark& join) { return join.knot_left; };
    const auto is_out = [](const JoinMark& join) { return !join.shift.empty(); };
    const auto& joins = scene_.joins;
    if (!std::all_of(joins.begin(), joins.end(), is_knot))
      say("\u25C7 a join, at its right the ball that it brings in");
    if (std::any_of(joins.begin(), joins.end(), is_knot)) say("\u25CB a knot that was left");
    if (std::any_of(joins.begin(), joins.end(), is_out)) say("+: skipped, -: repeated, so far it is out of step");
    if (!scene_.all_done()) say("pale: not worked yet");
    if (scene_.foundation) say("the low strip: the foundation");
    if (scene_.left_handed) say(fmt::format("left-handed: {} 1 from left to right", row_word(scene_.working)));
    return said;
  }

  // How wide it is.
  double scale(double y) {
    if (piece_.sized) {
      const Told told = piece_.told == Told::inches ? Told::inches : Told::centimetres;  // of fabric, never stitches
      return scale_bar(drawing_, x_, y - 0.8, scale_, told, std::max(30.0, width() / 3));
    }
    const std::string words = fabric_size(scene_);
    drawing_.text(x_, y + 0.6, words, "");
    return written_width(words);
  }

  Drawing& drawing_;
  const FabricOnPaper& piece_;
  const FabricScene& scene_;
  std::vector<Ink> inks_;
  std::vector<std::string> heading_;  // lines
  double x_, y_;                      // of the piece's upper left corner
  double scale_ = 1;
};

}  // namespace

std::string fabric_size(const FabricScene& scene) {
  return fmt::format("{}, {} {}{}", stitches(scene.stitches), scene.rows, row_word(scene.working),
                     scene.rows == 1 ? "" : "s");
}

Sheet draw_fabric(Drawing& drawing, const FabricOnPaper& piece, double x, double y, Sheet most) {
  return FabricPaper(drawing, piece, x, y, most).draw(most);
}

}  // namespace ballchange
