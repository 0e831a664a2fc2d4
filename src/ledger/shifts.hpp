#pragma once
#include <cstddef>
#include <optional>
#include <vector>

#include "ledger/state.hpp"

namespace ballchange {

// The length of a joined section that was really seen corrects the shift of its join: what the section of the yarn is
// long, less what was seen (MATHS: dry fit length = L - shift). `landed` are the joins in the work, first to last.
// Where several sections bear the colour, the one that comes nearest to the recorded shift; without one, none.
void correct_shifts(State& state, const std::vector<std::size_t>& landed);

// The shift that such a section says; nothing for one that can't be the section of that colour, or might be several.
[[nodiscard]] std::optional<Length> shift_by(const Repeat& repeat, ColourId colour, Length seen,
                                             std::optional<Length> recorded);

// What totals.running_shift would be if each counted stitch held so much yarn, > 0; nothing where that isn't known.
[[nodiscard]] std::optional<Length> running_shift_by(const State& state, Length stitch);

// Whether the shift as recorded makes what was counted, as near as stitches are counted.
[[nodiscard]] bool bears_out(const JoinState& join, const Repeat& repeat);
// The shift as it is told: as recorded where the count bears that out, otherwise as counted.
[[nodiscard]] std::optional<Length> shift_told(const JoinState& join, const Repeat& repeat);
// All of them together; as counted where so many counts all one way are more than their rounding.
[[nodiscard]] std::optional<Length> running_shift_told(const State& state);

// How much yarn so many stitches of a joined section hold, with the turns among them: they begin `into` before the
// join's middle, and lie about it where that isn't known. Without the yarn per stitch nothing.
[[nodiscard]] std::optional<Length> yarn_counted(const Fabric& fabric, const std::optional<WorkPlace>& middle,
                                                 std::optional<Length> into, double stitches);

}  // namespace ballchange
