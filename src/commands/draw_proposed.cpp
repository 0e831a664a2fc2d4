#include <fmt/core.h>

#include <algorithm>
#include <array>

#include "base/text.hpp"
#include "commands/ball_change.hpp"
#include "commands/drawn.hpp"
#include "commands/pictures.hpp"
#include "project/drawn_fabric.hpp"
#include "show/check_project.hpp"
#include "show/fabric_terminal.hpp"
#include "show/join_words.hpp"
#include "show/profile_notes.hpp"

namespace ballchange {
namespace {

constexpr std::array<OptionRow, 1> kRows{{
    {"take", "K", "check's K-th way to cut (1)"},
}};
constexpr OptionGroup kGroup{"Which way to cut", kRows};

constexpr double kBetween = 4;  // mm between two pieces on a sheet

// A piece as a join would leave it.
struct Outlook {
  DrawnFabric piece;
  ThoughtOf join;
};

std::optional<Length> shift_as_they_lie(const ProjectAdvice& advised, const Join& join) {
  if (join.leave_knot) return advised.advice.knot_shift;
  return shift_left(advised.yarn, advised.old_strand, advised.new_strand, {Length(), Length(), join.allowance});
}

// With nothing cut off the old end the join lies so much further on.
RowStitch lands_as_they_lie(const ProjectAdvice& advised, const Join& join) {
  const bool further = join.to_join && join.trim_old && advised.terms.fabric.yarn_per_stitch;
  return further ? landing(advised.terms.fabric, *advised.terms.hook, *join.to_join + *join.trim_old) : *join.lands;
}

class Proposal {
 public:
  Proposal(const ChangeInProject& change, const Context& context, const Common& common)
      : change_(change),
        context_(context),
        common_(common),
        join_(join_to_take(change.advised.advice, change.options)) {
    const ProjectAdvice& advised = change.advised;
    if (const auto& much = advised.on_record.too_much_left) {
      throw Problem(Fault::content, "where the join comes to lie isn't known. " +
                                        too_much_left_text(*much, advised.terms.measures.told));
    }
    if (!advised.terms.hook || !join_.lands) {
      throw Problem(Fault::content,
                    "where the join comes to lie isn't known: put hook into --old where it is, as \"rust 20, "
                    "moss 14, navy 30, hook\", and tell --row and --stitch where they are not on "
                    "record");
    }
    const Told told = advised.terms.measures.told;
    const std::string ball = advised.on_record.ball.empty() ? "new" : advised.on_record.ball;
    const auto as_is = shift_as_they_lie(advised, join_);
    if (as_is && !join_.leave_knot) {
      before_ = outlook({lands_as_they_lie(advised, join_), *as_is, ball, *advised.terms.hook},
                        fmt::format("Joined as the ends lie: {}", shift_words(*as_is, told)));
    }
    const std::string how = join_.leave_knot ? "The knot left" : "Cut as check says";
    after_ = outlook({*join_.lands, join_.shift, ball, *advised.terms.hook},
                     fmt::format("{}: {}", how, shift_words(join_.shift, told)));
  }

  [[nodiscard]] Drawn drawn() const {
    const std::string& name = change_.open.project.name;
    Drawn drawn{"fabric",
                ".svg",
                name.empty() ? "A join, before and after" : name + ", a join before and after",
                description(),
                {},
                {},
                {},
                {}};
    drawn.file = [this, title = drawn.title, words = drawn.description] {
      Drawing drawing("fabric", title, words);
      const Sheet sheet = draw(drawing);
      return drawing.file({sheet.width + 4, sheet.height + 4});
    };
    drawn.text = text();
    drawn.notes = notes_of(after_->piece);
    drawn.unshaded = unshaded_note(change_.advised.yarn.repeat.colours());
    drawn.members = [this](Json& json) { members(json); };
    return drawn;
  }

 private:
  [[nodiscard]] std::string ball_words() const {
    const std::string& ball = change_.advised.on_record.ball;
    return ball.empty() ? "the new ball" : "ball " + printable(ball, 40);
  }
  [[nodiscard]] Outlook outlook(const ThoughtOf& join, const std::string& heading) const {
    Outlook outlook{drawn_fabric(&change_.open, change_.options, context_, common_, join), join};
    outlook.piece.paper.heading = heading;
    return outlook;
  }
  [[nodiscard]] std::vector<const Outlook*> pieces() const {
    if (!before_) return {&*after_};
    return {&*before_, &*after_};
  }

  [[nodiscard]] std::string description() const {
    std::string words;
    for (const Outlook* outlook : pieces()) {
      const FabricOnPaper& paper = outlook->piece.paper;
      const auto& [row, stitch] = outlook->join.lands;
      words += fmt::format("{}{}, {} joined in {} {}, stitch {}.", words.empty() ? "" : " ", paper.heading,
                           ball_words(), row_word(paper.scene.working), row, stitch);
    }
    return words;
  }

  [[nodiscard]] std::string text() const {
    std::string lines;
    for (const Outlook* outlook : pieces()) {
      const FabricOnPaper& paper = outlook->piece.paper;
      lines += wrapped(paper.heading + ":", common_.screen.text_columns()) + fabric_text(paper.scene, common_.screen);
    }
    return lines;
  }

  // Wide pieces lie one above the other, tall ones side by side.
  Sheet draw(Drawing& drawing) const {
    std::vector<const Outlook*> all = pieces();
    const FabricScene& scene = after_->piece.paper.scene;
    const bool stacked = scene.width() > scene.height();
    Sheet most = kMostPaper, taken;
    if (all.size() > 1) (stacked ? most.height : most.width) = ((stacked ? most.height : most.width) - kBetween) / 2;
    for (std::size_t i = 0; i < all.size(); ++i) {
      FabricOnPaper paper = all[i]->piece.paper;
      paper.key = i == 0 && all.size() > 1 ? "before-" : "after-";
      const double x = stacked || i == 0 ? 0 : taken.width + kBetween;
      const double y = !stacked || i == 0 ? 0 : taken.height + kBetween;
      const Sheet one = draw_fabric(drawing, paper, 2 + x, 2 + y, most);
      taken = {std::max(taken.width, x + one.width), std::max(taken.height, y + one.height)};
    }
    return taken;
  }

  void members(Json& json) const {
    const FabricScene& scene = after_->piece.paper.scene;
    json.member("verdict", verdict_name(change_.advised.advice.verdict));
    json.member("stitches", scene.stitches).member("rows", scene.rows);
    const auto add = [&](std::string_view key, const std::optional<Outlook>& outlook) {
      if (!outlook) {
        json.member(key, std::optional<Length>());
        return;
      }
      json.key(key).object().member("row", outlook->join.lands.row).member("stitch", outlook->join.lands.stitch);
      json.member("shift", outlook->join.shift).member("shapes", outlook->piece.paper.scene.patches.size()).end();
    };
    add("before", before_);
    add("after", after_);
  }

  const ChangeInProject& change_;
  const Context& context_;
  const Common& common_;
  const Join& join_;
  std::optional<Outlook> before_, after_;
};

}  // namespace

const OptionGroup& way_options() { return kGroup; }

bool proposes_join(const Options& options) {
  static constexpr std::array<std::string_view, 6> kEnds{"old", "new", "new-from", "ball", "knot", "take"};
  return std::any_of(kEnds.begin(), kEnds.end(), [&](std::string_view name) { return options.has(name); });
}

Outcome run_draw_proposed(const Options& options, Context& context, const Common& common) {
  if (!means_project(options, context)) {
    throw Problem(Fault::content, "a join is drawn in the piece of a project: name it, or leave out the ends");
  }
  if (const std::string other = imagined(options); !other.empty()) {
    throw Problem(Fault::content,
                  fmt::format("a join is drawn in the piece on record: leave out {}, or the ends", other));
  }
  const ChangeInProject change = change_in_project(options, context, common);
  const CheckShown shown = change.advised.shown();
  if (shown.advice.verdict != JoinVerdict::cut) {
    const std::string text = check_screen(shown, common.screen, change.advised.terms.measures.told, common.verbose);
    return no_picture("fabric", shown, text, change.options, context, common);
  }
  deliver(Proposal(change, context, common).drawn(), change.options, context, common);
  return Outcome::done;
}

}  // namespace ballchange
