#include "commands/note.hpp"

#include "project/record.hpp"

namespace ballchange {

std::vector<OptionGroup> note_options() { return {writing_options(), common_options()}; }

Outcome run_note(const Options& options, Context& context) {
  const Common common = common_of(options, context);
  const std::vector<std::string>& words = options.words();
  const bool only_a_file = words.size() == 1 && is_project_name(words.front()) && context.disk.is_file(words.front());
  if (words.empty() || only_a_file) {
    throw Problem(Fault::content, "note needs its text, as one word: ballchange note \"ball B is a little thinner\"");
  }
  const std::string path = project_path(words.size() > 1 ? std::optional(words.front()) : std::nullopt, context);
  const Recorded recorded = record(
      path, options, context, [&](const Project&, const State&) { return std::vector<Did>{did::Note{words.back()}}; });
  tell_recorded(recorded, {}, options, context, common);
  return Outcome::done;
}

}  // namespace ballchange
