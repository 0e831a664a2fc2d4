#include "commands/swatches_told.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <cmath>
#include <utility>

#include "base/number.hpp"
#include "base/text.hpp"
#include "fabric/tool_size.hpp"
#include "show/text.hpp"

namespace ballchange {
namespace {

constexpr std::size_t kMostSwatches = 200;
constexpr double kMostTurn = 10;  // stitches; a turning chain of the tallest stitch takes about four

Length repeat_doubt(const Yarn& yarn) {
  const auto hidden = static_cast<double>(hidden_repeats(yarn.repeat));
  double sum = std::pow(yarn.ball_plus_minus * shortest_period(yarn.repeat).cm(), 2);
  for (const Section& section : yarn.repeat.sections()) sum += std::pow(section.plus_minus.cm(), 2) / hidden;
  return Length::cm(std::sqrt(sum));
}

class Gathering {
 public:
  Gathering(const Options& options, const SwatchKnown& known) : options_(options), known_(known) {}

  SwatchesTold take() {
    const std::vector<std::string> texts = options_.texts("swatch");
    if (texts.size() > kMostSwatches) refuse(fmt::format("--swatch: at most {} of them", kMostSwatches));
    for (std::size_t k = 0; k < texts.size(); ++k) {
      what_ = texts.size() == 1 ? std::string("--swatch") : fmt::format("--swatch {}", k + 1);
      add(parse_swatch(texts[k], known_.terms, what_));
    }
    refuse_disagreeing();
    return std::move(found_);
  }

 private:
  void add(SwatchTold told) {
    if (!told.swatch.mm && !known_.usual_size.empty()) usual_size(told);
    if (told.tool) {
      if (found_.tool && *found_.tool != *told.tool) {
        refuse(what_ + ": one swatch with a hook and one with needles can't be compared; tell those of one tool");
      }
      found_.tool = told.tool;
    }
    if (!told.size_note.empty() &&
        std::find(found_.notes.begin(), found_.notes.end(), told.size_note) == found_.notes.end()) {
      found_.notes.push_back(told.size_note);
    }
    if (told.repeat_stitches) by_repeat(told);
    if (told.rows_taken) by_row(told);
    check_yarn(told.swatch);
    found_.swatches.push_back(told.swatch);
    found_.told.push_back(std::move(told));
  }

  void usual_size(SwatchTold& told) const {
    const auto size = tool_size(known_.usual_size, known_.terms.tool);
    if (!size) {
      if (!options_.has("size")) return;  // what a project says may be anything
      refuse(fmt::format("--size: '{}' is no hook or needle, like 4mm, hook G or needle US 6",
                         printable(known_.usual_size, 40)));
    }
    told.swatch.mm = size->mm;
    told.tool = size->tool;
    told.size_note = size->note;
  }

  void by_repeat(SwatchTold& told) const {
    if (!known_.yarn) {
      refuse(what_ + ": stitches a repeat need the yarn: --yarn PROFILE, or a project; or measure 20 st take 41 cm");
    }
    if (known_.yarn->reckoning == Reckoning::stitches) {
      refuse(what_ + ": this yarn is written in stitches already; measure 20 st take 41 cm instead");
    }
    const Length repeat = shortest_period(known_.yarn->repeat);
    told.swatch.yarn.push_back(yarn_of_repeat(*told.repeat_stitches, repeat, repeat_doubt(*known_.yarn)));
  }

  // A row of S stitches takes S w + v. With the chain counted it is one of the S, and v nothing.
  void by_row(SwatchTold& told) {
    const RowsTaken& taken = *told.rows_taken;
    const auto stitches = taken.stitches ? taken.stitches : known_.stitches;
    if (!stitches) {
      refuse(what_ + ": a row's yarn needs the stitches in it: a row of 33 st takes 1.1 m, or --stitches 33");
    }
    const Length row = taken.yarn / taken.rows;
    if (known_.chain == TurningChain::counts) return row_stitches(told, *stitches, row);
    if (known_.turn) return row_stitches(told, *stitches, row - *known_.turn);
    if (!told.swatch.yarn.empty()) return turn_left(told, *stitches, row);
    if (known_.chain == TurningChain::not_told) return row_stitches(told, *stitches, row);
    row_stitches(told, *stitches, row * (*stitches / (*stitches + 1.0)));
    found_.turns.push_back({row / (*stitches + 1.0), {}});
    found_.turn_guessed = true;
  }

  void row_stitches(SwatchTold& told, int stitches, Length of_stitches) const {
    if (of_stitches < 0.01_cm * stitches) {
      refuse(fmt::format("{}: {} cm a row leave nothing for {} beside the turn; look at both lengths", what_,
                         plain_number((told.rows_taken->yarn / told.rows_taken->rows).cm(), 2),
                         ballchange::stitches(stitches)));
    }
    const double rows = told.rows_taken->rows;
    told.swatch.yarn.push_back(yarn_of_rows(stitches * rows, of_stitches * rows));
  }

  void turn_left(const SwatchTold& told, int stitches, Length row) {
    const YarnTold& measured = told.swatch.yarn.front();
    const Length stitch = measured.yarn / measured.stitches;
    const Length turn = row - stitches * stitch;
    if (turn < -0.05 * row || turn > kMostTurn * stitch) {
      refuse(
          fmt::format("{}: the yarn of a row and of its stitches don't agree: {} take{} {} cm, and the row "
                      "takes {} cm; measure once more and give the one you trust",
                      what_, ballchange::stitches(stitches), stitches == 1 ? "s" : "",
                      plain_number((stitches * stitch).cm(), 1), plain_number(row.cm(), 1)));
    }
    const YarnTold whole = yarn_of_rows(stitches * told.rows_taken->rows, told.rows_taken->yarn);
    const GaugeMean blurred{
        row, std::hypot(whole.doubt / whole.yarn, stitches * stitch / row * (measured.doubt / measured.yarn))};
    found_.turns.push_back({std::max(turn, Length()), blurred.give_or_take()});
  }

  // Yarn can't be shorter than the way it goes.
  void check_yarn(const Swatch& swatch) const {
    if (!swatch.stitches) return;
    const Length width = swatch.stitches->over / swatch.stitches->count;
    for (const YarnTold& told : swatch.yarn) {
      const Length one = told.yarn / told.stitches;
      if (one >= width) continue;
      refuse(fmt::format("{}: a stitch is {} cm wide and takes {} cm of yarn, less than its width; look at the units",
                         what_, plain_number(width.cm(), 2), plain_number(one.cm(), 2)));
    }
  }

  void refuse_disagreeing() const {
    const auto two = disagreement(found_.swatches);
    if (!two) return;
    const auto told = [&](std::size_t n) {
      const Swatch& swatch = found_.swatches[n];
      const Counted& counted = *(swatch.*(two->which));
      const bool inches = known_.told == Told::inches;
      const double over = inches ? 4 * 2.54 : 10;
      return fmt::format("{}{} in {}", swatch.mm ? fmt::format("{} mm gives ", plain_number(*swatch.mm, 3)) : "",
                         plain_number(counted.count / counted.over.cm() * over, 1), inches ? "4 in" : "10 cm");
    };
    refuse(fmt::format("--swatch {} and {} can't both be right: of {}, {}, but {}; count and measure both again",
                       two->one + 1, two->other + 1, two->which == &Swatch::stitches ? "stitches" : "rows",
                       told(two->one), told(two->other)));
  }

  const Options& options_;
  const SwatchKnown& known_;
  std::string what_;
  SwatchesTold found_;
};

}  // namespace

SwatchesTold swatches_told(const Options& options, const SwatchKnown& known) {
  return Gathering(options, known).take();
}

}  // namespace ballchange
