"""A strand: pieces of balls in the order of the work, joined to each other; everything added up afresh."""

HAIR = 1e-6


class Piece:
    def __init__(self, ball, length, part=0, ended=False):
        self.ball, self.length, self.part = ball, length, part
        self.ended = ended  # at a join: its length no longer hangs on its ball's
        self.beyond = False  # at a join that its ball can't have reached: how long it is, nobody knows


class Strand:
    def __init__(self, pieces):
        self.pieces, self.joins = pieces, []

    def reach(self, k):
        """How far the first k pieces reach."""
        return sum(piece.length for piece in self.pieces[:k])

    def passed(self, worked):
        """How many joins lie within so much yarn."""
        count = 0
        while count < len(self.joins) and self.reach(count + 1) <= worked + HAIR:
            count += 1
        return count

    def split(self, k):
        """Cuts at join k; what hung behind it."""
        tail = Strand(self.pieces[k + 1 :])
        tail.joins = self.joins[k + 1 :]
        self.pieces, self.joins = self.pieces[: k + 1], self.joins[:k]
        return tail
