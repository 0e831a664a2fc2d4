#include "measure/needed.hpp"

#include <algorithm>
#include <cmath>
#include <memory>
#include <numeric>
#include <optional>
#include <tuple>
#include <utility>

#include "match/ahead.hpp"
#include "match/unseen.hpp"

namespace ballchange {

using namespace matching;

namespace {

constexpr std::size_t strands = 400, rounds = 20;
constexpr double most_repeats = 2;
constexpr std::uint64_t seed = 20261125;
constexpr std::uint64_t most_steps = 2'000'000;
constexpr double never = 1e300;
constexpr std::size_t for_good = 4;  // changes at which it was settled, one after the other
constexpr double glance = 1;         // cm, or a stitch: so little of the next colour shows which it is

// Strands that begin anywhere, by the matcher's own chances: their first colour as likely as there is yarn of it.
class Strands {
 public:
  Strands(const Yarn& yarn, const MatchOptions& options) : matcher_(yarn), options_(options) {
    for (const Section& section : yarn.repeat.sections()) {
      const ColourId colour = section.colour;
      if (colour >= weights_.size()) weights_.resize(colour + 1);
      weights_[colour] += section.length / yarn.repeat.total();
    }
  }

  // Where that takes long, of fewer strands, each colour with its share.
  [[nodiscard]] std::vector<double> needed() {
    std::vector<std::unique_ptr<OfColour>> colours;
    for (ColourId colour = 0; colour < weights_.size(); ++colour) {
      if (weights_[colour] > 0) colours.push_back(std::make_unique<OfColour>(*this, colour));
    }
    std::vector<double> all;
    for (std::size_t round = 1; round <= rounds && matcher_.work() <= most_steps; ++round) {
      for (const auto& of : colours) of->draw(*this, round, all);
    }
    std::sort(all.begin(), all.end());
    return all;
  }

 private:
  // The strands whose loose end shows one colour.
  class OfColour {
   public:
    OfColour(const Strands& all, ColourId colour) : colour_(colour) {
      Reading first;
      first.entries.push_back({colour, std::nullopt, 0, 1});
      observe(first, all.options_, observed_);
      const Model& model = all.matcher_.model();
      Posterior posterior(model);
      states_ = open_states(model, observed_, all.options_, posterior);
      if (!states_.empty()) drawing_.emplace(model, observed_, all.options_, states_, seed + colour);
      const auto count = static_cast<std::size_t>(std::lround(all.weights_[colour] * strands));
      most_ = std::max<std::size_t>(1, count);
    }
    // As many as are due by the end of that round.
    void draw(Strands& all, std::size_t round, std::vector<double>& needed) {
      if (!drawing_) return;
      for (; done_ < (most_ * round + rounds - 1) / rounds; ++done_) {
        needed.push_back(all.needed_of(colour_, drawing_->draw(all.longest())));
      }
    }

   private:
    ColourId colour_;
    Observed observed_;
    std::vector<OpenState> states_;
    std::optional<Drawing> drawing_;
    std::size_t most_ = 0, done_ = 0;
  };

  [[nodiscard]] double longest() const { return most_repeats * matcher_.model().total; }

  // Change by change until the place stays settled: what comes next may speak against it, as where a ball runs
  // backward.
  [[nodiscard]] double needed_of(ColourId colour, const Further& strand) {
    std::vector<Measured> entries{{colour, true, strand.last_whole, 0}};
    entries.insert(entries.end(), strand.entries.begin(), strand.entries.end());
    double length = 0;
    std::optional<std::size_t> since;
    std::size_t times = 0, doubtful = 0;
    for (std::size_t last = 1; last < entries.size(); ++last) {
      length += entries[last - 1].length;
      if (length > longest()) break;
      const bool settled = settles(entries, last, glance);
      times = settled ? times + 1 : 0;
      doubtful = settled ? 0 : doubtful + 1;
      if (times == 1) since = last;
      if (times == for_good) break;
    }
    // A doubt right at the end, as after a slip, may go as it came.
    return since && doubtful < for_good ? least(entries, *since) : never;
  }

  // Whether a reading does that stops so far into entry `last`.
  [[nodiscard]] bool settles(const std::vector<Measured>& entries, std::size_t last, double so_far) {
    Reading reading;
    for (std::size_t n = 0; n <= last; ++n) {
      const double length = n < last ? entries[n].length : std::min(so_far, entries[n].length);
      reading.entries.push_back({entries[n].colour, Length::cm(length), 0, n + 1});
    }
    return matcher_.match(reading, options_).verdict == Verdict::settled;
  }

  // Where it settles by the glance at entry `last`, it may have done so within the one before, by its length.
  [[nodiscard]] double least(const std::vector<Measured>& entries, std::size_t last) {
    constexpr int halvings = 4;
    double before = 0;
    for (std::size_t n = 0; n + 1 < last; ++n) before += entries[n].length;
    const double whole = entries[last - 1].length;
    if (last < 2 || !settles(entries, last - 1, whole)) return before + whole + std::min(glance, entries[last].length);
    double too_little = 0, enough = whole;
    for (int n = 0; n < halvings; ++n) {
      const double middle = (too_little + enough) / 2;
      (settles(entries, last - 1, middle) ? enough : too_little) = middle;
    }
    return before + enough;
  }

  Matcher matcher_;
  const MatchOptions& options_;
  std::vector<double> weights_;  // of each colour, the yarn there is of it
};

// By names and lengths, so that what was measured first doesn't say which strands are drawn.
Repeat in_one_order(const Repeat& repeat) {
  std::vector<ColourId> by_name(repeat.colours().size());
  std::iota(by_name.begin(), by_name.end(), ColourId{0});
  std::sort(by_name.begin(), by_name.end(),
            [&](ColourId a, ColourId b) { return repeat.colours()[a].name < repeat.colours()[b].name; });
  std::vector<Colour> colours;
  std::vector<ColourId> now(by_name.size());
  for (const ColourId colour : by_name) {
    now[colour] = static_cast<ColourId>(colours.size());
    colours.push_back(repeat.colours()[colour]);
  }
  std::vector<Section> first;
  std::vector<Section> sections = repeat.sections();
  for (Section& section : sections) section.colour = now[section.colour];
  const auto before = [](const Section& a, const Section& b) {
    return std::tuple(a.colour, a.length, a.plus_minus) < std::tuple(b.colour, b.length, b.plus_minus);
  };
  for (std::size_t turn = 0; turn < sections.size(); ++turn) {
    if (first.empty() ||
        std::lexicographical_compare(sections.begin(), sections.end(), first.begin(), first.end(), before)) {
      first = sections;
    }
    std::rotate(sections.begin(), sections.begin() + 1, sections.end());
  }
  return Repeat(std::move(colours), std::move(first));
}

}  // namespace

ReadingNeeded reading_needed(const Yarn& yarn, const MatchOptions& options) {
  Yarn same = yarn;
  same.repeat = in_one_order(yarn.repeat);
  const std::vector<double> all = Strands(same, options).needed();
  ReadingNeeded result;
  if (all.empty()) return result;
  const double nine = all[all.size() * 9 / 10];
  if (nine < never) result.nine_in_ten = Length::cm(nine);
  const double worst = all[all.size() * 49 / 50];
  if (worst < never) result.at_worst = Length::cm(worst);
  return result;
}

std::vector<LookAlike> look_alikes(const Repeat& repeat) {
  const std::size_t size = repeat.size();
  std::vector<LookAlike> found;
  if (hidden_repeats(repeat) > 1) return found;
  const std::vector<Section>& sections = repeat.sections();
  const auto same = [&](std::size_t a, std::size_t b) { return alike(sections[a % size], sections[b % size]); };
  const auto one_colour = [&](std::size_t a, std::size_t b) {
    return sections[a % size].colour == sections[b % size].colour;
  };
  for (std::size_t a = 0; a < size; ++a) {
    for (std::size_t b = a + 1; b < size; ++b) {
      if (!one_colour(a, b)) continue;
      // The loose end lies somewhere in the first, and the last is open: only those between are read whole.
      const bool goes_on_before = one_colour(a + size - 1, b + size - 1) && same(a, b);
      LookAlike one{a, b, 1};
      while (one.sections < size && one_colour(a + one.sections, b + one.sections) &&
             (one.sections == 1 || same(a + one.sections - 1, b + one.sections - 1))) {
        ++one.sections;
      }
      if (!goes_on_before && (one.sections > 1 || same(a, b))) found.push_back(one);
    }
  }
  std::stable_sort(found.begin(), found.end(),
                   [](const LookAlike& a, const LookAlike& b) { return a.sections > b.sections; });
  return found;
}

}  // namespace ballchange
