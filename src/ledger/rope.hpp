#pragma once
#include <cstddef>
#include <cstdint>
#include <optional>
#include <utility>
#include <vector>

#include "base/random.hpp"
#include "ledger/state.hpp"

// Long strands of many balls, kept so that one is cut or joined anywhere in a time that hardly grows with its length: a
// treap by position (Seidel and Aragon 1996), moved along the work by a note at its root.
namespace ballchange {

// A ball, or what is left of one, on a strand. `end` counts along the strand: how much of it is used when this is.
struct StrandPiece {
  std::optional<std::size_t> ball;  // nothing: a ball that was never added
  std::optional<Length> end;
};

// Pieces are numbered from 0 along their strand; join k of a strand holds pieces k and k + 1 together. A strand is
// known by its root, which every cut and join of it changes. Numbers out of range are asserted against.
class Ropes {
 public:
  using Root = std::int32_t;
  static constexpr Root kNone = -1;
  explicit Ropes(std::vector<JoinState>& joins) : joins_(joins) {}

  [[nodiscard]] Root piece(const StrandPiece& piece);  // a strand of its own
  [[nodiscard]] std::size_t size(Root rope) const;     // pieces; joins are one fewer
  // Good until the next call. What the ledger's join holds is up to date once it was asked for here.
  [[nodiscard]] StrandPiece& at(Root rope, std::size_t piece);
  [[nodiscard]] std::size_t join(Root rope, std::size_t join);  // as an index into the ledger's
  [[nodiscard]] Root first(Root rope, std::size_t pieces, Root& rest);
  // `join`: the ledger's, that holds both together. Both strands: at least one piece.
  [[nodiscard]] Root joined(Root front, std::size_t join, Root back);
  // Ends of pieces, and the yarn used at its joins, not known any more where `by` isn't.
  void move(Root rope, std::optional<Length> by);
  // The last of its joins that comes apart when ravelled past.
  [[nodiscard]] std::optional<std::size_t> last_apart(Root rope) const;
  // The last of its joins that leads from one ball to another: no knot.
  [[nodiscard]] std::optional<std::size_t> last_change(Root rope) const;
  // Of its pieces from that one on, the ball of the first that such a join leads to; nothing where there is none.
  [[nodiscard]] std::optional<std::size_t> next_ball(Root rope, std::size_t from) const;
  // What the joins before its pieces from that one on take, all together.
  [[nodiscard]] Length taken(Root rope, std::size_t from) const;
  // The number of its first joins of which `holds` is true, up to the first of which it isn't.
  template <typename Holds>
  [[nodiscard]] std::size_t joins_while(Root rope, Holds&& holds);
  // Every piece with the join before it, along the strand: visit(piece, join), join as in join(), nothing at the first.
  template <typename Visit>
  void each(Root rope, Visit&& visit);

 private:
  static constexpr std::size_t kNoJoin = static_cast<std::size_t>(-1);
  struct Node {
    StrandPiece piece;
    std::size_t join = kNoJoin;           // before the piece
    std::optional<Length> by = Length();  // yet to be told to what hangs below
    Root left = kNone, right = kNone;
    std::uint32_t rank = 0, size = 1;
    bool apart = false, some_apart = false;    // the join before it comes apart; one of all below does
    bool change = false, some_change = false;  // that join leads from one ball to another; one of all below does
    Length takes, all_take;                    // that join; all below
  };
  [[nodiscard]] Node& node(Root root) { return nodes_[static_cast<std::size_t>(root)]; }
  [[nodiscard]] const Node& node(Root root) const { return nodes_[static_cast<std::size_t>(root)]; }
  void push(Root root);
  void pull(Root root);
  void set_join(Root rope, std::size_t join, bool change);
  [[nodiscard]] std::optional<std::size_t> last_where(Root rope, bool Node::*one, bool Node::*some) const;
  std::pair<Root, Root> split(Root rope, std::size_t pieces);
  Root merge(Root front, Root back);
  [[nodiscard]] Root find(Root rope, std::size_t piece);

  std::vector<JoinState>& joins_;
  std::vector<Node> nodes_;
  Random ranks_{1996};
};

template <typename Holds>
std::size_t Ropes::joins_while(Root rope, Holds&& holds) {
  std::size_t before = 0;  // pieces
  std::size_t most = size(rope);
  while (rope != kNone) {
    push(rope);
    const std::size_t here = before + size(node(rope).left);
    if (here == 0 || holds(node(rope).join)) {
      before = here + 1;
      rope = node(rope).right;
    } else {
      most = here;
      rope = node(rope).left;
    }
  }
  return most == 0 ? 0 : most - 1;
}

template <typename Visit>
void Ropes::each(Root rope, Visit&& visit) {
  if (rope == kNone) return;
  push(rope);
  each(node(rope).left, visit);
  visit(node(rope).piece, node(rope).join == kNoJoin ? std::nullopt : std::optional(node(rope).join));
  each(node(rope).right, visit);
}

}  // namespace ballchange
