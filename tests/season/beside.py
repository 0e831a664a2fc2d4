"""A join as it really comes out, the least that could have been cut, and how other ways of joining would have done."""

from dataclasses import dataclass

import numpy as np

EYE = 15.0  # cm, one standard deviation: what is left of a colour, judged by eye


def nearest(length, total):
    return (length + total / 2) % total - total / 2


@dataclass
class Ends:
    """Both strands at a join, from their loose ends inward: section and length, cm."""
    yarn: object
    old: list
    new: list
    old_factor: float
    new_factor: float
    way: int
    allowance: float

    @property
    def factor(self):
        return (self.old_factor + self.new_factor) / 2

    def shift(self, i, used, j, kept):
        """How far the colours are out of step: `used` from where run i of the old strand starts to the cut, `kept` from
        the cut to where run j of the new one ends. Held against what these two balls have there on average."""
        meant = self.yarn.between(self.old[i][0], self.new[j][0], self.way) * self.factor
        return nearest(meant - (used + kept - self.allowance), self.yarn.total * self.factor)

    def as_they_are(self):
        """The shift when nothing is cut."""
        return self.shift(0, self.old[0][1], 0, self.new[0][1])

    def least_in_step(self, allowed):
        """What somebody who knows both places exactly cuts off by the same rule: in step, or nothing where that skips
        no more than allowed."""
        shift = self.as_they_are()
        if 0 <= shift <= allowed:
            return 0.0
        return (-shift) % (self.yarn.total * self.factor)

    def least_within(self, allowed):
        """The least that leaves no more than that, skipped or repeated."""
        shift = self.as_they_are()
        if abs(shift) <= allowed:
            return 0.0
        return (-shift - allowed) % (self.yarn.total * self.factor)

    def by_eye(self, rng):
        """The same colour sought on the new end, what is left of it judged by eye: shift, what is cut off."""
        section, used = self.old[0]
        wanted = self.yarn.lengths[section] * self.factor - used + self.allowance
        passed = 0.0
        for j, (k, run) in enumerate(self.new):
            if k == section:
                kept = wanted + rng.normal(0, EYE)
                if j > 0 or kept <= run:  # else too little seems left of it: the next one
                    kept = float(np.clip(kept, 0, run))
                    return self.shift(0, used, j, kept), passed + run - kept
            passed += run
        return None

    def anywhere(self, rng):
        """Anywhere in the first stretch of the same colour."""
        section, used = self.old[0]
        passed = 0.0
        for j, (k, run) in enumerate(self.new):
            if self.yarn.names[k] == self.yarn.names[section]:
                kept = float(rng.uniform(0, run))
                return self.shift(0, used, j, kept), passed + run - kept
            passed += run
        return None
