#pragma once
#include <vector>

#include "console/common.hpp"
#include "console/context.hpp"
#include "console/options.hpp"
#include "paper/drawing.hpp"

// What `draw` can draw: the options of each besides those of every command and of every picture, and how it is drawn.
namespace ballchange {

inline constexpr Sheet kMostPaper{180, 250};  // fits both A4 and Letter with a margin to hold it by

[[nodiscard]] const OptionGroup& way_options();  // which of check's ways to cut is drawn

[[nodiscard]] std::vector<OptionGroup> strands_picture_options();
[[nodiscard]] std::vector<OptionGroup> fabric_picture_options();
[[nodiscard]] std::vector<OptionGroup> repeat_picture_options();

// The options' words are those after the picture's own.
[[nodiscard]] Outcome run_draw_strands(const Options& options, Context& context, const Common& common);
[[nodiscard]] Outcome run_draw_fabric(const Options& options, Context& context, const Common& common);
// Whether the options tell a ball change that isn't made yet; then the piece is drawn before and after it: joined as
// the ends lie, and cut as `check` advises.
[[nodiscard]] bool proposes_join(const Options& options);
[[nodiscard]] Outcome run_draw_proposed(const Options& options, Context& context, const Common& common);
[[nodiscard]] Outcome run_draw_repeat(const Options& options, Context& context, const Common& common);

}  // namespace ballchange
