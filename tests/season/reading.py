"""What the crafter writes down of an end: splashes overlooked, a tape that is off, rounding, at times a wrong name."""

from dataclasses import dataclass, field

MISNAMED = 0.003


@dataclass
class Habits:
    unit: str  # cm or in
    step: float  # of the unit

    @property
    def cm(self):
        return 2.54 if self.unit == "in" else 1.0


def tape(length, rng):
    return length + rng.normal(0, 0.5 + 0.01 * length)


def written(length, habits, rng):
    """Measured and rounded, as text; never nothing."""
    steps = max(1, round(tape(length, rng) / habits.cm / habits.step))
    return f"{steps * habits.step:g}{habits.unit}"


@dataclass
class Reading:
    """One end, from the loose end inward. `runs` are what is really there: section and length, cm."""
    end: str  # "old" or "new"
    runs: list
    names: list  # of the sections
    lengths: list  # as the repeat has them: short ones are easily overlooked
    habits: Habits
    rng: object
    hook: float = None  # so far from the loose end; beyond it, stitches in the work
    per_stitch: float = None
    seen: list = field(default_factory=list)
    reach: float = 0.0

    def __post_init__(self):
        self.measured = {}
        self.look()

    def look(self, carefully=False):
        """Which runs are noticed, and what they are taken for."""
        before = (list(self.seen), getattr(self, "called", None))
        self.seen, self.called = [], []
        for i, (k, _) in enumerate(self.runs):
            easily = 0.2 if self.lengths[k] <= 5 else 0.01
            first_of_ball = self.end == "new" and i == 0
            self.seen.append(carefully or first_of_ball or self.rng.random() >= easily)
            name = self.names[k]
            if not carefully and self.rng.random() < MISNAMED:
                beside = {self.names[j] for j, _ in self.runs[max(0, i - 1):i + 2]}
                others = sorted(set(self.names) - beside)
                name = str(self.rng.choice(others)) if others else name
            self.called.append(name)
        return before != (self.seen, self.called)

    def again(self):
        """Everything measured and looked at anew."""
        self.measured = {}
        self.look(carefully=True)

    @property
    def whole_length(self):
        return sum(run for _, run in self.runs)

    def further(self, length):
        """Measures so much further; False when there is no more."""
        before = self.reach
        self.reach = min(self.reach + length, self.whole_length)
        return self.reach > before + 0.5

    def past_changes(self, count, into=0.6):
        """Measures on past so many more changes."""
        passed, position = 0, 0.0
        for i, (_, run) in enumerate(self.runs):
            if position > self.reach:
                passed += 1
            if passed >= count and position > self.reach:
                self.reach = position + into * run
                return True
            position += run
        return self.further(self.whole_length)

    def entries(self):
        """Name, first and last run, start and end in cm; what is overlooked goes to the one before it in working
        order."""
        entries, position = [], 0.0
        waiting = None  # where an overlooked run began that goes to the next one inward
        for i, (_, run) in enumerate(self.runs):
            start, stop = position, min(position + run, self.reach)
            position += run
            cut_short = stop < position - 1e-9
            if not self.seen[i] and self.end == "new" and entries:
                name, first, _, begin, _ = entries[-1]
                entries[-1] = (name, first, i, begin, stop)
            elif not self.seen[i] and self.end == "old" and not cut_short and i + 1 < len(self.runs):
                waiting = waiting or (i, start)
                continue
            else:
                first, begin = waiting or (i, start)
                waiting = None
                if entries and entries[-1][0] == self.called[i]:
                    name, first, _, begin, _ = entries[-1]
                    entries[-1] = (name, first, i, begin, stop)
                else:
                    entries.append((self.called[i], first, i, begin, stop))
            if cut_short or position >= self.reach - 1e-9:
                break
        return entries

    def text(self):
        parts = []
        hook_told = False
        for name, _, last, start, stop in self.entries():
            if self.hook is None or stop <= self.hook + 1e-9:
                parts.append(f"{name} {self._length(start, stop)}")
                continue
            if start < self.hook - 1e-9:
                parts.append(f"{name} {self._length(start, self.hook)}")
            if not hook_told:
                parts.append("hook")
                hook_told = True
            stitches = round((stop - max(start, self.hook)) / self.per_stitch)
            if stitches > 0:
                parts.append(f"{name} {stitches}st")
        if self.hook is not None and not hook_told and self.reach >= self.hook - 1e-9:
            parts.append("hook")
        return ", ".join(parts)

    def _length(self, start, stop):
        key = (round(start, 3), round(stop, 3))
        if key not in self.measured:
            self.measured[key] = written(stop - start, self.habits, self.rng)
        return self.measured[key]

    def changes_passed(self, count):
        """The runs that may be meant by 'past so many changes': those of that entry as written, or, beyond what was
        read, the run so many further on."""
        entries = self.entries()
        if count < len(entries):
            _, first, last, _, _ = entries[count]
            return list(range(first, last + 1))
        return [min(len(self.runs) - 1, entries[-1][2] + count - len(entries) + 1)]
