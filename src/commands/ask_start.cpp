#include <algorithm>
#include <array>
#include <string>

#include "base/text.hpp"
#include "commands/ask.hpp"
#include "files/find_profile.hpp"

namespace ballchange {
namespace {

constexpr std::array<const char*, 3> kStitchOptions{"yarn-per-stitch", "yarn-per-row", "repeat-stitches"};

// "147 st" -> "147"; empty for what isn't in stitches.
std::string stitches_in(const std::string& answer) {
  for (const std::string_view unit : {"stitches", "sts", "st"}) {
    const std::string folded = fold_case(answer);
    if (folded.ends_with(unit))
      return std::string(trim(std::string_view(answer).substr(0, answer.size() - unit.size())));
  }
  return {};
}

void ask_yarn_per_stitch(Dialogue& dialogue, const Dialogue::Takes& takes) {
  const ToAsk question{"yarn-per-stitch",
                       "--yarn-per-stitch 1.85cm",
                       {"How much yarn does one stitch take, like 1.85 cm? Or how many stitches does one whole repeat "
                        "of the yarn make, like 147 st?",
                        "Yarn per stitch (Enter: not known yet)"},
                       Enter::skips};
  (void)dialogue.ask_for(question, [&](const std::string& answer) {
    const std::string stitches = stitches_in(answer);
    Options with = dialogue.options();
    with.add(stitches.empty() ? "yarn-per-stitch" : "repeat-stitches", {stitches.empty() ? answer : stitches});
    takes(with);
    dialogue.take(with);
  });
}

}  // namespace

void ask_yarn(Dialogue& dialogue, const Context& context) {
  const Surroundings around = surroundings_of(context);
  const ToAsk question{"yarn", "--yarn PROFILE", yarn_asked(profile_names(context.disk, around))};
  (void)dialogue.ask(question, [&](const Options& with) {
    static_cast<void>(load_profile(*with.text("yarn"), context.disk, around));
  });
}

Options with_piece(const Options& options, const Context& context, const Common& common, const Dialogue::Takes& takes) {
  if (!can_ask(context, common)) return options;
  Dialogue dialogue(options, context, common);
  if (!options.has("yarn")) ask_yarn(dialogue, context);
  takes(dialogue.options());
  if (!options.has("stitches")) {
    dialogue.ask({"stitches", "--stitches 60", {"", "Stitches in a row (Enter: not known yet)"}, Enter::skips}, takes);
  }
  const auto told = [&](const char* name) { return options.has(name); };
  if (std::none_of(kStitchOptions.begin(), kStitchOptions.end(), told)) ask_yarn_per_stitch(dialogue, takes);
  if (!options.has("method")) {
    const Surroundings around = surroundings_of(context);
    const Yarn yarn = load_profile(*dialogue.options().text("yarn"), context.disk, around).yarn;
    dialogue.ask({"method", "--method threaded", method_asked(yarn.felts), Enter::skips}, takes);
  }
  return dialogue.options();
}

}  // namespace ballchange
