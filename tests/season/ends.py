"""The two ends of a ball change in the crafter's hands: read, looked at again when the program asks, marked and dry
fitted."""

import re

from beside import Ends
from reading import Reading, tape

KINDS = [("overlooked", r"is there a (short piece|stretch) of "), ("next_change", r"how far does "),
         ("which_follows", r"which colour (follows|was worked before) "), ("how_long", r"how long is "),
         ("look_alike", r"is entry \d+ of the .* really "), ("wrong_way", r"written down from"),
         ("first_length", r"how far is it from the loose end")]


def kind_of(question):
    for kind, pattern in KINDS:
        if re.search(pattern, question):
            return kind
    raise AssertionError(f"a question nobody here can answer: {question}")


def inward(strand, end, reach):
    """Runs from that end of the strand, the last one cut off at reach."""
    pairs = list(zip(strand.sections, strand.runs))
    if end == "old":
        pairs.reverse()
    runs, left = [], reach
    for k, run in pairs:
        runs.append((k, min(run, left)))
        left -= run
        if left <= 0:
            break
    return runs


def read(yarn, strand, end, habits, rng, hook=None, per_stitch=None, reach=None):
    """A fresh reading: as far as the crafter's habit goes, past two to four changes."""
    reading = Reading(end, inward(strand, end, reach or min(strand.length, 6 * yarn.total)), yarn.names, yarn.lengths,
                      habits, rng, hook, per_stitch)
    reading.past_changes(int(rng.integers(2, 5)), into=rng.uniform(0.2, 0.9))
    return reading


def answer(placed, reading):
    """What was asked about this end, answered; False when nothing more can be told of it."""
    kind = kind_of(placed["ask"]) if placed["ask"] else None
    if kind in ("overlooked", "look_alike") and reading.look(carefully=True):
        return True
    if kind in ("next_change", "which_follows", "how_long", "overlooked", "look_alike"):
        return reading.past_changes(1)
    return reading.further(max(5.0, placed["measure_more"] or 0.0))


def measured_off(distance, rng):
    """A distance as told, rounded as it is printed, laid off along the strand."""
    return max(0.0, tape(round(2 * distance) / 2, rng))


def find_run(reading, mark, neighbour):
    """The run that a mark lies in: that colour with the other one beside it, as told. None when it isn't there, as when
    a stretch between them was overlooked before and shows now."""
    names, runs = reading.names, reading.runs
    candidates = reading.changes_passed(mark["changes"])
    for i in candidates + [candidates[-1] + 1, candidates[0] - 1, candidates[-1] + 2]:
        here = 0 <= i < len(runs) - 1 and names[runs[i][0]] == mark["colour"]
        if here and neighbour in (None, names[runs[i + 1][0]]):
            return i
    return None


class Cut:
    """Both marks found on the strands as they are. `used` and `kept` are measured from the changes that bound them."""

    def __init__(self, join, old, new, rng):
        self.found = self.can_fit = False
        fit = join["dry_fit"]
        # Where the overlap reaches over a change, the dry fit is from or to another one than a mark is told from.
        same_old = fit and fit["from"][1] == join["old_mark"]["colour"]
        same_new = fit and fit["to"][0] == join["new_mark"]["colour"]
        before, after = fit["from"][0] if same_old else None, fit["to"][1] if same_new else None
        self.can_fit = same_old and same_new
        if join["old_mark"]["from"] != "start" or join["new_mark"]["from"] != "end":
            return
        # Both strands inward: the old one's section starts where the run ends, the new one's ends where the run does.
        self.i = find_run(old, join["old_mark"], before)
        self.j = find_run(new, join["new_mark"], after)
        if self.i is None or self.j is None:
            return
        self.found = True
        to_i = sum(run for _, run in old.runs[:self.i + 1])
        to_j = sum(run for _, run in new.runs[:self.j + 1])
        uncut_old, uncut_new = join["trim_old"] < 0.25, join["trim_new"] < 0.25
        self.used = to_i if uncut_old else min(to_i, measured_off(join["old_mark"]["distance"], rng))
        self.kept = to_j if uncut_new else min(to_j, measured_off(join["new_mark"]["distance"], rng))
        self.trim_old, self.trim_new = to_i - self.used, to_j - self.kept

    def dry_fit_off(self, join, allowance, rng):
        if not self.can_fit:
            return 0.0
        return abs(tape(max(0.0, self.used + self.kept - allowance), rng) - join["dry_fit"]["length"])


def ends_at(yarn, old_strand, new_strand, old, new, allowance):
    return Ends(yarn, old.runs, new.runs, old_strand.factor, new_strand.factor, new_strand.way, allowance)
