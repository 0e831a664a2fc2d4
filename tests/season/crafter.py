"""One project from the first ball to the last, by a crafter whose hands, tape and yarn are not what they are told to
be. The truth stays here; the program is told only what the crafter could know."""

import pathlib

import numpy as np

from asking import Asking
from ends import read
from joining import Joining
from program import Program
from strand import wind
from terms import Terms


class Crafter(Terms, Asking, Joining):
    def __init__(self, program, profiles, folder, seed, index):
        super().__init__(profiles, pathlib.Path(folder), np.random.default_rng([seed, index]))
        self.program = Program(program, folder)
        self.result = {"index": index, "shows_hook": self.shows_hook, "joins": [], "weighings": [], "sightings": []}

    # What the program is told.

    def _start(self):
        options = ["p.yaml", "--yarn", self.yarn_file, "--worked", self.worked, "--stitches", str(self.stitches),
                   "--rows", str(self.rows), "--yarn-per-stitch", f"{self.per_stitch:g}cm", "--yarn-per-turn",
                   f"{self.per_turn:g}cm", "--foundation", f"{self.foundation:g}cm", "--method", self.method,
                   "--allowance", f"{self.allowance:g}cm"]
        if self.kept:
            options += ["--keep", "from-the-start"]
        self.program.run("start", *options)

    def _buy(self):
        options = ["--keep", "each-join"] + (["--sparing"] if self.sparing else [])
        if self.knots:
            options += ["--knots", f"{self.knots:g}"]
        _, told = self.program.run("estimate", *options)
        way = next(w for w in told["ways"] if w["way"] == ("best-of-hand" if self.reads_all else "as-they-come"))
        count = way["balls"]["p95"]
        chance = next(e["chance"] for e in way["enough"] if e["balls"] == count)
        self.result["promise"] = {"balls": count, "chance": chance, "tight": self.tight, "way": way["way"],
                                  "needed_off": told["needed"] - self.told_need}
        names = [chr(ord("A") + i) if i < 26 else f"A{i}" for i in range(count)]
        self.balls = [wind(self.yarn, name, self.density, self.knots, self.rng) for name in names]

    def _weight(self, grams):
        text = f"{max(self.scale, round(grams / self.scale) * self.scale):.1f}"
        return (text if self.scale < 1 else text.split(".")[0]) + "g"

    def _add_ball(self, ball, *more):
        options = ["--ball", ball.name]
        if self.rng.random() < 0.7:
            options += ["--mass", self._weight(ball.mass)]
        self.readings[ball.name] = read(self.yarn, ball.strands[0], "new", self.habits, self.rng)
        self.program.run("ball", *options, "--outside", self.readings[ball.name].text(), *more)
        self.added.add(ball.name)

    # The work.

    def play(self):
        self._start()
        self._buy()
        self.readings, self.added = {}, set()
        self.result["bought"] = sum(ball.length for ball in self.balls)
        self.trimmed = self.in_joins = 0.0
        self.used = 0.0  # cm of yarn in the work, the foundation among it
        self.direction = "usual"
        first = self.balls[0]
        self._add_ball(first, "--begin", "--trim-new", "0")
        self.fresh = list(self.balls[1:])
        if self.reads_all:
            for ball in self.fresh:
                self._add_ball(ball)
        self._take_up(first)
        self.end = self.work.end_of_row(self.rows)
        while self._work_this_strand():
            if self.strands_left:
                self._knot()
            elif self.fresh:
                self._change_ball()
            else:
                break
        self._finish()
        return self.result

    def _take_up(self, ball):
        self.ball, self.strands_left = ball, list(ball.strands)
        self._take_strand(self.strands_left.pop(0), 0.0)

    def _take_strand(self, strand, skipped):
        """The hook goes on with it; `skipped` of it lies in what is behind the join or was cut off."""
        self.strand = strand
        self.strand_zero = self.used - skipped  # where in the work its loose end would lie

    @property
    def loose(self):
        """Yarn of this strand that is not worked yet."""
        return self.strand_zero + self.strand.length - self.used

    def _stop(self, used):
        row, stitch, self.used = self.work.stop_before(min(used, self.end))
        return row, stitch

    def _tell_row(self, row, stitch, *seen):
        if (row, stitch) < (1, 1):
            return
        options = ["--row", str(row)] + ([] if stitch == self.stitches else ["--stitch", str(stitch)])
        for text in seen:
            options += ["--seen", text]
        self.program.run("row", *options)

    def _work_this_strand(self):
        """True where it ran out before the work was done."""
        wanted = 15 + self.allowance + float(self.rng.uniform(0.6, 1.3)) * self.yarn.total
        self._halfway(self.loose - wanted)
        if self.used + self.loose - wanted >= self.end:
            self.used = self.end
            return False
        last = not self.fresh and not self.strands_left
        if last:
            done = self.used + self.loose >= self.end
            self.used = self.end if done else self.used + self.loose
            return not done
        self.hook = self._stop(self.used + self.loose - wanted)
        self._tell_row(*self.hook, *self._seen())
        return True

    def _halfway(self, ahead):
        """Somewhere along the ball: weighed, and looked back at where colours fell."""
        at = self.used + float(self.rng.uniform(0.3, 0.8)) * ahead
        if at >= self.end or at < self.joined_at() + 2 * self.work.told_row or not (self.weighs or self.looks_back):
            return
        row, stitch = self._stop(at)
        if row < 2:
            return
        self._tell_row(row, stitch, *self._seen())
        if self.weighs:
            self._weigh()

    def _seen(self):
        """The last change of this strand that lies in the work, by row and stitch, where the crafter looks back."""
        if not self.looks_back:
            return []
        position, last = self.strand_zero, None
        for k, run in zip(self.strand.sections, self.strand.runs):
            if position > self.used - 2 * self.per_stitch:
                break
            if position > self.joined_at() + 1:
                last = (position, k)
            position += run
        if last is None:
            return []
        row, stitch = self.work.at(last[0])
        return [f"row {row} stitch {min(self.stitches, int(stitch) + 1)} {self.yarn.names[last[1]]} begins"]

    def joined_at(self):
        return getattr(self, "last_join", 0.0)

    def _weigh(self):
        rest = self.loose + sum(strand.length for strand in self.strands_left)
        _, told = self.program.run("weigh", "--ball", self.ball.name, "--mass", self._weight(rest * self.density))
        stock = told["stock"]
        knots = bool(self.strands_left)
        out = {"left": stock["left"] - rest, "plus_minus": stock["plus_minus"], "ball": self.yarn.ball_length}
        if stock.get("ends") and not knots:
            row, stitch = self.work.at(self.used + rest)
            at = row + stitch / self.stitches

            def place(end):
                return end["row"] + end["stitch"] / self.stitches

            out["in_range"] = place(stock["ends"]["low"]) <= at <= place(stock["ends"]["high"])
        if stock.get("enough"):
            out["chance"] = stock["enough"]["chance"]
        self.result["weighings"].append(out)

    # Ball changes and knots.

    def per_stitch_now(self):
        return self.work.per_stitch(self.work.row_at(self.used))

    def _change_ball(self):
        options = ["--sparing"] if self.sparing else []
        if not self.reads_all:
            self._add_ball(self.fresh[0])
        old = self._read_old()
        advice = self._settle(old, None, options)
        name = advice["told"]["ball"] if advice else self.fresh[0].name
        ball = next(b for b in self.fresh if b.name == name)
        self.fresh.remove(ball)
        self._join(advice, old, ball.strands[0], self.readings[name], ball)

    def _knot(self):
        """The next strand of this ball is tied on."""
        strand = self.strands_left[0]
        new = read(self.yarn, strand, "new", self.habits, self.rng)
        old = self._read_old()
        advice = self._settle(old, new, ["--knot"] + (["--sparing"] if self.sparing else []))
        self.strands_left.pop(0)
        self._join(advice, old, strand, new, None)

    # The end.

    def _finish(self):
        rest = self.loose + sum(s.length for s in self.strands_left) + sum(b.length for b in self.fresh)
        done = self.used >= self.end - 1e-6
        row, stitch, _ = self.work.stop_before(self.used + 1e-6)
        if done:
            row, stitch = self.rows, self.stitches
        self._tell_row(row, stitch)
        _, log = self.program.run("log")
        totals = log["totals"]
        short = self.told_need - self.used
        usable = self.loose + sum(s.length for s in self.strands_left)
        spare = sum(b.length - self.yarn.total - self.allowance for b in self.fresh)
        self.result["promise"].update(enough=done, would_do=short <= 0 or (done and short <= usable + spare))
        left = log["left"]["length"] if log["left"] else None
        self.result["ledger"] = {
            "joins": totals["joins"] - len([j for j in self.result["joins"] if not j.get("left")]),
            "trimmed_told": totals["discard"], "trimmed": self.trimmed, "in_joins_told": totals["allowance"],
            "in_joins": self.in_joins, "left_told": left, "left": rest, "at": log["at"], "row": row, "stitch": stitch,
            "bought": self.result["bought"], "ball": self.yarn.ball_length, "balls": len(self.balls),
            "balanced": self.result["bought"] - (self.used + self.trimmed + self.in_joins + rest),
            "added": sorted(self.added), "fresh_unadded": sum(b.length for b in self.fresh if b.name not in self.added)}
        creep = log["creep"]
        if creep and creep["known"]:
            self.result["sightings"].append(
                (creep["yarn_per_stitch"] - self.per_stitch_now()) / creep["yarn_per_stitch_give_or_take"])
        self.result["runs"] = self.program.runs
