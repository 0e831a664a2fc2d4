#include "creep/follow.hpp"

#include <algorithm>
#include <cmath>

#include "base/normal.hpp"
#include "creep/walk.hpp"

namespace ballchange::creeping {
namespace {

// Further than this from what is expected is a slip of the pen, or another colour.
constexpr double kWithinReason = 3.5;
// Two ways to read what was seen are told apart where one is a hundred times likelier.
constexpr double kFarApart = 9;

constexpr int kMostSlips = 3;  // that are looked past for one that tells where the colours lie

double square(double value) { return value * value; }

// One way to read a change that was seen.
struct Reading {
  Length off;  // from where the ledger has it
  Length at;   // along the yarn
  double variance = 0;
  double misfit = 0;  // squared, in standard deviations
  std::size_t boundary = 0;
  [[nodiscard]] double score() const { return misfit + std::log(variance); }
};

class Following {
 public:
  // Those of `left_out` are taken as slips.
  Following(const State& state, const Repeat& repeat, const std::optional<Start>& start,
            const std::vector<bool>& left_out)
      : state_(state),
        left_out_(left_out),
        walk_(state, repeat, start ? start->place : Length()),
        repeat_(repeat),
        filter_(doubts(state)) {
    if (!start) return;
    filter_.settle(Length(), start->variance);
    change_ = start->place;
    lost_ = false;
    counted_in_ball_ = 1;
  }

  Creep run() {
    for (std::size_t i = 0; i < state_.sightings.size(); ++i) {
      const Use use = left_out_[i] ? Use::unfitting : take(i);
      result_.sightings.push_back({i, use});
      if (use == Use::counted) ++result_.counted;
      if (use == Use::unfitting) ++result_.unfitting;
      if (use == Use::first) result_.anchored = true;
    }
    go_on(state_.used);
    result_.ball_seen = counted_in_ball_ >= 2;
    end_ball();
    tell();
    return std::move(result_);
  }

 private:
  static Doubts doubts(const State& state) {
    Doubts doubts;
    doubts.ball = state.yarn.ball_plus_minus;
    return doubts;
  }

  // Passes gauges and joins up to there.
  void go_on(std::optional<Length> used) {
    if (!used) return;
    for (; next_ < walk_.turns().size() && walk_.turns()[next_].used <= *used; ++next_) pass(walk_.turns()[next_]);
    move_to(*used);
  }

  void move_to(Length used) {
    filter_.work(walk_.in_stitches(at_, used), used - at_);
    at_ = used;
  }

  void pass(const Turn& turn) {
    move_to(turn.used);
    if (turn.join == nullptr) {
      if (turn.old_over_new > 0) {
        filter_.tell_gauge(turn.old_over_new);
      } else {
        filter_.begin_gauge();
      }
      return;
    }
    joins_variance_ += turn.variance - walk_.section_variance(turn.place + filter_.off());
    lost_ = lost_ || !turn.join->shift;
    if (turn.join->knot) return;
    end_ball();
    filter_.begin_ball();
  }

  void end_ball() {
    const std::string* ball = walk_.ball(next_);
    if (counted_in_ball_ >= 2 && ball != nullptr) result_.balls.push_back({*ball, filter_.longer()});
    counted_in_ball_ = 0;
  }

  // One change, however often it is told, is one.
  [[nodiscard]] bool told_before(std::size_t index) const {
    const Sighting& sighting = state_.sightings[index];
    for (std::size_t i = index; i > 0 && state_.sightings[i - 1].change == sighting.change; --i) {
      const Seen& before = state_.sightings[i - 1].seen;
      if (before.what == sighting.seen.what && before.colour == sighting.seen.colour) return true;
    }
    return false;
  }

  Use take(std::size_t index) {
    const Sighting& sighting = state_.sightings[index];
    if (told_before(index)) return Use::again;
    if (!sighting.used) return Use::no_place;
    go_on(sighting.used);
    std::vector<Reading> ways = readings(sighting);
    if (ways.empty()) return Use::unfitting;
    std::sort(ways.begin(), ways.end(), [](const Reading& a, const Reading& b) { return a.score() < b.score(); });
    const Reading& best = ways.front();
    const bool near = best.misfit <= square(kWithinReason);
    if (!lost_ && !near) return Use::unfitting;
    // Of the changes that come as near, none must be another of the yarn's.
    bool which_repeat = lost_;
    for (const Reading& other : ways) {
      if (!lost_ && other.score() - best.score() > kFarApart) continue;
      if (other.boundary != best.boundary) return Use::several;
      which_repeat = which_repeat || &other != &best;
    }
    return which_repeat ? anchor(sighting, best) : count(sighting, best);
  }

  Use anchor(const Sighting& sighting, const Reading& best) {
    filter_.settle(best.off, walk_.counting_variance(sighting));
    reached(best.at);
    lost_ = false;
    counted_in_ball_ = 1;
    return Use::first;
  }

  Use count(const Sighting& sighting, const Reading& best) {
    filter_.blur(blur_to(best.at));
    filter_.see(best.off, walk_.counting_variance(sighting));
    reached(best.at);
    ++counted_in_ball_;
    result_.known = true;
    return Use::counted;
  }

  void reached(Length at) {
    change_ = at;
    joins_variance_ = 0;
  }

  // Of the sections and joins between the last change counted and that one.
  [[nodiscard]] double blur_to(Length at) const {
    return std::max(std::abs(walk_.variance_at(at) - walk_.variance_at(change_)) + joins_variance_, 0.0);
  }

  // Each section that may begin or end so, in the repeat nearest to what is expected and those beside it.
  [[nodiscard]] std::vector<Reading> readings(const Sighting& sighting) const {
    std::vector<Reading> ways;
    const Length here = walk_.place(*sighting.used);
    const Length repeat = repeat_.total();
    for (std::size_t k = 0; k < repeat_.size(); ++k) {
      if (repeat_.sections()[k].colour != sighting.seen.colour) continue;
      const std::size_t boundary = (k + (sighting.seen.what == Seen::What::ends ? 1 : 0)) % repeat_.size();
      const Length off = filter_.off() + nearest(repeat_.start(boundary) - here - filter_.off(), repeat);
      for (const double more : lost_ ? std::vector<double>{0} : std::vector<double>{0, -1, 1}) {
        Reading way{off + more * repeat, here + off + more * repeat, 0, 0, boundary};
        way.variance = filter_.off_variance() + blur_to(way.at) + walk_.counting_variance(sighting);
        way.misfit = square((way.off - filter_.off()).cm()) / way.variance;
        ways.push_back(way);
      }
    }
    return ways;
  }

  void tell() {
    const Length stitch = *state_.gauge.now().yarn_per_stitch;
    result_.looser = filter_.looser();
    result_.creep = filter_.creep();
    result_.per_stitch = stitch * (1 + result_.looser.mean);
    result_.per_stitch_sd = stitch * result_.looser.sd;
    result_.fewer_stitches = repeat_.total() / stitch * (1 - 1 / (1 + result_.creep.mean));
    result_.per_repeat = repeat_.total() * result_.creep.mean;
    result_.per_repeat_sd = repeat_.total() * result_.creep.sd;
    if (state_.fabric.stitches) result_.per_row = *state_.fabric.stitches * stitch * result_.creep.mean;
  }

  const State& state_;
  const std::vector<bool>& left_out_;
  Walk walk_;
  const Repeat& repeat_;
  Filter filter_;
  Creep result_;
  Length at_;      // yarn used
  Length change_;  // the last change counted, along the yarn
  bool lost_ = true;
  double joins_variance_ = 0;  // of the joins since that change, less that of the sections they lie in
  std::size_t next_ = 0;
  int counted_in_ball_ = 0;
};

}  // namespace

bool plain(const Share& share) { return std::abs(share.mean) > kNineInTen * share.sd; }
bool Creep::plain() const { return known && !doubtful() && counted >= 2 && creeping::plain(creep); }

std::optional<Creep> follow(const State& state, const Repeat& repeat, const std::optional<Start>& start) {
  if (state.sightings.empty() || !state.gauge.now().yarn_per_stitch) return std::nullopt;
  std::vector<bool> left_out(state.sightings.size());
  const auto run = [&] { return Following(state, repeat, start, left_out).run(); };
  Creep best = run();
  Creep last = best;
  for (int again = 0; again < kMostSlips && best.unfitting > again + 1; ++again) {
    const auto first = std::find_if(last.sightings.begin(), last.sightings.end(), [](const Watched& one) {
      return one.use == Use::first || one.use == Use::counted;
    });
    if (first == last.sightings.end()) break;
    left_out[first->sighting] = true;
    last = run();
    if (last.unfitting < best.unfitting) best = last;
  }
  return best;
}

}  // namespace ballchange::creeping
