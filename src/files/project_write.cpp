#include <fmt/core.h>

#include "files/profile.hpp"
#include "files/project.hpp"
#include "files/yaml_text.hpp"

namespace ballchange {
namespace {

// One line of keys in braces; those that are not told are left out.
class Braces {
 public:
  void add(std::string_view key, std::string_view value) {
    out_ += fmt::format("{}{}: {}", out_.empty() ? "" : ", ", key, value);
  }
  void add(std::string_view key, const std::optional<int>& value) {
    if (value) add(key, fmt::format("{}", *value));
  }
  void add(std::string_view key, const std::optional<Amount>& value) {
    if (value) add(key, fmt::format("{} {}", to_four_decimals(value->number), unit_name(value->unit)));
  }
  [[nodiscard]] std::string line(std::string_view key) const { return fmt::format("{}: {{{}}}\n", key, out_); }

 private:
  std::string out_;
};

std::string_view working_name(Working working) {
  switch (working) {
    case Working::rows:
      return "rows";
    case Working::rounds:
      return "rounds";
    case Working::turned_rounds:
      break;
  }
  return "turned-rounds";
}

// The profile without its format, a step further in.
std::string yarn_lines(const Yarn& yarn) {
  const std::string profile = write_profile(yarn);
  std::string out = "yarn:\n";
  for (std::size_t at = profile.find('\n') + 1; at < profile.size();) {
    const std::size_t end = profile.find('\n', at) + 1;
    out += "  " + profile.substr(at, end - at);
    at = end;
  }
  return out;
}

}  // namespace

std::string write_project(const Project& project) {
  std::string out = "format: ballchange project 1\n";
  if (!project.name.empty()) out += fmt::format("name: {}\n", yaml_text(project.name));
  out += fmt::format("units: {}\n", unit_name(project.units)) + yarn_lines(project.yarn);
  const Piece& piece = project.piece;
  Braces made;
  made.add("worked", working_name(piece.working));
  made.add("stitches", piece.stitches);
  if (piece.multiple) made.add("multiple", multiple_text(*piece.multiple));
  made.add("rows", piece.rows);
  made.add("yarn_per_stitch", piece.yarn_per_stitch);
  made.add("yarn_per_turn", piece.yarn_per_turn);
  made.add("foundation", piece.foundation);
  made.add("edging", piece.edging);
  made.add("keep", project.join.keep_from_the_start ? "from-the-start" : "each-join");
  Braces join;
  if (project.join.method) join.add("method", method_row(*project.join.method).name);
  join.add("allowance", project.join.allowance);
  join.add("tolerance", project.join.tolerance);
  return out + made.line("piece") + join.line("join") + "log: []\n";
}

}  // namespace ballchange
