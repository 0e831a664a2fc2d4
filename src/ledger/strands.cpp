#include "ledger/strands.hpp"

#include <algorithm>
#include <cassert>
#include <utility>

namespace ballchange {
namespace {

using Maybe = std::optional<Length>;

Maybe sum(Maybe a, Maybe b) { return a && b ? Maybe(*a + *b) : std::nullopt; }
Maybe difference(Maybe a, Maybe b) { return a && b ? Maybe(*a - *b) : std::nullopt; }
Maybe latest(Maybe a, Maybe b) { return a && b ? Maybe(std::max(*a, *b)) : std::nullopt; }

// Each end gives half of what the join takes.
Length half(const JoinState& join) { return join.allowance.value_or(Length()) / 2; }

void move_by(Chain& chain, Maybe by, std::vector<JoinState>& joins) {
  for (StrandPiece& piece : chain.pieces) piece.end = sum(piece.end, by);
  for (const std::size_t join : chain.joins) joins[join].used = sum(joins[join].used, by);
}

}  // namespace

void Strands::add(std::size_t ball, std::optional<Length> length) {
  assert(ball == loose_.size());
  loose_.emplace_back().push_back({{{ball, length}}, {}, Length()});
  far_in_.emplace_back(ball);
}

void Strands::begin(std::size_t ball, Length trim) {
  assert(!begun() && loose(ball));
  Chain chain = std::move(loose_[ball].back());
  loose_[ball].pop_back();
  far_in_[ball].reset();
  move_by(chain, difference(Length(), sum(chain.start, trim)), joins_);
  work_ = std::move(chain);
}

const JoinState* Strands::last_landed() const { return current_ == 0 ? nullptr : &joins_[work_.joins[current_ - 1]]; }

bool Strands::is_ahead(std::size_t join) const {
  const JoinState& j = joins_[join];
  constexpr Length hair = Length::cm(1e-6);
  if (j.used && used_) return *j.used > *used_ + hair;
  return j.place && at_ && *at_ < *j.place;
}

void Strands::stand(const std::optional<WorkPlace>& at, std::optional<Length> used) {
  at_ = at;
  used_ = used;
  const auto ahead = std::partition_point(work_.joins.begin(), work_.joins.end(),
                                          [this](std::size_t join) { return !is_ahead(join); });
  current_ = static_cast<std::size_t>(ahead - work_.joins.begin());
}

// The strand in the work ends before join `at` of it; what hung behind it is given back.
Chain Strands::split(std::size_t at) {
  const auto joins = work_.joins.begin() + static_cast<std::ptrdiff_t>(at);
  const auto pieces = work_.pieces.begin() + static_cast<std::ptrdiff_t>(at) + 1;
  Chain tail{{pieces, work_.pieces.end()}, {joins + 1, work_.joins.end()}, joins_[*joins].used};
  work_.pieces.erase(pieces, work_.pieces.end());
  work_.joins.erase(joins, work_.joins.end());
  while (!apart_.empty() && apart_.back() >= at) apart_.pop_back();
  return tail;
}

void Strands::lay_loose(Chain&& chain) {
  const std::size_t first = *chain.pieces.front().ball;
  // Of a ball in several pieces, the one that lies loose first is the furthest.
  std::optional<std::size_t>& far = far_in_[*chain.pieces.back().ball];
  if (!far) far = first;
  loose_[first].push_back(std::move(chain));
}

std::vector<std::size_t> Strands::come_apart() {
  std::vector<std::size_t> parted;
  while (!apart_.empty() && apart_.back() >= current_) {
    const std::size_t k = apart_.back();
    parted.push_back(work_.joins[k]);
    JoinState& join = joins_[parted.back()];
    join.held = JoinHeld::apart;
    Chain tail = split(k);
    work_.pieces.back().end = sum(join.used, half(join));
    tail.start = difference(join.used, half(join));
    lay_loose(std::move(tail));
  }
  return parted;
}

std::optional<std::size_t> Strands::next_ahead() const {
  return current_ < work_.joins.size() ? work_.pieces[current_ + 1].ball : std::nullopt;
}

std::optional<std::size_t> Strands::cut_out() {
  if (current_ == work_.joins.size()) return std::nullopt;
  const std::size_t parted = work_.joins[current_];
  JoinState& join = joins_[parted];
  join.held = JoinHeld::cut_out;
  Chain tail = split(current_);
  work_.pieces.back().end = difference(join.used, half(join));
  tail.start = sum(join.used, half(join));
  lay_loose(std::move(tail));
  return parted;
}

void Strands::attach(Chain&& chain) {
  const JoinState& join = joins_.back();
  move_by(chain, difference(join.used, sum(chain.start, join.trim_new + half(join))), joins_);
  work_.pieces.back().end = join.used;
  const std::size_t first = work_.joins.size();
  work_.joins.push_back(joins_.size() - 1);
  const std::size_t last = *chain.pieces.back().ball;
  const bool further = std::any_of(loose_[last].begin(), loose_[last].end(),
                                   [&](const Chain& other) { return other.pieces.back().ball == last; });
  far_in_[last] = further ? std::optional(last) : std::nullopt;
  work_.pieces.insert(work_.pieces.end(), chain.pieces.begin(), chain.pieces.end());
  work_.joins.insert(work_.joins.end(), chain.joins.begin(), chain.joins.end());
  for (std::size_t k = first; k < work_.joins.size(); ++k) {
    if (method_row(joins_[work_.joins[k]].method).comes_apart) apart_.push_back(k);
  }
}

std::size_t Strands::join(std::size_t ball) {
  assert(begun() && current_ + 1 == work_.pieces.size());
  const JoinState& join = joins_.back();
  std::size_t gone = 0;
  if (loose(ball)) {
    Chain chain = std::move(loose_[ball].back());
    loose_[ball].pop_back();
    const Maybe cut = sum(chain.start, join.trim_new + half(join));
    for (const std::size_t next : chain.joins) {
      if (!cut || !joins_[next].used || *cut < *joins_[next].used) break;
      joins_[next].held = JoinHeld::cut_out;
      ++gone;
    }
    const auto step = static_cast<std::ptrdiff_t>(gone);
    chain.joins.erase(chain.joins.begin(), chain.joins.begin() + step);
    chain.pieces.erase(chain.pieces.begin(), chain.pieces.begin() + step);
    attach(std::move(chain));
  } else {
    const StrandPiece rest = work_.pieces.back();
    attach({{{ball, rest.end}}, {}, sum(join.used, join.trim_old + half(join))});
  }
  stand(at_, used_);
  return gone;
}

std::optional<Strands::Far> Strands::far_end(std::size_t ball) {
  if (!far_in_[ball]) {
    if (work_.pieces.empty() || work_.pieces.back().ball != ball) return std::nullopt;
    const Maybe joined = work_.joins.empty() ? Maybe(Length()) : joins_[work_.joins.back()].used;
    return Far{&work_.pieces.back(), latest(joined, used_)};
  }
  for (Chain& chain : loose_[*far_in_[ball]]) {
    if (chain.pieces.back().ball != ball) continue;
    return Far{&chain.pieces.back(), chain.joins.empty() ? chain.start : joins_[chain.joins.back()].used};
  }
  return std::nullopt;
}

void Strands::shorten(std::size_t ball, Length by) {
  if (const auto far = far_end(ball)) far->piece->end = sum(far->piece->end, -by);
}

void Strands::set_left(std::size_t ball, Length left) {
  if (const auto far = far_end(ball)) far->piece->end = sum(far->from, left);
}

std::optional<Length> Strands::left(std::size_t ball) {
  const auto far = far_end(ball);
  return far ? difference(far->piece->end, far->from) : std::nullopt;
}

void Strands::tell(std::vector<BallState>& balls) const {
  for (BallState& ball : balls) {
    ball.use = BallUse::used_up;
    ball.left = Length();
    ball.overdrawn = Length();
  }
  const auto count = [&](const StrandPiece& piece, Maybe from, BallUse use) {
    if (!piece.ball) return;
    BallState& ball = balls[*piece.ball];
    if (ball.use != BallUse::working &&
        (ball.use == BallUse::used_up || use == BallUse::working || use == BallUse::fresh)) {
      ball.use = use;
    }
    const Maybe left = difference(piece.end, from);
    if (use == BallUse::working && left) ball.overdrawn = std::max(-*left, Length());
    ball.left = sum(ball.left, left ? Maybe(std::max(*left, Length())) : std::nullopt);
  };
  const auto count_behind = [&](const Chain& chain, std::size_t first) {
    for (std::size_t k = first; k < chain.pieces.size(); ++k) {
      count(chain.pieces[k], joins_[chain.joins[k - 1]].used, BallUse::joined_ahead);
      joins_[chain.joins[k - 1]].held = JoinHeld::ahead;
    }
  };
  if (begun()) {
    for (const std::size_t join : landed()) joins_[join].held = JoinHeld::in_work;
    const Maybe joined = current_ == 0 ? Maybe(Length()) : joins_[work_.joins[current_ - 1]].used;
    count(current(), latest(joined, used_), BallUse::working);
    count_behind(work_, current_ + 1);
  }
  for (const std::vector<Chain>& chains : loose_) {
    for (const Chain& chain : chains) {
      count(chain.pieces.front(), chain.start, BallUse::fresh);
      count_behind(chain, 1);
      // Where they will land is open while their strand is loose.
      for (const std::size_t join : chain.joins) {
        joins_[join].place.reset();
        joins_[join].used.reset();
      }
    }
  }
}

std::vector<std::size_t> Strands::landed() const {
  return {work_.joins.begin(), work_.joins.begin() + static_cast<std::ptrdiff_t>(current_)};
}

}  // namespace ballchange
