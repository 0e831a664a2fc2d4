#pragma once
#include <cstddef>
#include <cstdint>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "base/measure.hpp"
#include "reading/reading.hpp"
#include "yarn/yarn.hpp"

// Where a reading lies on the repeat. The model, its assumptions and formulas: DEVELOPERS.md, "The matcher".
namespace ballchange {

namespace matching {
struct Model;
}

struct Candidate {
  Direction direction = Direction::forward;
  std::size_t boundary = 0;  // the change nearest to the loose end: it starts this section (forward numbering;
                             // backward: in the mirrored repeat)
  Length place;              // of the loose end, 0 <= place < R
  double probability = 0;
};

// How one written entry was explained.
struct Explained {
  std::size_t entry = 0;                // from 0, from the loose end
  std::vector<std::size_t> sections;    // those read under this name, in working order
  std::vector<std::size_t> overlooked;  // of these, the ones passed over
  bool misnamed = false;
};

enum class Verdict { settled, unsettled, no_fit };

// A question whose answer would settle the place.
struct Question {
  enum class Kind {
    first_length,   // how far from the loose end to the first change?
    next_change,    // no change was seen: measure to the next one
    which_follows,  // which colour comes after the last entry?
    how_long,       // how long is that entry (its length was left out, or is open)?
    look_alike,     // is that entry really of this colour, or of `other`?
    overlooked,     // is there a splash of `other` inside that entry?
    wrong_way       // was it written from the loose end inward? it fits only the way that was not expected
  };
  Kind kind = Kind::which_follows;
  std::size_t entry = 0;  // from 0, from the loose end
  ColourId other = 0;     // look_alike, overlooked
};

struct Placing {
  Verdict verdict = Verdict::unsettled;
  std::vector<Candidate> candidates;  // best first, all above 1 %; the best always, unless no_fit
  double sureness = 0;      // chance of the best and of those that come to the same: a mirror image, a shorter repeat
  Length place, low, high;  // best guess and its 90 % interval (not wrapped: low may be below 0)
  double spread_sd = 0;     // cm: one standard deviation of place, given the right change
  std::vector<Explained> why;          // the best path, one per entry; with no_fit the one in the way, see below
  std::optional<Length> measure_more;  // unsettled: how much further to measure, where that would do
  std::optional<Question> ask;
  [[nodiscard]] const Candidate& best() const { return candidates.front(); }
  [[nodiscard]] double probability() const { return candidates.empty() ? 0 : candidates.front().probability; }
};

// What is known about which end a ball is worked from.
enum class Wound { mill, hand };
enum class Worked { usual_end, other_end };

struct MatchOptions {
  double sure = 0.95;  // wanted sureness, 0.5 .. 0.9999
  Tape tape;           // error of each written length
  Wound wound = Wound::mill;
  Worked worked = Worked::usual_end;
};

// Reusable: keeps its working memory between readings, so that none is taken per candidate. Not for two threads at
// once.
class Matcher {
 public:
  explicit Matcher(const Yarn& yarn);
  ~Matcher();
  Matcher(const Matcher&) = delete;
  Matcher& operator=(const Matcher&) = delete;

  // The posterior, verdict, interval and best path; measure_more and ask stay empty except wrong_way, first_length,
  // next_change.
  [[nodiscard]] Placing match(const Reading& reading, const MatchOptions& options);

  // For candidates of the last reading matched: how each explains the entries. A change must have been seen in it.
  [[nodiscard]] std::vector<std::vector<Explained>> ways(const std::vector<Candidate>& candidates) const;

  // Of the last reading matched, which fits nowhere: the entry without whose length it would, or the one furthest off.
  // Takes as long as a match for every entry.
  [[nodiscard]] std::size_t in_the_way(const MatchOptions& options) const;

  [[nodiscard]] const matching::Model& model() const;

  // Steps of the sum taken so far: for whoever must stop in time without a clock.
  [[nodiscard]] std::uint64_t work() const;

 private:
  struct Workspace;
  std::unique_ptr<Workspace> work_;
};

// match, and for an unsettled reading the question that tells most candidates apart and how much further to measure;
// for one that fits nowhere, as `why`, the entry in the way.
[[nodiscard]] Placing place_reading(const Yarn& yarn, const Reading& reading, const MatchOptions& options);

}  // namespace ballchange
