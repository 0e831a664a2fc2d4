#include "measure/doubts.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

namespace ballchange::measuring {
namespace {

constexpr double worth_a_word = 0.01;

// Where `other` has the same lengths, but at most `most_open` other names: their sections in `one`.
std::optional<std::vector<std::size_t>> other_names(const Circle& one, const Circle& other) {
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
    if (same && !sections.empty()) return sections;
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

NamesOpen merge_names(std::vector<Weighed>& weighed, std::size_t known_colours) {
  NamesOpen open;
  double others = 0;
  for (std::size_t n = 1; n < weighed.size();) {
    const auto sections = other_names(weighed.front().circle, weighed[n].circle);
    const double less = std::exp(weighed[n].evidence - weighed.front().evidence);
    if (!sections || less < worth_a_word || !all_slip(weighed.front(), *sections)) {
      ++n;
      continue;
    }
    others += less;
    const double evidence = weighed.front().evidence;
    open.sections.insert(open.sections.end(), sections->begin(), sections->end());
    if (rank(weighed[n], known_colours) > rank(weighed.front(), known_colours)) {
      // Its sections may be numbered from elsewhere.
      open.sections = *other_names(weighed[n].circle, weighed.front().circle);
      std::swap(weighed.front(), weighed[n]);
      weighed.front().evidence = evidence;
    }
    weighed.erase(weighed.begin() + static_cast<std::ptrdiff_t>(n));
  }
  if (others > 0) weighed.front().evidence += std::log1p(others);
  open.share = others / (1 + others);
  return open;
}

void ask_names(Learnt& learnt, const Weighed& best, const NamesOpen& names) {
  std::vector<TakenAs> asked;
  for (const Slip& slip : best.slips) {
    if (std::find(names.sections.begin(), names.sections.end(), slip.section) == names.sections.end()) continue;
    asked.push_back({slip.strand, slip.entry, slip.written, best.circle[slip.section].colour});
  }
  if (asked.empty()) return;
  learnt.verdict = LearnVerdict::misnamed;
  learnt.taken = std::move(asked);
}

void ask_missing(Learnt& learnt, const Weighed& best) {
  const auto is_section = [&](ColourId colour) {
    return std::any_of(best.circle.begin(), best.circle.end(),
                       [&](const Patch& patch) { return patch.colour == colour; });
  };
  std::vector<TakenAs> asked;
  for (const Slip& slip : best.slips) {
    if (is_section(slip.written)) continue;
    const bool elsewhere = std::any_of(best.slips.begin(), best.slips.end(), [&](const Slip& other) {
      return other.written == slip.written && other.strand != slip.strand;
    });
    if (elsewhere) asked.push_back({slip.strand, slip.entry, slip.written, best.circle[slip.section].colour});
  }
  if (asked.empty()) return;
  learnt.verdict = LearnVerdict::misnamed;
  learnt.taken = std::move(asked);
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

void tell_doubts(Learnt& learnt, const Weighed& best, const std::vector<MatchOptions>& match,
                 std::size_t known_colours) {
  for (const std::size_t strand : best.backward) {
    const bool expected = match[strand].worked == Worked::other_end || match[strand].wound == Wound::hand;
    if (!expected) learnt.other_way.push_back(strand);
  }
  for (const Slip& slip : best.slips) {
    learnt.taken.push_back({slip.strand, slip.entry, slip.written, best.circle[slip.section].colour});
  }
  if (learnt.verdict != LearnVerdict::found || known_colours == 0) return;
  const auto known = [&](const TakenAs& one) { return one.written < known_colours; };
  if (std::all_of(learnt.taken.begin(), learnt.taken.end(), known)) return;
  learnt.verdict = LearnVerdict::unknown_colour;
  learnt.taken.erase(std::remove_if(learnt.taken.begin(), learnt.taken.end(), known), learnt.taken.end());
}

}  // namespace ballchange::measuring
