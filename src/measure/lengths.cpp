#include "measure/lengths.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

namespace ballchange::measuring {
namespace {

constexpr double prior_of_share = 8;    // entries that the usual plus-minus counts for, over all sections
constexpr double prior_of_section = 6;  // entries that the plus-minus of all counts for, for one section
constexpr double shortest = 0.5;        // cm

// One written length and the sections it runs over.
struct Equation {
  std::vector<std::size_t> sections;
  double length = 0, factor = 1;
  double tape = 0;  // variance
};

std::vector<Equation> equations(const std::vector<matching::Observed>& strands, const std::vector<Laid>& laid,
                                std::size_t size) {
  std::vector<Equation> all;
  for (std::size_t s = 0; s < strands.size(); ++s) {
    const matching::Observed& strand = strands[s];
    const std::size_t last = strand.entries.size() - 1;
    for (std::size_t i = 0; i < laid[s].path.entries.size(); ++i) {
      const matching::Measured& entry = strand.entries[i];
      const bool open = (i == 0 && !strand.bar_at_loose_end) || (i == last && !strand.bar_at_open_end);
      if (open || !entry.known) continue;
      Equation equation{{}, entry.length, laid[s].factor, entry.variance};
      const matching::PathEntry& run = laid[s].path.entries[i];
      for (std::size_t n = 0; n < run.count; ++n) {
        const std::size_t section = (run.first + n) % size;
        equation.sections.push_back(laid[s].direction == Direction::forward ? section : size - 1 - section);
      }
      all.push_back(std::move(equation));
    }
  }
  return all;
}

// Symmetric, positive definite; the lower triangle is kept.
class Normal {
 public:
  explicit Normal(std::size_t size) : size_(size), matrix_(size * size), right_(size) {}

  void add(const std::vector<double>& row, double value, double variance) {
    for (std::size_t i = 0; i < size_; ++i) {
      if (row[i] == 0) continue;
      right_[i] += row[i] * value / variance;
      for (std::size_t j = 0; j <= i; ++j) matrix_[i * size_ + j] += row[i] * row[j] / variance;
    }
  }
  void add(std::size_t i, double value, double variance) {
    right_[i] += value / variance;
    matrix_[i * size_ + i] += 1 / variance;
  }

  // Cholesky; also the logarithm of the determinant.
  [[nodiscard]] std::vector<double> solve(double& log_determinant) {
    log_determinant = 0;
    for (std::size_t j = 0; j < size_; ++j) {
      for (std::size_t i = j; i < size_; ++i) {
        double sum = matrix_[i * size_ + j];
        for (std::size_t k = 0; k < j; ++k) sum -= matrix_[i * size_ + k] * matrix_[j * size_ + k];
        matrix_[i * size_ + j] = i == j ? std::sqrt(sum) : sum / matrix_[j * size_ + j];
      }
      log_determinant += 2 * std::log(matrix_[j * size_ + j]);
    }
    std::vector<double> x = right_;
    for (std::size_t i = 0; i < size_; ++i) {
      for (std::size_t k = 0; k < i; ++k) x[i] -= matrix_[i * size_ + k] * x[k];
      x[i] /= matrix_[i * size_ + i];
    }
    for (std::size_t i = size_; i-- > 0;) {
      for (std::size_t k = i + 1; k < size_; ++k) x[i] -= matrix_[k * size_ + i] * x[k];
      x[i] /= matrix_[i * size_ + i];
    }
    return x;
  }

 private:
  std::size_t size_;
  std::vector<double> matrix_, right_;
};

// A variance `ratio` times the usual one, where the usual one counts for so many entries. Less than usual speaks
// against nothing: coarse lengths hide it.
double against(double ratio, double entries) {
  return ratio <= 1 ? 0 : -entries / 2 * (std::log(ratio) + 1 / ratio - 1);
}

class Fitting {
 public:
  Fitting(Circle& circle, std::vector<Equation> equations, const Bound& bound)
      : circle_(circle), equations_(std::move(equations)), bound_(bound), group_(circle.size()) {
    for (std::size_t k = 0; k < circle.size(); ++k) {
      group_[k] = bound.same_as.empty() ? k : bound.same_as[k];
      groups_ = std::max(groups_, group_[k] + 1);
    }
  }

  // The sections' means, given how much each scatters.
  [[nodiscard]] double means() {
    Normal normal(groups_);
    std::vector<double> row(groups_);
    for (const Equation& equation : equations_) {
      std::fill(row.begin(), row.end(), 0);
      double variance = equation.tape;
      for (const std::size_t k : equation.sections) {
        row[group_[k]] += equation.factor;
        variance += circle_[k].sd * circle_[k].sd;
      }
      normal.add(row, equation.length, variance);
    }
    if (bound_.total) {
      std::fill(row.begin(), row.end(), 0);
      for (const std::size_t g : group_) row[g] += 1;
      normal.add(row, *bound_.total, bound_.total_sd * bound_.total_sd);
    }
    for (std::size_t k = 0; k < circle_.size(); ++k) {
      // What no length tells anything of stays as it is.
      normal.add(group_[k], circle_[k].length, circle_[k].length * circle_[k].length);
      if (bound_.prior.empty()) continue;
      const Patch& before = bound_.prior[k];
      normal.add(group_[k], before.length, believed_variance(before));
    }
    double log_determinant = 0;
    const std::vector<double> x = normal.solve(log_determinant);
    for (std::size_t k = 0; k < circle_.size(); ++k) circle_[k].length = std::max(shortest, x[group_[k]]);
    return static_cast<double>(groups_) * std::log(matching::root_two_pi) - log_determinant / 2;
  }

  // How much each scatters: the usual, adjusted by what all sections show together, and that by what its own show.
  [[nodiscard]] std::vector<Seen> scatter(double& log_scatter) {
    std::vector<double> squares(groups_), tape(groups_);
    std::vector<std::size_t> times(groups_);
    for (const Equation& equation : equations_) {
      if (equation.sections.size() > 1) continue;
      const std::size_t k = equation.sections.front();
      const double off = equation.length - equation.factor * circle_[k].length;
      squares[group_[k]] += off * off;
      tape[group_[k]] += equation.tape;
      ++times[group_[k]];
    }
    double sum = prior_of_share, weight = prior_of_share;
    std::vector<double> own(groups_), freedom(groups_), usual(groups_);
    for (std::size_t k = 0; k < circle_.size(); ++k) {
      usual[group_[k]] = usual_plus_minus(Length::cm(circle_[k].length)).cm();
    }
    for (std::size_t g = 0; g < groups_; ++g) {
      if (times[g] < 2) continue;
      freedom[g] = static_cast<double>(times[g] - 1);
      const double tapes = freedom[g] * tape[g] / static_cast<double>(times[g]);
      own[g] = (squares[g] - tapes) / (usual[g] * usual[g]);
      sum += own[g];
      weight += freedom[g];
    }
    const double share = std::clamp(sum / weight, 0.2, 4.0);
    log_scatter = against(share, prior_of_share);
    std::vector<char> counted(groups_, 0);
    std::vector<Seen> seen(circle_.size());
    for (std::size_t k = 0; k < circle_.size(); ++k) {
      const std::size_t g = group_[k];
      const double factor = std::max(0.1, (prior_of_section * share + own[g]) / (prior_of_section + freedom[g]));
      if (counted[g] == 0) log_scatter += against(factor / share, prior_of_section);
      counted[g] = 1;
      const double sd = usual[g] * std::sqrt(factor);
      circle_[k].sd = std::min(sd, circle_[k].length / 3);
      seen[k].times = times[g];
    }
    return seen;
  }

 private:
  Circle& circle_;
  std::vector<Equation> equations_;
  const Bound& bound_;
  std::vector<std::size_t> group_;
  std::size_t groups_ = 0;
};

}  // namespace

double believed_variance(const Patch& believed) {
  return std::max(believed.sd * believed.sd, 0.01) / static_cast<double>(prior_passes);
}

Lengths fit_lengths(Circle& circle, const std::vector<matching::Observed>& strands, const std::vector<Laid>& laid,
                    const Bound& bound) {
  Fitting fitting(circle, equations(strands, laid, circle.size()), bound);
  Lengths result;
  static_cast<void>(fitting.means());
  static_cast<void>(fitting.scatter(result.log_scatter));
  result.log_width = fitting.means();
  result.seen = fitting.scatter(result.log_scatter);
  return result;
}

}  // namespace ballchange::measuring
