#include <fmt/core.h>

#include <algorithm>

#include "base/text.hpp"
#include "show/measure.hpp"
#include "show/page.hpp"
#include "show/place.hpp"

namespace ballchange {
namespace {

constexpr std::size_t kAlike = 4;  // told
constexpr std::size_t kTakenTold = 3;
constexpr double kWorthTelling = 0.01;

class MeasurePage {
 public:
  MeasurePage(const MeasureShown& shown, const Screen& screen, Told told)
      : shown_(shown), learnt_(shown.learnt), page_(screen, told), told_(told) {}

  std::string take() {
    headline();
    told_twice();
    if (!learnt_.repeats.empty() && tells_repeat(learnt_.verdict)) {
      repeat();
      sure();
      other_length();
      doubts();
      if (shown_.yarn) about();
    }
    file();
    return page_.take();
  }

 private:
  [[nodiscard]] std::string more() const {
    return learnt_.measure_more ? at_least(*learnt_.measure_more, told_) : std::string("a whole repeat");
  }

  [[nodiscard]] std::string too_little() const {
    if (learnt_.part_unseen && shown_.strands == 1) return part_unseen();
    if (shown_.strands > 1) {
      return fmt::format(
          "Can't tell yet: no strand comes round again by itself, and how they follow each other isn't "
          "plain. Pieces that overlap more would do, by three or four colours with their whole lengths; "
          "or measure one on until the colours it began with have come again, about {} more.",
          more());
    }
    if (learnt_.come_again) {
      const std::string how_far = learnt_.until ? fmt::format(" until {} shows: about {} more, or less",
                                                              printable(name(*learnt_.until), 40), more())
                                                : fmt::format(", about {} more", more());
      return fmt::format("Can't tell yet: {} has come again, but that may be chance. Measure on{}.",
                         printable(name(*learnt_.come_again), 40), how_far);
    }
    return fmt::format(
        "Can't tell yet: the colours do not come round again. Measure on until those you "
        "began with have come again, about {} more.",
        more());
  }

  [[nodiscard]] std::string part_unseen() const {
    return fmt::format("Can't tell yet: {}. Measure on, about {} more.",
                       shown_.hank ? "less than half of the hank was seen" : "some of the repeat was not seen", more());
  }

  // Long: a table, what is said of each verdict.
  void headline() {
    switch (learnt_.verdict) {
      case LearnVerdict::found:
        return;
      case LearnVerdict::unsure:
        if (learnt_.misread) {
          return page_.say(
              "Can't tell yet: the strand comes round, but not all of it fits the repeat below. Measure again what "
              "differs from it, or another strand.");
        }
        if (learnt_.part_unseen && shown_.strands == 1) return page_.say(part_unseen());
        return page_.say(
            fmt::format("Can't tell yet: measure about {} more of the strand, from where you stopped, or another one; "
                        "less may do.",
                        more()));
      case LearnVerdict::too_little:
        return page_.say(too_little());
      case LearnVerdict::unmeasured:
        return page_.say(fmt::format("Can't tell yet: how long is {}? Its length is written down nowhere.",
                                     printable(shown_.palette[*learnt_.unmeasured].name, 40)));
      case LearnVerdict::no_fit:
        return page_.say(capital(fmt::format(
            "{} fits no repeat together with the rest: measure it again, or see whether it is the same yarn.",
            strand(learnt_.strand))));
      case LearnVerdict::turned:
        return page_.say(
            fmt::format("Can't tell yet: {} only the other way round. Measured from the ball's other end, or written "
                        "towards the loose end? Then write it last colour first; if {} was, write that so.",
                        strands_fit(learnt_.other_way), strand(first_usual())));
      case LearnVerdict::exchanged:
        return page_.say(exchanged());
      case LearnVerdict::misnamed: {
        const TakenAs& one = learnt_.taken.front();
        return page_.say(fmt::format(
            "Can't tell yet: is {0} of {1} (entry {2}) {3}? Then write it so, or {3} as "
            "{0}; if both are right, measure on.",
            printable(name(one.written), 40), strand(one.strand), one.entry + 1, printable(name(one.taken), 40)));
      }
      case LearnVerdict::unknown_colour:
        return page_.say(fmt::format("Can't tell yet: this yarn has no {}. {}? Then write it so.",
                                     printable(name(learnt_.taken.front().written), 40), is_it(learnt_.taken.front())));
      case LearnVerdict::new_colour: {
        const TakenAs& one = learnt_.taken.front();
        return page_.say(fmt::format(
            "Can't tell yet: this yarn has no {}. Is entry {} of {} new? Then measure a strand that shows it "
            "twice; else write what it is.",
            printable(name(one.written), 40), one.entry + 1, strand(one.strand)));
      }
      case LearnVerdict::other_total:
        return page_.say(
            fmt::format("The colours {} round after {}, not after {}: leave {} out, or measure on if it is right.",
                        learnt_.best().chance >= shown_.sure ? "come" : "seem to come",
                        amount(learnt_.best().repeat.total(), told_), amount(*shown_.total, told_), total_option()));
      case LearnVerdict::not_mirrored:
        return page_.say(
            "These colours don't read the same backward, so the hank was not dyed across the loop: leave --hank out.");
      case LearnVerdict::hank_too_short:
        return page_.say(fmt::format(
            "Once round the hank must be longer than {}: these colours turn back, but need more yarn for it. Measure "
            "round it again, or leave --hank out.",
            amount(*shown_.total, told_)));
    }
  }

  [[nodiscard]] std::string exchanged() const {
    const TakenAs& one = learnt_.taken.front();
    const TakenAs& other = learnt_.taken.back();
    const bool lengths = learnt_.exchanged == Exchanged::lengths, names = learnt_.exchanged == Exchanged::names;
    return fmt::format(
        "Can't tell yet: do {}{} and {} of {} (entries {} and {}) stand in each other's place{}? Then exchange them; "
        "if "
        "both are right, measure on.",
        lengths ? "the lengths of " : "", printable(name(one.written), 40), printable(name(other.written), 40),
        strand(one.strand), one.entry + 1, other.entry + 1,
        lengths ? ""
        : names ? ", but not their lengths"
                : ", lengths and all");
  }

  [[nodiscard]] const std::string& name(ColourId colour) const { return shown_.palette[colour].name; }

  // The first that runs as the repeat does.
  [[nodiscard]] std::size_t first_usual() const {
    const std::vector<std::size_t>& other = learnt_.other_way;
    std::size_t strand = 0;
    while (std::find(other.begin(), other.end(), strand) != other.end()) ++strand;
    return strand;
  }

  // "strand 2", "ball B's outside end"
  [[nodiscard]] std::string strand(std::size_t n) const {
    return has_name(n) ? shown_.names[n] : fmt::format("strand {}", n + 1);
  }

  [[nodiscard]] bool has_name(std::size_t n) const { return n < shown_.names.size() && !shown_.names[n].empty(); }

  // "strand 2 fits", "strands 2, 3 and 4 fit", "strand 2 and ball B's outside end fit"
  [[nodiscard]] std::string strands_fit(const std::vector<std::size_t>& strands) const {
    if (strands.size() == 1) return strand(strands.front()) + " fits";
    const bool named = std::any_of(strands.begin(), strands.end(), [this](std::size_t n) { return has_name(n); });
    std::vector<std::string> list;
    for (const std::size_t n : strands) list.push_back(named ? strand(n) : std::to_string(n + 1));
    return fmt::format("{}{} fit", named ? "" : "strands ", and_list(list));
  }

  [[nodiscard]] std::string is_it(const TakenAs& one) const {
    return fmt::format("Is entry {} of {} {}", one.entry + 1, strand(one.strand), printable(name(one.taken), 40));
  }

  void told_twice() {
    for (const std::string& text : shown_.twice) {
      page_.say("Mind", fmt::format("'{}' is there already and counts once: tell only what was measured anew.",
                                    printable(text, 60)));
    }
  }

  // What was taken in another way than it was written.
  void doubts() {
    if (learnt_.verdict == LearnVerdict::found && !learnt_.other_way.empty()) {
      page_.say("Mind", fmt::format("{} only the other way round, and {} taken so: as from the ball's other end.",
                                    strands_fit(learnt_.other_way), learnt_.other_way.size() == 1 ? "was" : "were"));
    }
    if (learnt_.verdict != LearnVerdict::found) return;
    if (shown_.turned_about) {
      page_.say("Mind",
                "most strands run against the repeat as it was known, so it was turned about: the usual end of a ball "
                "is the other one now, and places told before count from there no more.");
    }
    for (std::size_t n = 0; n < std::min(learnt_.taken.size(), kTakenTold); ++n) {
      const TakenAs& one = learnt_.taken[n];
      page_.say("Mind", fmt::format("{} of {} (entry {}) was taken for {}.", printable(name(one.written), 40),
                                    strand(one.strand), one.entry + 1, printable(name(one.taken), 40)));
    }
    if (learnt_.taken.size() > kTakenTold) {
      const std::size_t more = learnt_.taken.size() - kTakenTold;
      page_.say("Mind", fmt::format("and {} more {} taken for another colour.", more, more == 1 ? "was" : "were"));
    }
  }

  [[nodiscard]] std::string_view total_option() const { return shown_.hank ? "--hank" : "--repeat"; }

  void repeat() {
    const LearntRepeat& best = learnt_.best();
    const std::string from = fmt::format("from {} strand{}", shown_.strands, shown_.strands == 1 ? "" : "s");
    page_.say("Repeat", fmt::format("{} sections, {} in all, {}{}.", best.repeat.size(),
                                    amount(best.repeat.total(), told_), shown_.sharpened ? "sharpened " : "", from));
    for (std::size_t k = 0; k < best.repeat.size(); ++k) {
      const Section& section = best.repeat.sections()[k];
      std::string text = fmt::format("{} {}, give or take {}", printable(best.repeat.name_of(k), 40),
                                     tape(section.length, told_), give_or_take(section.plus_minus, told_));
      if (!shown_.sharpened && best.times[k] < 2) text += best.times[k] == 1 ? " (met once)" : " (never met alone)";
      page_.say(std::to_string(k + 1), text);
    }
    const bool guessed = std::any_of(best.times.begin(), best.times.end(), [](std::size_t n) { return n < 2; });
    if (guessed && !shown_.sharpened) {
      page_.say("But", "what was not met twice has the usual give or take: measure further, or another strand.");
    }
  }

  void sure() {
    if (learnt_.misread) return;
    std::string_view open = ".";
    if (learnt_.verdict == LearnVerdict::turned) open = ", but for the way round.";
    if (learnt_.verdict == LearnVerdict::misnamed) open = ", but for that name.";
    if (learnt_.verdict == LearnVerdict::exchanged) open = ", but for those two.";
    page_.say("Sure", fmt::format("{}{}", percent(learnt_.best().chance), open));
    for (std::size_t n = 1; n < std::min<std::size_t>(learnt_.repeats.size(), 3); ++n) runner_up(learnt_.repeats[n]);
    double sum = 0;
    for (const LearntRepeat& one : learnt_.repeats) sum += one.chance;
    if (learnt_.verdict == LearnVerdict::unsure && 1 - sum > 10 * kWorthTelling) {
      page_.say("or", fmt::format("it has not come round yet ({})", percent(1 - sum)));
    }
  }

  void other_length() {
    if (!learnt_.by_itself) return;
    const Length total = learnt_.best().repeat.total();
    page_.say("Mind",
              fmt::format("as it was measured it comes round after {0}; every length above is made {1} for {2}. "
                          "Measure once round again, or leave {3} out.",
                          amount(*learnt_.by_itself, told_), *learnt_.by_itself < total ? "longer" : "shorter",
                          amount(total, told_), total_option()));
  }

  void runner_up(const LearntRepeat& other) {
    std::string list;
    for (std::size_t k = 0; k < other.repeat.size() && k < 12; ++k) {
      if (!list.empty()) list += ", ";
      list += printable(other.repeat.name_of(k), 40) + " " + tape(other.repeat.sections()[k].length, told_);
    }
    if (other.repeat.size() > 12) list += ", …";
    page_.say("or", fmt::format("{} sections, {} in all ({}): {}.", other.repeat.size(),
                                amount(other.repeat.total(), told_), percent(other.chance), list));
  }

  void about() {
    const Repeat& repeat = shown_.yarn->repeat;
    const std::size_t times = hidden_repeats(repeat);
    if (times > 1) {
      page_.say("Within", fmt::format("it repeats {} times over: {} is enough to know.", times,
                                      amount(shortest_period(repeat), told_)));
    }
    page_.say("Way round", mirror_axis(repeat) ? "the same from both ends: a ball may be worked from either."
                                               : "it shows which way it runs: work every ball from the same end.");
    alike();
    if (shown_.needed) needed(*shown_.needed);
  }

  // As the list above numbers them: where stretches look alike, names do not tell them apart.
  [[nodiscard]] std::string numbered(std::size_t section) const {
    return fmt::format("{} ({})", printable(shown_.yarn->repeat.name_of(section), 40), section + 1);
  }

  [[nodiscard]] std::string stretch(std::size_t first, std::size_t sections) const {
    if (sections == 1) return numbered(first);
    const std::size_t last = (first + sections - 1) % shown_.yarn->repeat.size();
    return fmt::format("{} to {}", numbered(first), numbered(last));
  }

  void alike() {
    const std::vector<LookAlike> all = look_alikes(shown_.yarn->repeat);
    for (std::size_t n = 0; n < std::min(all.size(), kAlike); ++n) {
      page_.say("Alike", fmt::format("{} and {}.", stretch(all[n].first, all[n].sections),
                                     stretch(all[n].second, all[n].sections)));
    }
    if (all.size() > kAlike) page_.say("Alike", fmt::format("and {} more.", all.size() - kAlike));
  }

  void needed(const ReadingNeeded& needed) {
    if (!needed.nine_in_ten) {
      page_.say("Read", "an end of two whole repeats need not settle where it lies.");
      return;
    }
    const std::string worst = needed.at_worst
                                  ? fmt::format("all but one in fifty by {}", at_least(*needed.at_worst, told_))
                                  : "more than one in fifty never are";
    page_.say("Read", fmt::format("{} of a loose end: nine in ten are settled by then, {}.",
                                  at_least(*needed.nine_in_ten, told_), worst));
  }

  void file() {
    if (shown_.unchanged) {
      return page_.say("Written", fmt::format("nothing: {} holds all of this.", printable(*shown_.unchanged, 200)));
    }
    if (shown_.written) {
      page_.say(shown_.dry ? "Would be" : "Written",
                fmt::format("{}{}.", shown_.dry ? "written to " : "to ", printable(*shown_.written, 200)));
    }
    if (shown_.kept) page_.say("Kept", fmt::format("what it held is {} now.", printable(*shown_.kept, 200)));
    if (learnt_.verdict != LearnVerdict::found || shown_.written) return;
    page_.say("Then", fmt::format("write it down for all other commands: add {}--out FILE.yaml",
                                  shown_.sharpened ? "" : "--name NAME "));
  }

  const MeasureShown& shown_;
  const Learnt& learnt_;
  Page page_;
  Told told_;
};

}  // namespace

bool tells_repeat(LearnVerdict verdict) {
  return verdict == LearnVerdict::found || verdict == LearnVerdict::unsure || verdict == LearnVerdict::turned ||
         verdict == LearnVerdict::misnamed || verdict == LearnVerdict::exchanged ||
         verdict == LearnVerdict::unknown_colour;
}

std::string measure_screen(const MeasureShown& shown, const Screen& screen, Told told) {
  return MeasurePage(shown, screen, told).take();
}

}  // namespace ballchange
