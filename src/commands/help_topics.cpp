#include "commands/help_topics.hpp"

#include <array>

namespace ballchange {
namespace {

constexpr std::string_view kJoins = R"(Joins: which one, and what it takes of the yarn
  felted    ends frayed, damped and rubbed together over 8 cm; only in wool that
            felts. Try it on scraps first.
  threaded  one end run inside the other with a needle, 10 cm; the usual one
  doubled   both strands worked together for 6 stitches; a little thick
  woven     both ends left hanging and woven in, 25 cm; comes apart if ravelled
  knotted   tied, 20 cm for both ends before trimming; may show
The overlap is used up, but counted: keep to the length you told. A shorter one
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
taller. See it before you cut; no cut can be taken back:
  ballchange draw fabric --out-of-step 6cm
)";

constexpr std::string_view kYarn = R"(Yarn: learning a repeat, and what to ask of a ball
Write down two or three repeats of a strand, every splash; one settles nothing:
  ballchange measure --strand "plum 40, sand 11, rust 80, ..." \
    --name "My yarn" --out myyarn
- Dye lots differ in shade, and sometimes in the repeat: measure each.
- From its other end a ball shows the colours the other way round: start all
  balls from the same end, or turn those that run backward.
- Balls off one machine may follow each other with nothing to cut: read both
  ends of each (ballchange ball), then ask for an order (ballchange order).
- Joined as they come, a join costs half a repeat; buy for that:
  ballchange estimate --yarn myyarn --needed 800m
Superwash wool, plant fibre and synthetics don't felt. Wash a swatch as the
label says before you trust its colours and its size.
)";

constexpr std::array<HelpTopic, 4> kTopics{{
    {"joins", "the ways to join, and what each takes", kJoins},
    {"readings", "what to write down of a strand", kReadings},
    {"tolerance", "how far out of step still looks good", kTolerance},
    {"yarn", "learning a repeat, and what to ask of a ball", kYarn},
}};

}  // namespace

std::span<const HelpTopic> help_topics() { return kTopics; }

}  // namespace ballchange
