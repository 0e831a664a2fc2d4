#pragma once
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "console/common.hpp"
#include "console/context.hpp"
#include "console/dialogue.hpp"
#include "console/options.hpp"
#include "project/project.hpp"

// What a command needs and was not given, from whoever sits at the terminal; where nobody does the options as they
// are. All throw Problem(content) where nobody answers.
namespace ballchange {

// Which project, where the folder holds several.
[[nodiscard]] Options with_project(const Options& options, const Context& context, const Common& common);
struct EndsAsked {
  Options options;
  std::vector<SaidNo> said_no;
};
// For `check` in a project: the fresh ball and both ends; nothing where there is nothing to ask.
[[nodiscard]] std::optional<EndsAsked> with_ends(const OpenProject& open, const Options& options,
                                                 const Context& context, const Common& common);
// For `check` without one: the yarn and both ends.
[[nodiscard]] EndsAsked with_yarn_and_ends(const Options& options, const Context& context, const Common& common);
// For `start`: the yarn, stitches, yarn per stitch, method. `takes` throws Problem for what can't be.
[[nodiscard]] Options with_piece(const Options& options, const Context& context, const Common& common,
                                 const Dialogue::Takes& takes);
// For `ball`: its name, mass, and the end it is worked from. `next` is the name it gets when none is told.
struct BallAsked {
  Options options;
  std::vector<SaidNo> outside = {}, inside = {};  // to questions about that end
  bool nothing_new = false;                       // each question of a ball on record was skipped
};
[[nodiscard]] BallAsked with_ball(const OpenProject& open, const Options& options, const Context& context,
                                  const Common& common, const std::string& next, const Dialogue::Takes& takes);

void ask_yarn(Dialogue& dialogue, const Context& context);
// One of these is to come from standard input, where the answers would come from too.
[[nodiscard]] bool reads_standard_input(const Options& options);

}  // namespace ballchange
