"""How much yarn the rows really take: the hand's own bias against the gauge told, and its drift from row to row."""

import numpy as np

BIAS = 0.015  # of the whole piece
DRIFT = 0.01  # tighter for a while, then looser again
WHILE = 10000.0  # cm of yarn


class Work:
    """The piece as it is worked, cm of yarn from the beginning of the foundation."""

    def __init__(self, stitches, per_stitch, per_turn, foundation, rows, rng):
        self.stitches, self.told_stitch, self.told_turn, self.foundation = stitches, per_stitch, per_turn, foundation
        told_row = stitches * per_stitch + per_turn
        stays = np.exp(-told_row / WHILE)
        steps = rng.normal(0, DRIFT, int(1.2 * rows) + 50)
        steps[1:] *= np.sqrt(1 - stays**2)
        drift = np.zeros_like(steps)
        for row, step in enumerate(steps):
            drift[row] = step + (stays * drift[row - 1] if row else 0.0)
        self.hand = 1 + rng.normal(0, BIAS) + drift  # row by row
        self.row_starts = foundation + np.concatenate([[0], np.cumsum(self.hand * told_row)])
        self.told_row = told_row

    def needed(self, rows):
        """Yarn by the gauge told."""
        return self.foundation + rows * self.told_row

    def end_of_row(self, row):
        return float(self.row_starts[row])

    def per_stitch(self, row):
        return float(self.told_stitch * self.hand[row - 1])

    def row_at(self, used):
        """The row that the yarn lies in, from 1."""
        return max(1, int(np.searchsorted(self.row_starts, used, side="right")))

    def at(self, used):
        """Row, and stitches of it done; the turn's yarn comes after the last stitch."""
        row = self.row_at(used)
        return row, min(self.stitches, max(0.0, (used - self.end_of_row(row - 1)) / self.per_stitch(row)))

    def stop_before(self, used):
        """The last whole stitch that takes no more yarn than that: row, stitch, yarn used. Stitch 0 is left to the row
        before."""
        row, stitch = self.at(used)
        stitch = int(stitch)
        if stitch == 0:
            return (row - 1, self.stitches, self.end_of_row(row - 1)) if row > 1 else (1, 0, self.foundation)
        if stitch == self.stitches and used >= self.end_of_row(row):
            return row, stitch, self.end_of_row(row)
        return row, stitch, self.end_of_row(row - 1) + stitch * self.per_stitch(row)
