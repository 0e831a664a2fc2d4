#include "commands/note.hpp"

#include <array>

#include "project/offcuts.hpp"
#include "project/record.hpp"

namespace ballchange {
namespace {

constexpr std::array<OptionRow, 2> kRows{{
    {"offcut", "N", "the piece that was cut off at entry N went into it, and is used up"},
    {"cut-from", "old|new", "which end that was, where entry N left two"},
}};
constexpr OptionGroup kGroup{"What it took", kRows};

}  // namespace

std::vector<OptionGroup> note_options() { return {kGroup, writing_options(), common_options()}; }

Outcome run_note(const Options& options, Context& context) {
  const Common common = common_of(options, context);
  const std::vector<std::string>& words = options.words();
  const bool only_a_file = words.size() == 1 && is_project_name(words.front()) && context.disk.is_file(words.front());
  if (words.empty() || only_a_file) {
    throw Problem(Fault::content, "note needs its text, as one word: ballchange note \"ball B is a little thinner\"");
  }
  if (options.has("cut-from") && !options.has("offcut")) {
    throw Problem(Fault::content, "--cut-from says which end an offcut was cut off: give --offcut too");
  }
  const did::Note note{words.back(), count_option(options, "offcut", 1), cut_from_option(options)};
  const std::string path = project_path(words.size() > 1 ? std::optional(words.front()) : std::nullopt, context);
  const Recorded recorded =
      record(path, options, context, [&](const Project&, const State&) { return std::vector<Did>{note}; });
  tell_recorded(recorded, {}, options, context, common);
  return Outcome::done;
}

}  // namespace ballchange
