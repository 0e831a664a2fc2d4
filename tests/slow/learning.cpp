#include "slow/learning.hpp"

#include <algorithm>
#include <cmath>

namespace ballchange::slow {
namespace {

// The inverse of a symmetric positive definite matrix, by Gauss and Jordan.
std::vector<std::vector<double>> inverse(std::vector<std::vector<double>> a) {
  const std::size_t size = a.size();
  std::vector<std::vector<double>> b(size, std::vector<double>(size));
  for (std::size_t i = 0; i < size; ++i) b[i][i] = 1;
  for (std::size_t i = 0; i < size; ++i) {
    const double pivot = a[i][i];
    for (std::size_t j = 0; j < size; ++j) {
      a[i][j] /= pivot;
      b[i][j] /= pivot;
    }
    for (std::size_t k = 0; k < size; ++k) {
      if (k == i) continue;
      const double times = a[k][i];
      for (std::size_t j = 0; j < size; ++j) {
        a[k][j] -= times * a[i][j];
        b[k][j] -= times * b[i][j];
      }
    }
  }
  return b;
}

// Mean square standard error of who knows the sections of every entry, and how much each scatters. Sections that never
// stood alone are told apart only by the faintest belief in their true lengths.
double perfect_squares(const Lesson& lesson, const Tape& tape) {
  const std::size_t size = lesson.yarn.repeat.size();
  std::vector<std::vector<double>> information(size, std::vector<double>(size));
  for (std::size_t k = 0; k < size; ++k) {
    const double length = lesson.yarn.repeat.sections()[k].length.cm();
    information[k][k] = 1 / (length * length);
  }
  const std::vector<Entry>& entries = lesson.reading.entries;
  for (std::size_t i = 1; i + 1 < entries.size(); ++i) {
    if (!entries[i].length) continue;
    const double error = tape.fixed.cm() + tape.share * entries[i].length->cm();
    double variance = error * error + entries[i].rounding_variance;
    const std::vector<std::size_t>& run = lesson.strand.runs()[i].sections;
    for (const std::size_t k : run) {
      const double sd = lesson.yarn.repeat.sections()[k].plus_minus.cm();
      variance += sd * sd;
    }
    for (const std::size_t j : run) {
      for (const std::size_t k : run) information[j][k] += 1 / variance;
    }
  }
  const auto covariance = inverse(information);
  double sum = 0;
  for (std::size_t k = 0; k < size; ++k) sum += covariance[k][k];
  return sum / static_cast<double>(size);
}

}  // namespace

Lesson make_lesson(const LearnWish& wish, Random& random) {
  Yarn yarn = random_yarn(random);
  if (!wish.shades) {
    std::vector<Colour> plain = yarn.repeat.colours();
    for (Colour& colour : plain) colour.shade.reset();
    yarn.repeat = Repeat(plain, yarn.repeat.sections());
  }
  Hand hand = random_hand(random, yarn.reckoning);
  hand.leaves_out = wish.leaves_out;
  for (;;) {
    Strand strand(yarn, {}, End::new_end, false, hand, random);
    if (strand.truth().direction == Direction::backward) continue;
    Reading reading = strand.read(wish.repeats * yarn.repeat.total());
    std::vector<char> written(yarn.repeat.size(), 0);
    for (std::size_t i = 0; i < reading.entries.size(); ++i) written[strand.runs()[i].sections.front()] = 1;
    const bool all = std::find(written.begin(), written.end(), 0) == written.end();
    return {yarn, strand, reading, all};
  }
}

Marked mark(const Lesson& lesson, const Learnt& learnt) {
  Marked marked;
  if (learnt.repeats.empty()) return marked;
  const Repeat& repeat = learnt.best().repeat;
  const Repeat& truth = lesson.yarn.repeat;
  const std::size_t size = truth.size();
  marked.right = repeat.size() == size;
  if (!marked.right) return marked;
  // Of all turns with the right colours the one that comes closest.
  double least = -1;
  for (std::size_t turn = 0; turn < size; ++turn) {
    bool same = true;
    double sum = 0;
    for (std::size_t k = 0; k < size && same; ++k) {
      const Section& a = repeat.sections()[(k + turn) % size];
      const Section& b = truth.sections()[k];
      same = a.colour == b.colour;
      const double off = a.length.cm() - lesson.strand.factor() * b.length.cm();
      sum += off * off;
    }
    if (!same || (least >= 0 && sum >= least)) continue;
    least = sum;
  }
  marked.right_names = least >= 0;
  marked.squares = least / static_cast<double>(size);
  const Reckoning reckoning = lesson.yarn.reckoning;
  marked.perfect = perfect_squares(lesson, {habits(reckoning).tape_fixed, 0.01});
  return marked;
}

}  // namespace ballchange::slow
