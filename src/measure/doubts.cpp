#include "measure/doubts.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

namespace ballchange::measuring {
namespace {

constexpr double worth_a_word = 0.01;

// Section k of one circle is section k + turn of another.
struct Renamed {
  std::size_t turn = 0;
  std::vector<std::size_t> sections;  // of the one, that bear another name in the other
};

// Where `other` has the same lengths, but at most `most_open` other names.
std::optional<Renamed> other_names(const Circle& one, const Circle& other) {
  constexpr std::size_t most_open = 2;
  const std::size_t size = one.size();
  if (other.size() != size || size <= most_open) return std::nullopt;
  for (std::size_t turn = 0; turn < size; ++turn) {
    std::vector<std::size_t> sections;
    bool same = true;
    for (std::size_t k = 0; k < size && same; ++k) {
      const Patch& patch = other[(k + turn) % size];
      same = std::abs(one[k].length - patch.length) <= one[k].sd + patch.sd;
      if (one[k].colour != patch.colour) sections.push_back(k);
      same = same && sections.size() <= most_open;
    }
    if (same && !sections.empty()) return Renamed{turn, std::move(sections)};
  }
  return std::nullopt;
}

bool all_slip(const Weighed& one, const std::vector<std::size_t>& sections) {
  return std::all_of(sections.begin(), sections.end(), [&](std::size_t section) {
    return std::any_of(one.slips.begin(), one.slips.end(), [&](const Slip& slip) { return slip.section == section; });
  });
}

// Higher the more of its slips bear names that aren't known, and then the later they were written.
std::pair<std::size_t, std::vector<std::pair<std::size_t, std::size_t>>> rank(const Weighed& one,
                                                                              std::size_t known_colours) {
  std::pair<std::size_t, std::vector<std::pair<std::size_t, std::size_t>>> result;
  for (const Slip& slip : one.slips) {
    result.first += slip.written >= known_colours ? 1 : 0;
    result.second.emplace_back(slip.strand, slip.entry);
  }
  return result;
}

bool has_first(const std::vector<std::size_t>& strands) { return !strands.empty() && strands.front() == 0; }

}  // namespace

double merge_mirror(std::vector<Weighed>& weighed) {
  // A strand more that runs one way makes it 49 times as likely, as many one way as the other 1: halfway between them.
  constexpr double as_many = 1.0 / 7;
  if (weighed.size() < 2) return 0;
  Weighed& best = weighed.front();
  Circle mirror = best.circle;
  std::reverse(mirror.begin(), mirror.end());
  const auto twin = std::find_if(weighed.begin() + 1, weighed.end(),
                                 [&](const Weighed& other) { return same_sections(other.circle, mirror); });
  if (twin == weighed.end() || has_first(twin->backward) == has_first(best.backward)) return 0;
  const double less = std::exp(twin->evidence - best.evidence);
  if (less < worth_a_word) return 0;
  const double both = best.evidence + std::log1p(less);
  if (less > as_many && has_first(best.backward)) std::swap(best, *twin);
  best.evidence = both;
  weighed.erase(twin);
  return less / (1 + less);
}

namespace {

// Those that differ from the first in names alone become one with it.
NamesOpen merge_with_first(std::vector<Weighed>& weighed, std::size_t known_colours, double sure) {
  NamesOpen open;
  double others = 0;
  for (std::size_t n = 1; n < weighed.size();) {
    const auto differing = other_names(weighed.front().circle, weighed[n].circle);
    const double less = std::exp(weighed[n].evidence - weighed.front().evidence);
    if (!differing || less < worth_a_word || !all_slip(weighed.front(), differing->sections)) {
      ++n;
      continue;
    }
    others += less;
    open.sections.insert(open.sections.end(), differing->sections.begin(), differing->sections.end());
    if (rank(weighed[n], known_colours) > rank(weighed.front(), known_colours)) {
      std::swap(weighed.front(), weighed[n]);
      std::swap(weighed.front().evidence, weighed[n].evidence);
      const std::size_t size = weighed.front().circle.size();
      for (std::size_t& section : open.sections) section = (section + differing->turn) % size;
    }
    weighed.erase(weighed.begin() + static_cast<std::ptrdiff_t>(n));
  }
  weighed.front().evidence += std::log1p(others);
  return others / (1 + others) > 1 - sure ? open : NamesOpen{};
}

}  // namespace

NamesOpen merge_names(std::vector<Weighed>& weighed, std::size_t known_colours, double sure) {
  std::vector<std::pair<Weighed, NamesOpen>> merged;
  const double best = weighed.empty() ? 0 : weighed.front().evidence;
  // Two that are one may be likelier together than the best.
  while (!weighed.empty() && weighed.front().evidence >= best + std::log(worth_a_word)) {
    NamesOpen open = merge_with_first(weighed, known_colours, sure);
    merged.emplace_back(std::move(weighed.front()), std::move(open));
    weighed.erase(weighed.begin());
  }
  std::stable_sort(merged.begin(), merged.end(),
                   [](const auto& a, const auto& b) { return a.first.evidence > b.first.evidence; });
  for (std::size_t n = 0; n < merged.size(); ++n) {
    weighed.insert(weighed.begin() + static_cast<std::ptrdiff_t>(n), std::move(merged[n].first));
  }
  return merged.empty() ? NamesOpen{} : std::move(merged.front().second);
}

namespace {

bool has_section(const Circle& circle, ColourId colour) {
  return std::any_of(circle.begin(), circle.end(), [&](const Patch& patch) { return patch.colour == colour; });
}
bool has_section(const Repeat& repeat, ColourId colour) {
  return std::any_of(repeat.sections().begin(), repeat.sections().end(),
                     [&](const Section& section) { return section.colour == colour; });
}

template <class Which>
std::vector<TakenAs> slips_of(const Weighed& best, const Which& which) {
  std::vector<TakenAs> found;
  for (const Slip& slip : best.slips) {
    if (which(slip)) found.push_back({slip.strand, slip.entry, slip.written, best.circle[slip.section].colour});
  }
  return found;
}

// Of sections with two names.
std::vector<TakenAs> open_slips(const Weighed& best, const NamesOpen& names) {
  return slips_of(best, [&](const Slip& slip) {
    return std::find(names.sections.begin(), names.sections.end(), slip.section) != names.sections.end();
  });
}

// A name that is no section's, though several strands have it, is rarely a slip.
std::vector<TakenAs> missing_slips(const Weighed& best) {
  return slips_of(best, [&](const Slip& slip) {
    return !has_section(best.circle, slip.written) &&
           std::any_of(best.slips.begin(), best.slips.end(),
                       [&](const Slip& other) { return other.written == slip.written && other.strand != slip.strand; });
  });
}

// Neither the name nor the length of its section.
std::vector<TakenAs> far_slips(const Weighed& best) {
  return slips_of(best, [](const Slip& slip) { return slip.off; });
}

void ask(Learnt& learnt, std::vector<TakenAs> asked) {
  if (asked.empty()) return;
  learnt.verdict = LearnVerdict::misnamed;
  learnt.measure_more.reset();
  learnt.taken = std::move(asked);
}

void tell_other_way(Learnt& learnt, const Weighed& best, const std::vector<MatchOptions>& match) {
  for (const std::size_t strand : best.backward) {
    const bool expected = match[strand].worked == Worked::other_end || match[strand].wound == Wound::hand;
    if (!expected) learnt.other_way.push_back(strand);
  }
}

void ask_unknown(Learnt& learnt, std::size_t known_colours) {
  const auto known = [&](const TakenAs& one) { return one.written < known_colours; };
  if (known_colours == 0 || std::all_of(learnt.taken.begin(), learnt.taken.end(), known)) return;
  learnt.verdict = LearnVerdict::unknown_colour;
  learnt.taken.erase(std::remove_if(learnt.taken.begin(), learnt.taken.end(), known), learnt.taken.end());
}

}  // namespace

void ask_what_settles(Learnt& learnt, const Weighed& best, const NamesOpen& names, double sure) {
  std::vector<TakenAs> asked = open_slips(best, names);
  if (asked.empty()) asked = slips_of(best, [&](const Slip& slip) { return !has_section(best.circle, slip.written); });
  double sum = learnt.best().chance;
  for (std::size_t n = 1; n < learnt.repeats.size(); ++n) {
    const Repeat& other = learnt.repeats[n].repeat;
    const bool of_both_names = std::any_of(asked.begin(), asked.end(), [&](const TakenAs& one) {
      return has_section(other, one.written) && has_section(other, one.taken);
    });
    if (of_both_names) sum += learnt.repeats[n].chance;
  }
  if (sum >= sure) ask(learnt, std::move(asked));
}

void tell_doubts(Learnt& learnt, const Weighed& best, const NamesOpen& names, const std::vector<MatchOptions>& match,
                 std::size_t known_colours) {
  tell_other_way(learnt, best, match);
  learnt.taken = slips_of(best, [](const Slip& /*any*/) { return true; });
  if (learnt.verdict == LearnVerdict::found) ask_unknown(learnt, known_colours);
  if (learnt.verdict == LearnVerdict::found) ask(learnt, open_slips(best, names));
  if (learnt.verdict == LearnVerdict::found && match.size() > 1) ask(learnt, missing_slips(best));
  if (learnt.verdict == LearnVerdict::found) ask(learnt, far_slips(best));
}

LearntRepeat as_told(const Weighed& weighed, double chance, const LearnOptions& options, const Lore& lore) {
  Circle circle = weighed.circle;
  std::vector<std::size_t> times;
  double total = 0;
  for (const Patch& patch : circle) total += patch.length;
  const double scale = options.total ? options.total->cm() / total : 1;
  for (std::size_t k = 0; k < circle.size(); ++k) {
    times.push_back(weighed.seen[k].times);
    if (times.back() < 2 && !options.believed) circle[k].sd = usual_plus_minus(Length::cm(circle[k].length)).cm();
    circle[k].length *= scale;
    circle[k].sd *= scale;
  }
  const auto begin = options.believed ? 0 : static_cast<std::ptrdiff_t>(weighed.begin);
  std::rotate(circle.begin(), circle.begin() + begin, circle.end());
  std::rotate(times.begin(), times.begin() + begin, times.end());
  return {yarn_of(circle, lore, 0).repeat, std::move(times), chance};
}

std::optional<LearnVerdict> contradicted(const Learnt& alone, const LearnOptions& options) {
  constexpr double rather_than_not = 0.5;
  constexpr double deviations = 4;
  if (alone.repeats.empty() || alone.misread || alone.verdict == LearnVerdict::no_fit) return std::nullopt;
  if (alone.best().chance < rather_than_not) return std::nullopt;
  const Repeat& repeat = alone.best().repeat;
  double variance = std::pow(std::hypot(options.ball_plus_minus, total_known_to) * options.total->cm(), 2);
  for (const Section& section : repeat.sections()) variance += std::pow(section.plus_minus.cm(), 2);
  if (abs(repeat.total() - *options.total).cm() > deviations * std::sqrt(variance)) return LearnVerdict::other_total;
  if (options.mirrored && !mirror_axis(repeat)) return LearnVerdict::not_mirrored;
  return std::nullopt;
}

}  // namespace ballchange::measuring
