#include "commands/table.hpp"

#include <algorithm>
#include <array>

#include "commands/ball.hpp"
#include "commands/cancel.hpp"
#include "commands/card.hpp"
#include "commands/check.hpp"
#include "commands/draw.hpp"
#include "commands/estimate.hpp"
#include "commands/gauge.hpp"
#include "commands/help.hpp"
#include "commands/join.hpp"
#include "commands/log.hpp"
#include "commands/measure.hpp"
#include "commands/note.hpp"
#include "commands/order.hpp"
#include "commands/place.hpp"
#include "commands/report.hpp"
#include "commands/rip.hpp"
#include "commands/row.hpp"
#include "commands/start.hpp"
#include "commands/weigh.hpp"

namespace ballchange {
namespace {

constexpr std::array<std::string_view, 3> kCheckUsage{
    "[PROJECT] --old READING [--ball ID | --new READING] [options]",
    "--yarn PROFILE --old READING --new READING [options]",
    "--whole \"plum 84\" --old READING --new READING [options]",
};
constexpr std::array<std::string_view, 2> kPlaceUsage{
    "[PROJECT] --old READING | --new READING [options]",
    "--yarn PROFILE --old READING | --new READING [options]",
};
constexpr std::array<std::string_view, 2> kJoinUsage{
    "[PROJECT] --old READING [--ball ID | --new READING] [--take K] [options]",
    "[PROJECT] --ball ID --trim-old L --trim-new L [--row N --stitch N] [options]",
};
constexpr std::array<std::string_view, 1> kLogUsage{"[PROJECT] [options]"};
constexpr std::array<std::string_view, 1> kStartUsage{"[PROJECT] --yarn PROFILE [options]"};
constexpr std::array<std::string_view, 1> kBallUsage{"[PROJECT] [--ball ID] [options]"};
constexpr std::array<std::string_view, 1> kRowUsage{"[PROJECT] --row N [--stitch N] [--seen TEXT]... [options]"};
constexpr std::array<std::string_view, 1> kWeighUsage{"[PROJECT] [--ball ID] --mass G [options]"};
constexpr std::array<std::string_view, 1> kRipUsage{"[PROJECT] --row N [options]"};
constexpr std::array<std::string_view, 4> kGaugeUsage{
    "[PROJECT] --yarn-per-stitch L [options]",
    "[PROJECT] --swatch TEXT ... [--want GAUGE] [--record] [options]",
    "[PROJECT] --widths 60-120 [options]",
    "--yarn PROFILE --yarn-per-stitch L --widths 60-120 [options]",
};
constexpr std::array<std::string_view, 1> kNoteUsage{"[PROJECT] TEXT [options]"};
constexpr std::array<std::string_view, 1> kCancelUsage{"[PROJECT] ENTRY [options]"};
constexpr std::array<std::string_view, 2> kOrderUsage{
    "[PROJECT] [options]",
    "--yarn PROFILE --ends \"A: READING / READING\" ... [options]",
};
constexpr std::array<std::string_view, 2> kEstimateUsage{
    "[PROJECT] [options]",
    "--yarn PROFILE --needed L [options]",
};
constexpr std::array<std::string_view, 3> kMeasureUsage{
    "--strand READING ... [--name TEXT --out FILE] [options]",
    "--add PROFILE --strand READING ... [options]",
    "PROJECT [--out FILE] [options]",
};
constexpr std::array<std::string_view, 5> kDrawUsage{
    "strands [PROJECT] --old READING [--ball ID | --new READING] [--out FILE.svg] [options]",
    "strands --yarn PROFILE --old READING --new READING [--out FILE.svg] [options]",
    "fabric [PROJECT] [--out FILE.svg] [options]",
    "fabric --yarn PROFILE --stitches N --yarn-per-stitch L [options]",
    "repeat [PROJECT] | --yarn PROFILE [--old READING | --new READING] [--bar] [options]",
};
constexpr std::array<std::string_view, 2> kCardUsage{
    "[PROJECT] [--out FILE.html] [options]",
    "--yarn PROFILE [--method METHOD] [--allowance L] [--out FILE.html] [options]",
};
constexpr std::array<std::string_view, 1> kReportUsage{"[PROJECT] --out FILE.html [options]"};
constexpr std::array<std::string_view, 1> kHelpUsage{"[COMMAND | joins | readings | tolerance | yarn]"};

constexpr std::string_view kReadings =
    R"(How a reading is written, from the loose end inward:
  "plum 15, sand 11, rust 30"
  15 of plum up to the first change, a whole sand of 11, then
  30 of rust seen: the last one goes on. A length may be left
  out of any but the first. Each may have its unit: 15cm, 6in.
  |     a change right at the loose end: "| sand 11, rust"; at
        the end: "rust 80 |", the last colour is whole
  hook  in --old, an entry where the hook or needle is:
        "rust 30, sand 11, hook, plum 14st": 41 of loose yarn,
        then stitches of plum already worked, counted in the
        fabric from the hook back to where plum begins
Asked about a short piece of colour: look again, and write
it as an entry of its own: plum 15, sand 11, rust 30 instead
of plum 26, rust 30.
)";

constexpr auto kCommands = std::to_array<CommandRow>({
    {"check", "at a ball change or a knot: whether, where and how to cut both ends", kCheckUsage, check_options,
     run_check, 1, kReadings},
    {"join", "records a join: what check advises, or what was really cut", kJoinUsage, join_command_options, run_join,
     1},
    {"place", "where one reading lies on the repeat", kPlaceUsage, place_options, run_place, 1, kReadings},
    {"start", "opens a project file; only a yarn is needed", kStartUsage, start_options, run_start, 1},
    {"ball", "adds a ball, or tells more of one: mass, dye lot, readings", kBallUsage, ball_options, run_ball, 1,
     kReadings},
    {"row", "records where the work stands, and where colours really fell", kRowUsage, row_options, run_row, 1},
    {"weigh", "a ball on the scale: yarn and rows left, where it ends, is it enough", kWeighUsage, weigh_options,
     run_weigh, 1},
    {"rip", "records ravelling back", kRipUsage, rip_options, run_rip, 1},
    {"gauge", "swatches and the size to try next; how the colours will fall", kGaugeUsage, gauge_options, run_gauge, 1},
    {"note", "records a remark", kNoteUsage, note_options, run_note, 2},
    {"cancel", "cancels an entry of the log; nothing is erased", kCancelUsage, cancel_options, run_cancel, 2},
    {"log", "what was recorded, what it cost, what is left", kLogUsage, log_options, run_log, 1},
    {"estimate", "yarn needed, waste and balls to buy, before starting", kEstimateUsage, estimate_options, run_estimate,
     1},
    {"order", "the best order of the balls on hand", kOrderUsage, order_options, run_order, 1, kReadings},
    {"measure", "learns the repeat from measured strands, writes a yarn profile", kMeasureUsage, measure_options,
     run_measure, 1, kReadings},
    {"draw", "pictures: both strands at a ball change, the work, the yarn's repeat", kDrawUsage, all_draw_options,
     run_draw, 2, kReadings},
    {"card", "for the workbag: what to leave on the new end, by what the old used", kCardUsage, card_options, run_card,
     1},
    {"report", "all that is known of the piece on one page to print", kReportUsage, report_options, run_report, 1},
    {"help", "this overview, the options of one command, or a word on the craft", kHelpUsage, help_options, run_help,
     2},
});

}  // namespace

std::span<const CommandRow> commands() { return kCommands; }

const CommandRow* command_named(std::string_view name) {
  const auto* found =
      std::find_if(kCommands.begin(), kCommands.end(), [name](const CommandRow& row) { return row.name == name; });
  return found == kCommands.end() ? nullptr : found;
}

std::vector<std::string> command_names() {
  std::vector<std::string> names;
  for (const CommandRow& row : kCommands) names.emplace_back(row.name);
  return names;
}

}  // namespace ballchange
