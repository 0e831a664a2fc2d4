#include "measure/learn.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

#include "measure/again.hpp"
#include "measure/by_colours.hpp"
#include "measure/doubts.hpp"
#include "measure/more.hpp"
#include "measure/near.hpp"
#include "measure/parts.hpp"
#include "measure/propose.hpp"
#include "measure/told.hpp"
#include "measure/weigh.hpp"

namespace ballchange {

using namespace measuring;

namespace {

constexpr std::size_t most_proposals = 6;  // of one strand
constexpr std::size_t most_slips = 6;      // a circle with more of them is no good, with or without
constexpr double far_behind = 20;          // logarithm of how much less likely
constexpr double worth_listing = 0.01;
constexpr std::size_t most_doubled = 24;        // sections
constexpr std::uint64_t most_work = 6'000'000;  // some two seconds
constexpr std::size_t changes_to_be_sure = 3;   // that come again, when all is well
constexpr double worth_a_word = 0.05;           // that a told total is longer or shorter than what was measured
constexpr std::uint64_t little_work = 100'000;  // to be done again for every step a strand might go on

class Learning {
 public:
  Learning(Readable given, const Lore& lore, const LearnOptions& options)
      : strands_(std::move(given.strands)),
        match_(std::move(given.match)),
        numbers_(std::move(given.numbers)),
        lore_(lore),
        options_(options),
        scales_(lore_, strands_, match_, options.ball_plus_minus, options.believed.has_value()),
        bound_(total_of(options)) {
    for (const matching::Observed& strand : strands_) lines_.push_back(line_of(strand));
  }

  [[nodiscard]] Learnt run() {
    Learnt learnt = weigh_all();
    const bool too_little = learnt.verdict == LearnVerdict::too_little;
    if (too_little && lines_.size() == 1) ask_what_lacks(learnt);
    if (too_little || learnt.verdict == LearnVerdict::unsure) more_by_going_on(learnt);
    return learnt;
  }

  // Without how much more to measure.
  [[nodiscard]] Learnt weigh_all() {
    if (options_.believed) {
      weigh_believed();
      stuck_ = scales_.stuck();
    }
    if (options_.mirrored && options_.total) {
      weigh_there_and_back();
    } else {
      weigh_proposals();
      if (!options_.believed) weigh_slips();
      if (!options_.believed && lines_.size() > 1) weigh_near();
    }
    keep_fitting(weighed_);
    keep_distinct(weighed_);
    const bool turned = !options_.believed && merge_mirror(weighed_) > 1 - options_.sure;
    NamesOpen names;
    if (!options_.believed) names = merge_names(weighed_, options_.known_colours, options_.sure);
    Learnt learnt = answer();
    if (learnt.verdict == LearnVerdict::found) {
      if (turned) learnt.verdict = LearnVerdict::turned;
      tell_doubts(learnt, weighed_.front(), names, match_, options_.known_colours);
      for (const std::size_t strand : weighed_.front().backward) learnt.backward.push_back(numbers_[strand]);
    } else if (learnt.verdict == LearnVerdict::unsure && !learnt.misread && !turned) {
      ask_what_settles(learnt, weighed_.front(), names, options_.sure);
    }
    for (std::size_t& strand : learnt.other_way) strand = numbers_[strand];
    for (TakenAs& one : learnt.taken) one.strand = numbers_[one.strand];
    return learnt;
  }

  // What was likeliest, if anything was.
  [[nodiscard]] std::optional<Weighed> best() const {
    return weighed_.empty() ? std::nullopt : std::optional<Weighed>(weighed_.front());
  }

 private:
  void ask_what_lacks(Learnt& learnt) const {
    if (const auto colour = unmeasured_in(lines_.front())) {
      learnt.verdict = LearnVerdict::unmeasured;
      learnt.unmeasured = colour;
      learnt.measure_more.reset();
    } else if (begun_again(lines_.front())) {
      learnt.come_again = lines_.front().entries.front().colour;
    }
  }

  // Where the only strand has begun to come round it is measured on in thought, until that is believed.
  void more_by_going_on(Learnt& learnt) const {
    constexpr double beyond_a_change = 5;  // cm
    const bool alone = lines_.size() == 1 && !options_.total && !options_.believed && strands_[0].end == End::new_end;
    if (!alone || learnt.misread || scales_.work() > little_work) return;
    const auto size = begun_again(lines_.front());
    if (!size) return;
    for (GoneOn& step : gone_on(lines_.front(), *size, beyond_a_change)) {
      const ColourId until = step.entries.back().colour;
      Readable longer{strands_, match_, numbers_};
      longer.strands[0].entries = std::move(step.entries);
      longer.strands[0].bar_at_open_end = false;
      if (Learning(std::move(longer), lore_, options_).weigh_all().verdict != LearnVerdict::found) continue;
      learnt.measure_more = Length::cm(step.more);
      learnt.until = until;
      return;
    }
  }

  void weigh(Circle circle, const Bound& bound) {
    if (scales_.work() > most_work) return;
    const auto blank = std::find_if(circle.begin(), circle.end(), [](const Patch& patch) { return !patch.known(); });
    if (blank != circle.end()) {
      unmeasured_ = unmeasured_.value_or(blank->colour);
      return;
    }
    std::optional<Weighed> one = scales_.weigh(std::move(circle), bound);
    if (!one) return;
    const bool mirrors = bound.same_as.empty() || (one->slips.empty() && same_colours(one->circle, bound.same_as));
    if (!mirrors) {
      broken_mirror_ = true;
      return;
    }
    weighed_.push_back(std::move(*one));
  }

  void weigh_believed() {
    Bound bound = bound_;
    bound.prior = prior_of(options_);
    weigh(bound.prior, bound);
  }

  void weigh_there_and_back() {
    if (!turns_within()) return;
    for (const Line& line : lines_) {
      for (Circle& circle : there_and_back(line, options_.total->cm())) {
        Bound bound = bound_;
        bound.same_as = mirrored_pairs(circle.size());
        weigh(std::move(circle), bound);
      }
    }
  }

  void weigh_proposals() {
    std::vector<Line> all = lines_;
    if (lines_.size() > 1) {
      for (Line& line : laid_together(lines_, lore_, false)) all.push_back(std::move(line));
    }
    weigh_lines(all);
    // Parts that don't go together as they run may do so with some of them turned.
    const bool together = best_evidence() > scales_.nothing_recurs();
    if (lines_.size() > 1 && !options_.believed && !together) weigh_lines(laid_together(lines_, lore_, true));
  }

  void weigh_lines(const std::vector<Line>& lines) {
    for (const Line& line : lines) {
      for (Proposal& proposal : propose(line, lore_, most_proposals)) weigh(std::move(proposal.circle), bound_);
      if (!options_.total) continue;
      for (Circle& circle : of_total(line, options_.total->cm())) weigh(std::move(circle), bound_);
    }
  }

  // An entry under another name may as well be of a section that was passed over everywhere else, or be the one that
  // was named rightly.
  void weigh_slips() {
    std::vector<Circle> circles;
    const double best = best_evidence();
    for (const Weighed& one : weighed_) {
      if (one.slips.size() > most_slips || one.evidence < best - far_behind) continue;
      for (const Slip& slip : one.slips) {
        for (const std::size_t at : {slip.section, slip.section + 1}) {
          Circle circle = one.circle;
          const double splash = lore_.short_section.cm() * 0.8;
          const double length = slip.length > 0 ? std::min(splash, slip.length) : splash;
          circle.insert(circle.begin() + static_cast<std::ptrdiff_t>(at), Patch{slip.written, length, 0});
          if (closes(circle)) circles.push_back(std::move(circle));
        }
      }
      for (Circle& circle : renamed(one)) circles.push_back(std::move(circle));
    }
    for (Circle& circle : circles) weigh(std::move(circle), bound_);
  }

  // Parts that each pass over something of the repeat lead to circles with a section too many, or with two in one.
  void weigh_near() {
    constexpr std::size_t most_steps = 4;
    for (std::size_t step = 0; step < most_steps && !weighed_.empty(); ++step) {
      const Weighed best = *std::max_element(
          weighed_.begin(), weighed_.end(), [](const Weighed& a, const Weighed& b) { return a.evidence < b.evidence; });
      for (Circle& circle : one_fewer(best.circle)) weigh(std::move(circle), bound_);
      if (2 * best.circle.size() <= most_doubled) {
        for (Circle& circle : one_fewer(twice_round(best.circle))) weigh(std::move(circle), bound_);
      }
      if (best_evidence() <= best.evidence) return;
      weigh_slips();
    }
  }

  [[nodiscard]] double best_evidence() const {
    double best = -1e300;
    for (const Weighed& one : weighed_) best = std::max(best, one.evidence);
    return best;
  }

  // Long: the verdicts one after the other, each where those before it do not hold.
  [[nodiscard]] Learnt answer() const {
    Learnt learnt;
    if (weighed_.empty()) {
      if (unmeasured_) {
        learnt.verdict = LearnVerdict::unmeasured;
        learnt.unmeasured = unmeasured_;
      } else if (options_.believed) {
        learnt.verdict = LearnVerdict::no_fit;
        learnt.strand = numbers_[stuck_];
      } else if (broken_mirror_ && turns_within()) {
        learnt.verdict = LearnVerdict::not_mirrored;
      } else {
        too_little(learnt);
      }
      return learnt;
    }
    const Weighed& best = weighed_.front();
    // A known total, or a repeat that was known before, says that the yarn does come round.
    const bool comes_round = options_.total || options_.believed;
    double sum = comes_round ? 0 : std::exp(std::min(700.0, scales_.nothing_recurs() - best.evidence));
    for (const Weighed& one : weighed_) sum += std::exp(one.evidence - best.evidence) * (1 + more_there(one));
    for (const Weighed& one : weighed_) {
      const double chance = std::exp(one.evidence - best.evidence) / sum;
      if (chance > worth_listing || learnt.repeats.empty())
        learnt.repeats.push_back(as_told(one, chance, options_, lore_));
    }
    const bool only_strand = strands_.size() == 1 && !options_.believed;
    if (best.unfitting && !only_strand) {
      learnt.verdict = LearnVerdict::no_fit;
      learnt.strand = numbers_[*best.unfitting];
      return learnt;
    }
    const double chance = learnt.best().chance;
    learnt.misread = best.unfitting.has_value();
    learnt.verdict = chance >= options_.sure && !learnt.misread ? LearnVerdict::found : LearnVerdict::unsure;
    // Rather nothing than this: two colours happened to follow each other twice.
    if (chance < worth_believing) {
      too_little(learnt);
    } else if (!comes_round && may_be_misread(best)) {
      guess_by_colours(learnt);
    }
    if (learnt.verdict != LearnVerdict::found) ask_for_more(learnt);
    return learnt;
  }

  // Where the colours of the only strand come round all the same, a length in it was measured or written wrong.
  void too_little(Learnt& learnt) const {
    learnt.verdict = LearnVerdict::too_little;
    learnt.repeats.clear();
    ask_for_more(learnt);
    guess_by_colours(learnt);
  }

  void guess_by_colours(Learnt& learnt) const {
    const auto guess = lines_.size() == 1 ? by_colours(lines_.front()) : std::nullopt;
    learnt.misread = guess.has_value();
    if (!guess) return;
    learnt.verdict = LearnVerdict::unsure;
    learnt.repeats = {as_told(*guess, 0, options_, lore_)};
  }

  [[nodiscard]] bool may_be_misread(const Weighed& best) const {
    const auto guess = lines_.size() == 1 ? by_colours(lines_.front()) : std::nullopt;
    return guess && may_be_rounds_of(*guess, best);
  }

  [[nodiscard]] const Line& longest() const {
    return *std::max_element(lines_.begin(), lines_.end(),
                             [](const Line& a, const Line& b) { return read_of(a) < read_of(b); });
  }

  // Half of a hank turns back somewhere; less of it need not.
  [[nodiscard]] bool turns_within() const { return options_.total && 2 * read_of(longest()) >= options_.total->cm(); }

  // What was not seen of a total that was told. Otherwise the changes the longest strand begins with must come again,
  // and a few more so that it is no chance.
  void ask_for_more(Learnt& learnt) const {
    const Line& line = longest();
    if (options_.total && !options_.believed) {
      const double total = options_.total->cm();
      const double unseen = (options_.mirrored ? total / 2 : total) - read_of(line);
      learnt.part_unseen = leaves_open(unseen, total);
      if (learnt.part_unseen) {
        learnt.measure_more = Length::cm(unseen);
        return;
      }
    }
    learnt.measure_more = Length::cm(read_of(line, std::min(line.entries.size(), line.from + changes_to_be_sure)));
  }

  // That a total that was told holds more sections than the circle, against that it does not.
  [[nodiscard]] double more_there(const Weighed& one) const {
    if (!options_.total || options_.mirrored || options_.believed) return 0;
    double sum = 0;
    for (const Gap& gap : one.gaps) {
      const double length = one.circle[gap.section].length;
      if (!leaves_open(length - gap.begun - gap.ended, options_.total->cm())) continue;
      sum += std::exp(std::min(700.0, more_lies_there(gap, length, lore_)));
    }
    return sum;
  }

  static constexpr double worth_believing = 0.3;

  std::vector<matching::Observed> strands_;
  std::vector<MatchOptions> match_;
  std::vector<std::size_t> numbers_;
  const Lore& lore_;
  const LearnOptions& options_;
  Scales scales_;
  Bound bound_;
  std::vector<Line> lines_;
  std::vector<Weighed> weighed_;
  std::optional<ColourId> unmeasured_;
  std::size_t stuck_ = 0;
  bool broken_mirror_ = false;
};

}  // namespace

Learnt measuring::what_they_say(const Readable& readable, const Lore& lore, const LearnOptions& options) {
  return Learning(readable, lore, options).weigh_all();
}

Learnt learn(const std::vector<MeasuredStrand>& strands, const std::vector<Colour>& palette,
             const LearnOptions& options) {
  const Lore lore(palette, options.reckoning);
  Readable readable;
  for (std::size_t n = 0; n < strands.size(); ++n) {
    matching::Observed observed;
    matching::observe(strands[n].reading, strands[n].match, observed);
    // A strand of one colour tells nothing.
    if (!observed.sees_a_change()) continue;
    readable.strands.push_back(std::move(observed));
    readable.match.push_back(strands[n].match);
    readable.numbers.push_back(n);
  }
  if (readable.strands.empty()) return {};
  std::optional<Length> by_itself;
  if (options.total) {
    LearnOptions untold = options;
    untold.total.reset();
    untold.mirrored = false;
    Learnt alone = Learning(readable, lore, untold).run();
    if (const auto verdict = contradicted(alone, options)) {
      alone.verdict = *verdict;
      alone.measure_more.reset();
      return alone;
    }
    if (alone.verdict == LearnVerdict::found) by_itself = alone.best().repeat.total();
  }
  Learning learning(readable, lore, options);
  Learnt learnt = learning.run();
  if (learnt.verdict == LearnVerdict::not_mirrored && mirrored_if_longer(readable, lore, options)) {
    learnt.verdict = LearnVerdict::hank_too_short;
  }
  ask_if_new(learnt, readable, lore, options);
  ask_if_exchanged(learnt, learning.best(), readable, lore, options);
  if (by_itself && std::abs(*by_itself / *options.total - 1) > worth_a_word) learnt.by_itself = by_itself;
  return learnt;
}

}  // namespace ballchange
