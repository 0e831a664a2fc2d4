#pragma once
#include <optional>

#include "console/options.hpp"
#include "ledger/project.hpp"

// The yarn a stitch takes, from whatever somebody measured.
namespace ballchange {

// --yarn-per-stitch; it can't be in stitches. Throws Problem(content).
[[nodiscard]] std::optional<Amount> yarn_per_stitch_option(const Options& options, Unit bare);

// Fills in the yarn per stitch, and per turn where it follows, from --yarn-per-stitch, --yarn-per-turn, --yarn-per-row
// and --repeat-stitches; the stitches of a row are in the piece already. Throws Problem(content) where two of them
// don't agree within 5 %. `turn`: what a turn takes where only a row was measured now.
void measure_stitch(const Options& options, Unit bare, const Yarn& yarn, Piece& piece, Length turn = Length());

}  // namespace ballchange
