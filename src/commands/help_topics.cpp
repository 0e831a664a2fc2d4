#include "commands/help_topics.hpp"

#include <fmt/core.h>

#include <array>

#include "join/method.hpp"
#include "show/text.hpp"

namespace ballchange {
namespace {

constexpr std::string_view kJoins = R"(The overlap is used up, but counted: keep to the length you told. A shorter one
saves nothing unless it saves a whole repeat. Check the dry fit before you cut:
yarn cut off does not grow back.
Hot water scalds: go by the yarn's label. Never singe ends near skin, synthetics
melt; on a baby's things leave no loose end or knot that can come off, and keep
to the rules for children's clothes where you live.
)";

constexpr std::string_view kReadings = R"(Readings: what to write down of a strand
Lay it straight along a tape, not stretched, and write colours and lengths from
the loose end inward, old end and new end alike:  plum 15, sand 11, rust 30
15 of plum up to the first change, a whole sand, 30 of rust so far. The first
length gives the place, so measure that one best. Three colours with a short one
among them usually settle it; longer is surer.
  a splash          its own entry, however short; missed ones are allowed for
  length doubtful   leave it out: plum 15, sand, rust
  change at the end a bar: | sand 11, rust
  the hook          rust 30, sand 11, hook, plum 14st: loose yarn, then stitches
                    of plum back to where it begins
Yarn that was ravelled is kinked and reads short: damp it and let it dry, or say
--ravelled kinked. Cut nothing by a reading alone: dry fit first.
More: man ballchange, READINGS.
)";

constexpr std::string_view kTolerance = R"(Tolerance: how far out of step still looks good
Two stitches unless you tell another: the eye misses that in a picture that
shifts a little with every row anyway. A join is itself off by a centimetre or
two, so check aims closer than the tolerance.
  --tolerance 3cm        for this join; in a project, join: {tolerance: 2 st}
  --sparing              short of yarn: use all of it wherever that saves yarn
  --keep each-join       every join stands by itself, as usual
  --keep from-the-start  the sum of all counts as well, for panels that must
                         match or a ring that must close
A skip takes the colours on, a repeat brings them back: in rounds the picture
moves sideways by so many stitches, in rows a diamond comes out shorter or
taller. In a project, see it before you cut; no cut can be taken back:
  ballchange draw fabric --out-of-step 6cm
)";

constexpr std::string_view kYarn = R"(Yarn: learning a repeat, and what to ask of a ball
Write down two or three repeats of a strand, every splash; one settles nothing:
  ballchange measure --name "My yarn" --out myyarn \
    --strand "plum 40, sand 11, rust 80, plum 92, sand 12, rust 79, plum 30"
- Pictures need shades: in myyarn.yaml, {colour: sand, shade: "#c9b48f", ...}.
- Dye lots differ in shade, and sometimes in the repeat: measure each.
- From its other end a ball shows the colours the other way round: start all
  balls from the same end, or turn those that run backward.
- Balls off one machine may follow each other with nothing to cut: read both
  ends of each (ballchange ball), then ask for an order (ballchange order).
- Joined as they come, a join costs half a repeat; buy for that. A profile must
  say for it what a ball holds (ball: {mass: 50 g, length: 125 m}):
  ballchange estimate --yarn orchard --needed 800m
Superwash, plant fibre, synthetics don't felt. Wash a swatch as the label says.
)";

// Each way to join, as its row tells it.
std::string joins() {
  constexpr std::size_t columns = 80;
  std::string text = "Joins: which one, and what it takes of the yarn\n";
  for (const MethodRow& row : methods()) {
    const std::string usual = fmt::format("{} {}", row.takes.usual, row.in_stitches ? "stitches" : "cm");
    text += labelled(fmt::format("  {:<9}", row.name), fmt::format(fmt::runtime(row.told), usual), columns);
  }
  return text + std::string(kJoins);
}

}  // namespace

std::span<const HelpTopic> help_topics() {
  static const std::array<HelpTopic, 4> topics{{
      {"joins", "the ways to join, and what each takes", joins()},
      {"readings", "what to write down of a strand", std::string(kReadings)},
      {"tolerance", "how far out of step still looks good", std::string(kTolerance)},
      {"yarn", "learning a repeat, and what to ask of a ball", std::string(kYarn)},
  }};
  return topics;
}

}  // namespace ballchange
