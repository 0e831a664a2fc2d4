#pragma once
#include <optional>

#include "project/advise_project.hpp"
#include "project/project.hpp"
#include "show/offcuts.hpp"

// The offcuts of a project, at a ball change and for sewing up.
namespace ballchange {

// --cut-from.
[[nodiscard]] std::optional<End> cut_from_option(const Options& options);

// What is kept, of one ball or of all.
[[nodiscard]] OffcutsShown offcuts_in(const OpenProject& open, const Options& options, const BallState* ball);

// The offcut, kept or a ball already, that saves most between both ends; nothing where none saves more than its second
// join takes, at a knot, and where the fresh end is an offcut's itself.
[[nodiscard]] std::optional<BridgeShown> bridge_in(const OpenProject& open, const ProjectAdvice& advised);

}  // namespace ballchange
