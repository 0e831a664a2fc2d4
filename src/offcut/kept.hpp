#pragma once
#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "ledger/state.hpp"
#include "offcut/offcut.hpp"

// The offcuts of a project: which are worth keeping, where they lie, what they are good for.
namespace ballchange::offcuts {

// Less is too short to thread and sew with. Common practice, no source.
[[nodiscard]] Length least_to_sew(Reckoning reckoning);

// What is long enough for a join (least_between, at what the project's joins take; nothing where that isn't known), or
// for sewing up and edging.
struct LongEnough {
  std::optional<Length> bridging;
  Length sewing;
  [[nodiscard]] bool to_keep(Length length) const { return length >= sewing || to_bridge(length); }
  [[nodiscard]] bool to_bridge(Length length) const { return bridging && length >= *bridging; }
};

// Where it lies, by what was read of that end, or of the offcut it was cut off in its turn; nothing where that settles
// nothing, or where it holds a join. `written`: how readings on record are to be read.
[[nodiscard]] std::optional<Offcut> placed(const State& state, const Ruler& written, std::size_t offcut);
// The same for a ball that is an offcut, from the end it is worked from; nothing once an end of it is not as it was
// cut.
[[nodiscard]] std::optional<Offcut> placed(const State& state, const Ruler& written, const BallState& ball);
// The end such a ball stops at; nothing once that is not as it was cut.
[[nodiscard]] std::optional<Strand> last_end(const State& state, const Ruler& written, const BallState& ball);

// An offcut that nothing was made of, long enough.
struct Kept {
  std::size_t offcut = 0;        // index in the state
  std::optional<Offcut> placed;  // nothing: only its length is known
};
// As they came off; of very many the last (kMostKept).
inline constexpr std::size_t kMostKept = 100;
[[nodiscard]] std::vector<Kept> kept(const State& state, const Ruler& written, const LongEnough& enough);

// One colour that is long enough to sew with on one offcut: the longest stretch of it there.
struct Sewing {
  ColourId colour = 0;
  Length length;
  std::size_t offcut = 0;
};
// By colour as the repeat has them, the longest first.
[[nodiscard]] std::vector<Sewing> to_sew(const std::vector<Kept>& kept, Length least);

}  // namespace ballchange::offcuts
