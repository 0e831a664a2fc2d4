#include "ledger/strands.hpp"

#include <algorithm>
#include <cassert>

#include "ledger/maybe.hpp"

namespace ballchange {
namespace {

Maybe latest(Maybe a, Maybe b) { return a && b ? Maybe(std::max(*a, *b)) : std::nullopt; }

// Each end gives half of what the join takes.
Length half(const JoinState& join) { return join.allowance.value_or(Length()) / 2; }

}  // namespace

void Strands::add(std::size_t ball, std::optional<Length> length) {
  assert(ball == loose_.size());
  loose_.emplace_back().push_back({ropes_.piece({ball, length}), Length(), ball, ball});
  far_in_.emplace_back(ball);
}

void Strands::begin(std::size_t ball, Length trim) {
  assert(!begun() && loose(ball));
  const Chain chain = loose_[ball].back();
  loose_[ball].pop_back();
  far_in_[ball].reset();
  ropes_.move(chain.pieces, difference(Length(), sum(chain.start, trim)));
  work_ = chain.pieces;
}

const JoinState* Strands::last_landed() { return current_ == 0 ? nullptr : &joins_[landed(current_ - 1)]; }

bool Strands::is_ahead(std::size_t join) const {
  const JoinState& j = joins_[join];
  constexpr Length hair = Length::cm(1e-6);
  if (j.used && used_) return *j.used > *used_ + hair;
  return j.place && at_ && *at_ < *j.place;
}

void Strands::stand(const std::optional<WorkPlace>& at, std::optional<Length> used) {
  at_ = at;
  used_ = used;
  current_ = ropes_.joins_while(work_, [this](std::size_t join) { return !is_ahead(join); });
}

// The strand in the work ends before join `at` of it; what hung behind it is given back.
Chain Strands::split(std::size_t at) {
  const Maybe used = joins_[landed(at)].used;
  const std::size_t last = *last_piece().ball;
  Chain tail;
  work_ = ropes_.first(work_, at + 1, tail.pieces);
  tail.start = used;
  tail.first = *ropes_.at(tail.pieces, 0).ball;
  tail.last = last;
  return tail;
}

void Strands::lay_loose(const Chain& chain) {
  // Of a ball in several pieces, the one that lies loose first is the furthest.
  std::optional<std::size_t>& far = far_in_[chain.last];
  if (!far) far = chain.first;
  loose_[chain.first].push_back(chain);
}

std::vector<std::size_t> Strands::come_apart() {
  std::vector<std::size_t> parted;
  for (auto k = ropes_.last_apart(work_); k && *k >= current_; k = ropes_.last_apart(work_)) {
    parted.push_back(landed(*k));
    JoinState& join = joins_[parted.back()];
    join.held = JoinHeld::apart;
    Chain tail = split(*k);
    if (last_piece().end) last_piece().end = sum(join.used, half(join));
    tail.start = difference(join.used, half(join));
    lay_loose(tail);
  }
  return parted;
}

std::optional<std::size_t> Strands::next_ahead() {
  return current_ < joins_in_work() ? ropes_.at(work_, current_ + 1).ball : std::nullopt;
}

std::optional<std::size_t> Strands::cut_out() {
  if (current_ == joins_in_work()) return std::nullopt;
  const std::size_t parted = landed(current_);
  JoinState& join = joins_[parted];
  join.held = JoinHeld::cut_out;
  Chain tail = split(current_);
  if (last_piece().end) last_piece().end = difference(join.used, half(join));
  tail.start = sum(join.used, half(join));
  lay_loose(tail);
  return parted;
}

void Strands::attach(const Chain& chain, bool reached) {
  const JoinState& join = joins_.back();
  ropes_.move(chain.pieces, difference(join.used, sum(chain.start, join.trim_new + half(join))));
  last_piece().end = reached ? join.used : std::nullopt;
  const std::size_t last = chain.last;
  const bool further =
      std::any_of(loose_[last].begin(), loose_[last].end(), [&](const Chain& other) { return other.last == last; });
  far_in_[last] = further ? std::optional(last) : std::nullopt;
  work_ = ropes_.joined(work_, joins_.size() - 1, chain.pieces);
}

std::size_t Strands::join(std::size_t ball, bool reached) {
  assert(begun() && current_ + 1 == ropes_.size(work_));
  const JoinState& join = joins_.back();
  std::size_t gone = 0;
  if (loose(ball)) {
    Chain chain = loose_[ball].back();
    loose_[ball].pop_back();
    const Maybe cut = sum(chain.start, join.trim_new + half(join));
    for (; gone + 1 < ropes_.size(chain.pieces); ++gone) {
      JoinState& next = joins_[ropes_.join(chain.pieces, gone)];
      if (!cut || !next.used || *cut < *next.used) break;
      next.held = JoinHeld::cut_out;
    }
    Ropes::Root rest = chain.pieces;
    if (gone > 0) (void)ropes_.first(chain.pieces, gone, rest);
    chain.pieces = rest;
    attach(chain, reached);
  } else {
    const StrandPiece rest = last_piece();
    attach({ropes_.piece({ball, rest.end}), sum(join.used, join.trim_old + half(join)), ball, ball}, reached);
  }
  stand(at_, used_);
  return gone;
}

// Where the last join of the work lies.
std::optional<Length> Strands::last_join() {
  return joins_in_work() == 0 ? Maybe(Length()) : joins_[landed(joins_in_work() - 1)].used;
}

// Of the ball that a strand ends with, what hangs there begins with piece `first`, at `start`, unless another ball's
// lies between; overlaps lie on the scale twice.
std::optional<Length> Strands::hangs_from(Ropes::Root rope, std::size_t first, std::optional<Length> start) {
  if (const auto change = ropes_.last_change(rope); change && *change >= first) {
    first = *change + 1;
    start = joins_[ropes_.join(rope, *change)].used;
  }
  return difference(start, ropes_.taken(rope, first + 1));
}

std::optional<Strands::Far> Strands::far_end(std::size_t ball) {
  if (!far_in_[ball]) {
    if (!begun() || last_piece().ball != ball) return std::nullopt;
    const Maybe joined = current_ == 0 ? Maybe(Length()) : joins_[landed(current_ - 1)].used;
    const Maybe from = hangs_from(work_, current_, latest(joined, used_));
    return Far{&last_piece(), from};
  }
  for (const Chain& chain : loose_[*far_in_[ball]]) {
    if (chain.last != ball) continue;
    const Maybe from = hangs_from(chain.pieces, 0, chain.start);
    return Far{&ropes_.at(chain.pieces, ropes_.size(chain.pieces) - 1), from};
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

std::optional<Length> Strands::left_in_work() { return difference(last_piece().end, latest(last_join(), used_)); }

void Strands::tell(std::vector<BallState>& balls) {
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
  std::size_t k = 0;
  ropes_.each(work_, [&](const StrandPiece& piece, std::optional<std::size_t> join) {
    if (join) joins_[*join].held = k > current_ ? JoinHeld::ahead : JoinHeld::in_work;
    const Maybe joined = join ? joins_[*join].used : Maybe(Length());
    if (k == current_) count(piece, latest(joined, used_), BallUse::working);
    if (k > current_) count(piece, joined, BallUse::joined_ahead);
    ++k;
  });
  for (const std::vector<Chain>& chains : loose_) {
    for (const Chain& chain : chains) {
      ropes_.each(chain.pieces, [&](const StrandPiece& piece, std::optional<std::size_t> join) {
        count(piece, join ? joins_[*join].used : chain.start, join ? BallUse::joined_ahead : BallUse::fresh);
        if (!join) return;
        joins_[*join].held = JoinHeld::ahead;
        // Where they will land is open while their strand is loose.
        joins_[*join].place.reset();
        joins_[*join].used.reset();
      });
    }
  }
}

std::vector<std::size_t> Strands::landed() {
  std::vector<std::size_t> joins;
  joins.reserve(current_);
  ropes_.each(work_, [&](const StrandPiece&, std::optional<std::size_t> join) {
    if (join && joins.size() < current_) joins.push_back(*join);
  });
  return joins;
}

}  // namespace ballchange
