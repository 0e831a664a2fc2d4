"""Yarn as it really is: a ball has its own stretch, every section its own length, and knots where it starts anew."""

from dataclasses import dataclass

import numpy as np


@dataclass
class Strand:
    """Yarn without a knot in it, in working order. The first and the last section are cut off somewhere."""
    sections: list  # which section of the repeat each run is
    runs: list  # how long each run is, cm
    factor: float  # the ball's stretch
    way: int  # +1 as the repeat is written, -1 from its other end

    @property
    def length(self):
        return sum(self.runs)

    def turned(self, yarn):
        if yarn.mirror is None:
            return Strand(self.sections[::-1], self.runs[::-1], self.factor, -self.way)
        same = [(yarn.mirror - k) % len(yarn.lengths) for k in self.sections[::-1]]
        return Strand(same, self.runs[::-1], self.factor, self.way)


def spin(yarn, length, factor, place, rng):
    """A strand that begins `place` cm into the repeat."""
    k, ahead = 0, place
    while ahead >= yarn.lengths[k]:
        ahead -= yarn.lengths[k]
        k += 1
    sections, runs, left = [], [], length
    skip = ahead / yarn.lengths[k]
    while left > 1e-9:
        whole = max(0.3 * yarn.lengths[k], rng.normal(factor * yarn.lengths[k], yarn.spreads[k]))
        run = min(left, whole * (1 - skip))
        sections.append(k)
        runs.append(run)
        left -= run
        skip = 0.0
        k = (k + 1) % len(yarn.lengths)
    return Strand(sections, runs, factor, +1)


def end_place(yarn, strand):
    """Where on the repeat the strand ends, counted as it ran on."""
    k = strand.sections[-1]
    return (sum(yarn.lengths[:k]) + strand.runs[-1] / strand.factor) % yarn.total


@dataclass
class Ball:
    name: str
    strands: list  # in the order they are worked; a knot between each and the next
    mass: float  # g, as it really is

    @property
    def length(self):
        return sum(strand.length for strand in self.strands)

    def turn(self, yarn):
        self.strands = [strand.turned(yarn) for strand in self.strands[::-1]]


KNOT_RUNS_ON = 0.15  # tied before it was dyed, or where just as much was missing
OTHER_END = 0.03  # wound the other way round


def wind(yarn, name, density, knots, rng):
    """One ball: `density` is g a cm of this yarn, `knots` how many a ball has on average."""
    length = max(0.5, rng.normal(1, 0.02)) * yarn.ball_length
    factor = rng.normal(1, yarn.stretch)
    apart = 3 * yarn.total + 100  # so that both ends of a piece can be laid out
    count = min(rng.poisson(knots), int(length / apart) - 1) if knots else 0
    while True:
        cuts = np.sort(rng.uniform(0, length, max(0, count)))
        pieces = np.diff(np.concatenate([[0], cuts, [length]]))
        if pieces.min() >= apart or not len(cuts):
            break
    strands = []
    for piece in pieces:
        runs_on = strands and rng.random() < KNOT_RUNS_ON
        place = end_place(yarn, strands[-1]) if runs_on else rng.uniform(0, yarn.total)
        strands.append(spin(yarn, float(piece), factor, place, rng))
    ball = Ball(name, strands, length * density)
    if rng.random() < OTHER_END:
        ball.turn(yarn)
    return ball
