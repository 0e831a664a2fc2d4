#include "measure/again.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

#include "measure/doubts.hpp"

namespace ballchange::measuring {

Bound total_of(const LearnOptions& options) {
  Bound bound;
  if (!options.total) return bound;
  bound.total = options.total->cm();
  bound.total_sd = std::hypot(options.ball_plus_minus, total_known_to) * options.total->cm();
  return bound;
}

std::vector<Patch> prior_of(const LearnOptions& options) {
  std::vector<Patch> prior;
  if (!options.believed) return prior;
  for (const Section& section : options.believed->sections()) {
    prior.push_back({section.colour, section.length.cm(), section.plus_minus.cm()});
  }
  return prior;
}

bool mirrored_if_longer(const Readable& readable, const Lore& lore, const LearnOptions& options) {
  double longest = 0;
  for (const matching::Observed& strand : readable.strands) {
    double read = 0;
    for (const matching::Measured& entry : strand.entries) read += entry.known ? entry.length : 0;
    longest = std::max(longest, read);
  }
  for (const double times : {1.05, 1.15, 1.3}) {
    if (longest * times <= options.total->cm()) continue;
    LearnOptions longer = options;
    longer.total = Length::cm(longest * times);
    const LearnVerdict verdict = what_they_say(readable, lore, longer).verdict;
    if (verdict == LearnVerdict::found || verdict == LearnVerdict::unsure) return true;
  }
  return false;
}

void ask_if_new(Learnt& learnt, const Readable& readable, const Lore& lore, const LearnOptions& options) {
  const bool stuck = learnt.verdict == LearnVerdict::no_fit || learnt.verdict == LearnVerdict::too_little;
  if (!stuck || options.known_colours == 0) return;
  Readable others;
  std::optional<TakenAs> asked;
  for (std::size_t s = 0; s < readable.strands.size(); ++s) {
    const auto& entries = readable.strands[s].entries;
    const auto unknown = std::find_if(entries.begin(), entries.end(), [&](const matching::Measured& entry) {
      return entry.colour >= options.known_colours;
    });
    if (unknown == entries.end()) {
      others.strands.push_back(readable.strands[s]);
      others.match.push_back(readable.match[s]);
      others.numbers.push_back(readable.numbers[s]);
    } else if (!asked) {
      const auto entry = static_cast<std::size_t>(unknown - entries.begin());
      asked = TakenAs{readable.numbers[s], entry, unknown->colour, unknown->colour};
    }
  }
  if (!asked || (others.strands.empty() && !options.believed)) return;
  if (!others.strands.empty() && what_they_say(others, lore, options).verdict != LearnVerdict::found) return;
  learnt = {};
  learnt.verdict = LearnVerdict::new_colour;
  learnt.taken = {*asked};
}

namespace {

// Two entries to be read as if each stood in the other's place.
struct Exchange {
  std::size_t strand = 0, first = 0, second = 0;
  Exchanged what = Exchanged::names;
};

// Logarithm of how rare it is to write two entries in each other's place; common practice, no source.
const double as_rare = std::log(1e-3);
constexpr std::uint64_t enough_work = 1'000'000;  // some tenths of a second
constexpr std::size_t farthest = 2;               // entries from each other, but for names that changed places

bool worth_asking(LearnVerdict verdict) {
  return verdict == LearnVerdict::found || verdict == LearnVerdict::unsure || verdict == LearnVerdict::misnamed ||
         verdict == LearnVerdict::no_fit;
}

// No two neighbours of one colour: such entries would have been added up.
bool reads(const std::vector<matching::Measured>& entries) {
  return std::adjacent_find(entries.begin(), entries.end(),
                            [](const auto& a, const auto& b) { return a.colour == b.colour; }) == entries.end();
}

Readable exchanged(const Readable& readable, const Exchange& exchange) {
  Readable result = readable;
  auto& entries = result.strands[exchange.strand].entries;
  matching::Measured& first = entries[exchange.first];
  matching::Measured& second = entries[exchange.second];
  if (exchange.what != Exchanged::names) std::swap(first, second);
  if (exchange.what != Exchanged::both) std::swap(first.colour, second.colour);
  return result;
}

bool is_odd(const Weighed& best, std::size_t strand, std::size_t entry) {
  return std::any_of(best.odd.begin(), best.odd.end(),
                     [&](const Oddity& one) { return one.strand == strand && one.entry == entry; });
}

// A length that was left out was not written in another's place.
bool tells_something(const Exchange& exchange, const Readable& readable) {
  const auto& entries = readable.strands[exchange.strand].entries;
  const bool known = entries[exchange.first].known && entries[exchange.second].known;
  return (known || exchange.what != Exchanged::lengths) &&
         reads(exchanged(readable, exchange).strands[exchange.strand].entries);
}

void add(std::vector<Exchange>& found, std::size_t strand, std::size_t first, std::size_t second) {
  for (const Exchanged what : {Exchanged::names, Exchanged::lengths, Exchanged::both}) {
    found.push_back({strand, first, second, what});
  }
}

// Each written as the other's section is called.
void add_names_that_changed_places(std::vector<Exchange>& found, const Weighed& best) {
  for (const Slip& a : best.slips) {
    for (const Slip& b : best.slips) {
      const bool far = a.strand == b.strand && b.entry > a.entry + farthest;
      const bool both = a.written == best.circle[b.section].colour && b.written == best.circle[a.section].colour;
      if (far && both) add(found, a.strand, a.entry, b.entry);
    }
  }
}

// The strand that fits nothing, as `readable` counts them.
std::optional<std::size_t> stuck_in(const Learnt& learnt, const std::optional<Weighed>& best,
                                    const Readable& readable) {
  if (learnt.verdict != LearnVerdict::no_fit) return best ? best->unfitting : std::nullopt;
  const auto at = std::find(readable.numbers.begin(), readable.numbers.end(), learnt.strand);
  return static_cast<std::size_t>(at - readable.numbers.begin());
}

// Those about what is odd, and all of a strand that fits nothing.
std::vector<Exchange> worth_trying(const std::optional<Weighed>& best, std::optional<std::size_t> stuck,
                                   const Readable& readable) {
  std::vector<Exchange> found;
  if (best && !stuck) add_names_that_changed_places(found, *best);
  for (std::size_t s = 0; s < readable.strands.size(); ++s) {
    const auto& entries = readable.strands[s].entries;
    if (stuck && *stuck != s) continue;
    for (std::size_t a = 0; a < entries.size(); ++a) {
      for (std::size_t b = a + 1; b < std::min(entries.size(), a + farthest + 1); ++b) {
        const bool odd = stuck || is_odd(*best, s, a) || is_odd(*best, s, b);
        if (odd && entries[a].colour != entries[b].colour) add(found, s, a, b);
      }
    }
  }
  return found;
}

struct Against {
  std::vector<Circle> circles;
  Bound bound;
};

// What the strands may be of once two entries are exchanged: the one that was known; or the repeat that was best, also
// without what is only in it for those two.
Against to_try(const std::optional<Weighed>& best, const LearnOptions& options) {
  Against against{{}, total_of(options)};
  against.bound.prior = prior_of(options);
  if (options.believed) {
    against.circles.push_back(against.bound.prior);
    return against;
  }
  if (!best) return against;
  against.circles.push_back(best->circle);
  for (const std::size_t section : best->passed_over) {
    Circle fewer = best->circle;
    fewer.erase(fewer.begin() + static_cast<std::ptrdiff_t>(section));
    if (closes(fewer)) against.circles.push_back(std::move(fewer));
  }
  return against;
}

bool slips_there(const Weighed& one, const Exchange& exchange) {
  return std::any_of(one.slips.begin(), one.slips.end(), [&](const Slip& slip) {
    return slip.strand == exchange.strand && (slip.entry == exchange.first || slip.entry == exchange.second);
  });
}

// How likely the strands are where that one has nothing to do with the others; what is told of it otherwise must be
// likelier. Nothing where no circle fits the others, or there are none.
std::optional<double> without(std::size_t stuck, const Against& against, const Readable& readable, const Lore& lore,
                              const LearnOptions& options) {
  Readable others = readable;
  const auto at = static_cast<std::ptrdiff_t>(stuck);
  const std::vector<matching::Observed> only{readable.strands[stuck]};
  const std::vector<MatchOptions> of_it{readable.match[stuck]};
  others.strands.erase(others.strands.begin() + at);
  others.match.erase(others.match.begin() + at);
  const bool believed = options.believed.has_value();
  const double alone = Scales(lore, only, of_it, options.ball_plus_minus, believed).nothing_recurs();
  if (others.strands.empty() && !options.believed) return alone;
  Scales scales(lore, others.strands, others.match, options.ball_plus_minus, believed);
  std::optional<double> most;
  for (const Circle& circle : against.circles) {
    const std::optional<Weighed> one = scales.weigh(circle, against.bound);
    if (one) most = std::max(most.value_or(one->evidence), one->evidence);
  }
  return most ? std::optional<double>(*most + alone) : std::nullopt;
}

// The exchange that makes the strands likeliest, where that is more than `to_beat`.
std::optional<Exchange> likeliest(const std::vector<Exchange>& exchanges, const Against& against, double to_beat,
                                  const Readable& readable, const Lore& lore, const LearnOptions& options) {
  std::optional<Exchange> asked;
  std::uint64_t work = 0;
  for (const Exchange& exchange : exchanges) {
    if (work > enough_work) break;
    if (!tells_something(exchange, readable)) continue;
    const Readable other = exchanged(readable, exchange);
    Scales scales(lore, other.strands, other.match, options.ball_plus_minus, options.believed.has_value());
    for (const Circle& circle : against.circles) {
      const std::optional<Weighed> one = scales.weigh(circle, against.bound);
      if (!one || one->unfitting || one->evidence <= to_beat || slips_there(*one, exchange)) continue;
      to_beat = one->evidence;
      asked = exchange;
    }
    work += scales.work();
  }
  return asked;
}

}  // namespace

void ask_if_exchanged(Learnt& learnt, const std::optional<Weighed>& best, const Readable& readable, const Lore& lore,
                      const LearnOptions& options) {
  if (!worth_asking(learnt.verdict) || options.mirrored) return;
  const std::optional<std::size_t> stuck = stuck_in(learnt, best, readable);
  const Against against = to_try(best, options);
  const std::optional<double> now = stuck  ? without(*stuck, against, readable, lore, options)
                                    : best ? std::optional<double>(best->evidence)
                                           : std::nullopt;
  if (!now) return;
  const double to_beat = *now + std::log((1 - options.sure) / options.sure) - as_rare;
  const auto asked = likeliest(worth_trying(best, stuck, readable), against, to_beat, readable, lore, options);
  if (!asked) return;
  Learnt mended = what_they_say(exchanged(readable, *asked), lore, options);
  if (mended.verdict != LearnVerdict::found) return;
  learnt = std::move(mended);
  learnt.verdict = LearnVerdict::exchanged;
  learnt.exchanged = asked->what;
  const auto& entries = readable.strands[asked->strand].entries;
  const ColourId first = entries[asked->first].colour, second = entries[asked->second].colour;
  const std::size_t strand = readable.numbers[asked->strand];
  const bool names = asked->what != Exchanged::lengths;
  learnt.taken = {{strand, asked->first, first, names ? second : first},
                  {strand, asked->second, second, names ? first : second}};
}

}  // namespace ballchange::measuring
