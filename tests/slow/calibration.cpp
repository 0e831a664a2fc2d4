#include "slow/calibration.hpp"

#include "slow/slow_match.hpp"

namespace ballchange::slow {
namespace {

bool holds(const Placing& placing, Length place, Length repeat) {
  // The interval isn't wrapped: the true place is taken once round the circle to where the interval is.
  const Length near = placing.place + nearest(place - placing.place, repeat);
  return placing.low <= near && near <= placing.high;
}

void count(Tally& tally, const Placing& placing, const Sample& sample) {
  ++tally.strands;
  tally.no_fit += placing.verdict == Verdict::no_fit;
  if (placing.candidates.empty()) return;
  const Truth& truth = sample.strand.truth();
  const bool found = right(placing.best(), truth);
  if (placing.verdict == Verdict::settled) {
    ++tally.settled;
    tally.settled_right += found;
    tally.settled_said += placing.probability();
  }
  if (!found || sample.reading.bar_at_loose_end || sample.reading.entries.size() < 2) return;
  ++tally.placed;
  tally.held += holds(placing, truth.place, sample.yarn.repeat.total());
}

}  // namespace

Sample random_sample(Random& random) {
  Yarn yarn = random_yarn(random);
  MatchOptions options;
  const double kind = random.uniform();
  if (kind < 0.1) options.wound = Wound::hand;
  if (kind > 0.9) options.worked = Worked::other_end;
  const Hand hand = random_hand(random, yarn.reckoning);
  const End end = random.below(2) == 0 ? End::new_end : End::old_end;
  Strand strand(yarn, options, end, random.uniform() < 0.1, hand, random);
  const double stop = random.uniform();
  if (stop < 0.75) {
    const Length measured = (0.15 + 1.1 * random.uniform()) * yarn.repeat.total();
    return {yarn, options, strand, strand.read(measured), measured};
  }
  const bool bar = stop < 0.88;
  const std::size_t entries = 1 + random.below(4);
  return {yarn, options, strand, strand.read_entries(entries, bar), strand.measured_in(entries, bar)};
}

bool right(const Candidate& candidate, const Truth& truth) {
  return candidate.direction == truth.direction && candidate.boundary == truth.boundary;
}

Tally calibrate(std::uint64_t seed, std::size_t strands) {
  Tally tally;
  Random random(seed);
  while (tally.strands < strands) {
    const Sample sample = random_sample(random);
    Matcher matcher(sample.yarn);
    count(tally, matcher.match(sample.reading, sample.options), sample);
  }
  return tally;
}

Shares settled_shares(std::uint64_t seed, std::size_t strands) {
  Random random(seed);
  std::size_t fast = 0;
  std::size_t slow = 0;
  for (std::size_t number = 0; number < strands;) {
    const Sample sample = random_sample(random);
    if (sample.reading.entries.size() > 6) continue;
    ++number;
    Matcher matcher(sample.yarn);
    fast += matcher.match(sample.reading, sample.options).verdict == Verdict::settled;
    const Posterior posterior = slow_match(sample.yarn, sample.reading, sample.options);
    slow += !posterior.candidates.empty() && posterior.candidates.front().probability >= sample.options.sure;
  }
  const auto all = static_cast<double>(strands);
  return {static_cast<double>(fast) / all, static_cast<double>(slow) / all};
}

MoreTally measure_more(std::uint64_t seed, std::size_t unsettled) {
  MoreTally tally;
  Random random(seed);
  while (tally.unsettled < unsettled) {
    const Sample sample = random_sample(random);
    Matcher matcher(sample.yarn);
    if (matcher.match(sample.reading, sample.options).verdict != Verdict::unsettled) continue;
    ++tally.unsettled;
    const Placing placing = place_reading(sample.yarn, sample.reading, sample.options);
    if (!placing.measure_more) continue;
    ++tally.asked;
    const Reading longer = sample.strand.read_on(sample.reading, sample.measured + *placing.measure_more);
    tally.settled += matcher.match(longer, sample.options).verdict == Verdict::settled;
  }
  return tally;
}

}  // namespace ballchange::slow
