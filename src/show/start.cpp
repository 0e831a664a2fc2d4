#include "show/start.hpp"

#include <fmt/core.h>

#include <cmath>

#include "base/text.hpp"
#include "show/entry_values.hpp"
#include "show/json.hpp"
#include "show/profile_notes.hpp"

namespace ballchange {
namespace {

std::string yarn_text(const StartShown& shown, Told told) {
  const Yarn& yarn = shown.state.yarn;
  return fmt::format("{}, one repeat is {}.", printable(yarn.name, 60), amount(yarn.repeat.total(), told));
}

// "1.12 m of yarn: one repeat makes 2 rows and 29 stitches."
std::string row_text(const StartShown& shown, Told told) {
  const auto row = shown.state.gauge.row();
  if (!row || told == Told::stitches) return {};
  const double rows = shown.state.yarn.repeat.total() / *row;
  std::string text = fmt::format("takes {}", amount(*row, told));
  if (rows >= 0.1 && rows < 1000)
    text += fmt::format(": one repeat makes {:.1f} {}s", rows, row_word(shown.project.piece.working));
  return text + ".";
}

std::string later_lines(const StartShown& shown, std::size_t columns) {
  if (!shown.project.piece.stitches) {
    return labelled("Later",
                    fmt::format("the stitches in a {} are not told yet; once they are known (60, say), let the line "
                                "'piece:' of {} become:",
                                row_word(shown.project.piece.working), printable(shown.path)),
                    columns) +
           std::string(kLabelWidth, ' ') + shown.piece_line + "\n" +
           labelled(
               "",
               "Anything else can be told there later: worked, rows, foundation, edging and keep; on the line 'join:' "
               "method, allowance and tolerance.",
               columns);
  }
  if (shown.state.ruler.in_stitches || shown.state.ruler.yarn_per_stitch) return {};
  return labelled(
      "Later",
      fmt::format("the yarn a stitch takes is not told yet; once it is known, record it: ballchange gauge {} "
                  "--yarn-per-stitch 1.85cm",
                  typed_path(shown.path)),
      columns);
}

}  // namespace

std::string start_screen(const StartShown& shown, const Screen& screen, Told told) {
  const std::size_t columns = screen.text_columns();
  const std::string name =
      shown.project.name.empty() ? std::string() : fmt::format(": {}", printable(shown.project.name, 60));
  std::string out =
      wrapped(fmt::format("{} {}{}.", shown.written ? "Opened" : "Would open", printable(shown.path), name), columns);
  out += labelled("Yarn", yarn_text(shown, told), columns);
  if (const std::string row = row_text(shown, told); !row.empty())
    out += labelled(shown.project.piece.working == Working::rows ? "Row" : "Round", row, columns);
  for (const std::string& note : profile_notes(shown.project.yarn)) out += labelled("Mind", note, columns);
  for (const std::string& remark : shown.remarks) out += labelled("Note", remark + ".", columns);
  out += later_lines(shown, columns);
  if (!shown.written) return out + wrapped("Nothing was written. It would be:", columns) + shown.text;
  out += labelled("Next", "begin with the first ball; what its end shows can be told with it (--outside):", columns);
  return out + std::string(kLabelWidth, ' ') + fmt::format("ballchange ball {} --begin\n", typed_path(shown.path));
}

std::string start_json(const StartShown& shown) {
  Json json;
  json.object().member("format", "ballchange entry 1").key("entry").null();
  json.key("entries").array().end().key("totals");
  totals_json(json, shown.state.totals);
  json.key("project").object().member("file", shown.path).member("name", shown.project.name);
  json.member("yarn", shown.project.yarn.name).end();
  json.member("recorded", shown.written).key("remarks").array();
  for (const std::string& remark : shown.remarks) json.text(remark);
  unit_member(json.end(), shown.state.ruler.in_stitches).end();
  return json.take();
}

}  // namespace ballchange
