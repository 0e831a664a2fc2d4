#include "ledger/rope.hpp"

#include <cassert>

namespace ballchange {
namespace {

std::optional<Length> moved(std::optional<Length> from, std::optional<Length> by) {
  return from && by ? std::optional(*from + *by) : std::nullopt;
}

}  // namespace

Ropes::Root Ropes::piece(const StrandPiece& piece) {
  Node made;
  made.piece = piece;
  made.rank = static_cast<std::uint32_t>(ranks_.bits());
  nodes_.push_back(made);
  return static_cast<Root>(nodes_.size() - 1);
}

std::size_t Ropes::size(Root rope) const { return rope == kNone ? 0 : node(rope).size; }

// A node's own piece and join have moved already when the note is made; only those below haven't.
void Ropes::move(Root rope, std::optional<Length> by) {
  if (rope == kNone) return;
  Node& top = node(rope);
  top.piece.end = moved(top.piece.end, by);
  if (top.join != kNoJoin) joins_[top.join].used = moved(joins_[top.join].used, by);
  top.by = moved(top.by, by);
}

void Ropes::push(Root root) {
  Node& top = node(root);
  if (top.by == Length()) return;
  move(top.left, top.by);
  move(top.right, top.by);
  top.by = Length();
}

void Ropes::pull(Root root) {
  Node& top = node(root);
  top.size = static_cast<std::uint32_t>(1 + size(top.left) + size(top.right));
  top.some_apart = top.apart || (top.left != kNone && node(top.left).some_apart) ||
                   (top.right != kNone && node(top.right).some_apart);
  top.some_change = top.change || (top.left != kNone && node(top.left).some_change) ||
                    (top.right != kNone && node(top.right).some_change);
  top.all_take = top.takes;
  for (const Root below : {top.left, top.right}) {
    if (below != kNone) top.all_take += node(below).all_take;
  }
}

std::pair<Ropes::Root, Ropes::Root> Ropes::split(Root rope, std::size_t pieces) {
  if (rope == kNone) return {kNone, kNone};
  push(rope);
  const std::size_t left = size(node(rope).left);
  if (pieces <= left) {
    const auto [front, back] = split(node(rope).left, pieces);
    node(rope).left = back;
    pull(rope);
    return {front, rope};
  }
  const auto [front, back] = split(node(rope).right, pieces - left - 1);
  node(rope).right = front;
  pull(rope);
  return {rope, back};
}

Ropes::Root Ropes::merge(Root front, Root back) {
  if (front == kNone) return back;
  if (back == kNone) return front;
  if (node(front).rank >= node(back).rank) {
    push(front);
    node(front).right = merge(node(front).right, back);
    pull(front);
    return front;
  }
  push(back);
  node(back).left = merge(front, node(back).left);
  pull(back);
  return back;
}

Ropes::Root Ropes::find(Root rope, std::size_t piece) {
  assert(piece < size(rope));
  while (true) {
    push(rope);
    const std::size_t left = size(node(rope).left);
    if (piece == left) return rope;
    if (piece < left) {
      rope = node(rope).left;
    } else {
      piece -= left + 1;
      rope = node(rope).right;
    }
  }
}

StrandPiece& Ropes::at(Root rope, std::size_t piece) { return node(find(rope, piece)).piece; }

std::size_t Ropes::join(Root rope, std::size_t join) { return node(find(rope, join + 1)).join; }

// The join before the first piece of all.
void Ropes::set_join(Root rope, std::size_t join, bool change) {
  push(rope);
  Node& top = node(rope);
  if (top.left != kNone) {
    set_join(top.left, join, change);
  } else {
    top.join = join;
    top.change = change;
    top.apart = join != kNoJoin && method_row(joins_[join].method).comes_apart;
    top.takes = join == kNoJoin ? Length() : joins_[join].allowance.value_or(Length());
  }
  pull(rope);
}

Ropes::Root Ropes::first(Root rope, std::size_t pieces, Root& rest) {
  const auto [front, back] = split(rope, pieces);
  if (back != kNone) set_join(back, kNoJoin, false);
  rest = back;
  return front;
}

Ropes::Root Ropes::joined(Root front, std::size_t join, Root back) {
  assert(front != kNone && back != kNone);
  const bool change = at(front, size(front) - 1).ball != at(back, 0).ball;
  set_join(back, join, change);
  return merge(front, back);
}

std::optional<std::size_t> Ropes::last_where(Root rope, bool Node::*one, bool Node::*some) const {
  if (rope == kNone || !(node(rope).*some)) return std::nullopt;
  std::size_t before = 0;
  while (true) {
    const Node& top = node(rope);
    const std::size_t here = before + size(top.left);
    if (top.right != kNone && node(top.right).*some) {
      before = here + 1;
      rope = top.right;
    } else if (top.*one) {
      return here - 1;
    } else {
      rope = top.left;
    }
  }
}

std::optional<std::size_t> Ropes::last_apart(Root rope) const {
  return last_where(rope, &Node::apart, &Node::some_apart);
}

std::optional<std::size_t> Ropes::last_change(Root rope) const {
  return last_where(rope, &Node::change, &Node::some_change);
}

std::optional<std::size_t> Ropes::next_ball(Root rope, std::size_t from) const {
  if (rope == kNone || !node(rope).some_change) return std::nullopt;
  const Node& top = node(rope);
  const std::size_t here = size(top.left);
  if (here >= from) {
    if (const auto found = next_ball(top.left, from)) return found;
    if (top.change) return top.piece.ball;
  }
  return next_ball(top.right, from > here ? from - here - 1 : 0);
}

Length Ropes::taken(Root rope, std::size_t from) const {
  Length sum;
  while (rope != kNone) {
    const Node& top = node(rope);
    const std::size_t here = size(top.left);
    if (here < from) {
      from -= here + 1;
      rope = top.right;
    } else {
      sum += top.takes;
      if (top.right != kNone) sum += node(top.right).all_take;
      rope = top.left;
    }
  }
  return sum;
}

}  // namespace ballchange
