"""What is to be made, of which yarn, and what kind of crafter this is."""

import numpy as np

import yarns
from reading import Habits
from tension import Work

ALLOWANCES = {"felted": (5, 10), "threaded": (6, 14), "woven": (20, 30), "knotted": (15, 25)}  # cm


class Terms:
    """All that is settled before the first ball is bought."""

    def __init__(self, profiles, folder, rng):
        self.rng, self.folder = rng, folder
        self._choose_yarn(profiles)
        self._choose_piece()

    def _choose_yarn(self, profiles):
        rng = self.rng
        if rng.random() < 0.3:
            path = profiles / f"{rng.choice(yarns.SHIPPED)}.yaml"
            self.yarn = yarns.shipped(path)
            self.yarn_file = str(path)
        else:
            self.yarn = yarns.invented(rng)
            self.yarn_file = "yarn.yaml"
            (self.folder / self.yarn_file).write_text(self.yarn.profile())
        self.density = self.yarn.ball_mass / self.yarn.ball_length * rng.normal(1, 0.01)
        inches = rng.random() < 0.15
        self.habits = Habits("in", 0.25) if inches else Habits("cm", float(rng.choice([0.5, 1.0])))

    def _choose_piece(self):
        rng, yarn = self.rng, self.yarn
        methods = [m for m in ALLOWANCES if m != "felted" or yarn.felts]
        self.method = str(rng.choice(methods))
        self.allowance = float(rng.integers(*ALLOWANCES[self.method], endpoint=True))
        self.per_stitch = round(float(rng.uniform(1.2, 3.2)), 2)
        self.stitches = int(rng.integers(30, 160))
        self.worked = str(rng.choice(["rows", "rounds", "turned-rounds"], p=[0.6, 0.25, 0.15]))
        self.per_turn = 0.0 if self.worked == "rounds" else round(float(rng.uniform(0, 4)), 1)
        self.foundation = round(self.stitches * self.per_stitch * float(rng.uniform(0.5, 1.5)), 0)
        self.tolerance = 2 * self.per_stitch
        self.sparing = rng.random() < 0.1
        self.kept = rng.random() < 0.05
        self.knots = 0.25 if rng.random() < 0.15 else 0.0
        self.reads_all = rng.random() < 0.4  # both what is bought for and how the next ball is chosen
        self.shows_hook = rng.random() < 0.8
        self.weighs = rng.random() < 0.5
        self.looks_back = rng.random() < 0.4  # tells where colours fell
        self.scale = float(rng.choice([0.1, 1.0]))
        self.wish = int(rng.integers(4, 15))
        row = self.stitches * self.per_stitch + self.per_turn
        self.tight = not self.reads_all and not self.knots and rng.random() < 0.8
        some = yarn.ball_length * float(rng.uniform(self.wish - 1, self.wish)) if not self.tight else 0.0
        self.needed = self._tight_need() if self.tight else some
        self.rows = max(10, int((self.needed - self.foundation) / row))
        self.work = Work(self.stitches, self.per_stitch, self.per_turn, self.foundation, self.rows, rng)
        self.told_need = self.work.needed(self.rows)

    def _tight_need(self):
        """As much as that many balls, joined as they come, hold in 96 of 100 cases: a promise that is hard to keep."""
        rng, yarn, n = self.rng, self.yarn, self.wish
        balls = rng.normal(1, 0.02, (20000, n)).sum(axis=1) * yarn.ball_length
        ends = rng.uniform(0, yarn.total, (20000, n - 1))
        if self.sparing:
            cut = np.maximum(0, ends - self.tolerance) * (ends < yarn.total - self.tolerance)
        else:
            cut = ends * (ends < yarn.total - self.tolerance)
        return float(np.quantile(balls - cut.sum(axis=1) - (n - 1) * self.allowance, 0.04))
