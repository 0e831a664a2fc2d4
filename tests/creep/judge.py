"""The creep's filter against one least-squares answer over everything at once, by scipy.

Each thing not known beforehand is a number of its own with a unit prior; t, b and x are sums of them. A row a prior and
a row a sighting, weighted, and scipy solves for all of them together: no recursion, no gain.

usage: judge.py PROBE
"""

import random
import subprocess
import sys

import numpy
from scipy.linalg import lstsq

SEED, PROJECTS = 1960, 200


def project(chance):
    """Events of an invented work: sightings, joins, gauges, a long stretch with nothing seen."""
    gauge, ball, drift = chance.choice([(0.03, 0.02, 1e-8), (0.05, 0.0, 0.0), (0.01, 0.04, 1e-6)])
    events = [("doubts", gauge, ball, drift), ("settle", 0.0, chance.uniform(0.1, 4))]
    for _ in range(chance.randint(1, 40)):
        length = chance.choice([0, 30, 300, 5000]) * chance.random()
        events += [("work", length * chance.uniform(0.8, 1), length), ("blur", chance.choice([0, 4, 120]))]
        kind = chance.randrange(10)
        if kind < 7:
            events.append(("see", chance.gauss(0, 20), chance.choice([0.86, 1100])))
        else:
            events.append([("gauge",), ("ball",), ("settle", chance.gauss(0, 50), 0.9)][kind - 7])
    return events


class Batch:
    def __init__(self):
        self.size = 0
        self.seen = []

    def unknown(self, sd):
        """A sum with one more number in it."""
        self.size += 1
        return {self.size - 1: sd}

    @staticmethod
    def plus(a, b, times=1.0):
        total = dict(a)
        for key, value in b.items():
            total[key] = total.get(key, 0) + times * value
        return total

    def run(self, events):
        for what, *given in events:
            if what == "doubts":
                self.doubts = given
                self.t, self.b, self.x = self.unknown(given[0]), self.unknown(given[1]), {}
                self.known = 0.0
            elif what == "work":
                self.x = self.plus(self.plus(self.x, self.t, given[0]), self.b, -given[1])
                self.t = self.plus(self.t, self.unknown((self.doubts[2] * given[0]) ** 0.5))
            elif what == "blur":
                self.x = self.plus(self.x, self.unknown(given[0] ** 0.5))
            elif what == "gauge":
                self.t = self.unknown(self.doubts[0])
            elif what == "ball":
                self.b = self.unknown(self.doubts[1])
            elif what == "settle":
                self.x, self.known = self.unknown(given[1] ** 0.5), given[0]
            else:
                self.seen.append((self.x, given[0] - self.known, given[1] ** 0.5))
        rows = numpy.eye(self.size + len(self.seen), self.size)
        right = numpy.zeros(len(rows))
        for n, (x, off, sd) in enumerate(self.seen):
            for key, value in x.items():
                rows[self.size + n, key] = value / sd
            right[self.size + n] = off / sd
        answer = lstsq(rows, right)[0]
        spread = numpy.linalg.inv(rows.T @ rows)

        def told(of):
            w = numpy.zeros(self.size)
            for key, value in of.items():
                w[key] = value
            return w @ answer, (w @ spread @ w) ** 0.5

        t, b, x = told(self.t), told(self.b), told(self.x)
        return [*t, *b, x[0] + self.known, x[1] ** 2, told(self.plus(self.t, self.b, -1))[1]]


def main():
    chance = random.Random(SEED)
    given = [project(chance) for _ in range(PROJECTS)]
    text = "\n".join(" ".join(map(repr, event)).replace("'", "") for events in given for event in [*events, ("tell",)])
    run = subprocess.run([sys.argv[1]], input=text, capture_output=True, text=True, check=True)
    answers = [list(map(float, line.split())) for line in run.stdout.splitlines()]
    wrong = [] if len(answers) == PROJECTS else [f"{len(answers)} answers to {PROJECTS} projects"]
    for number, (events, answer) in enumerate(zip(given, answers)):
        expected = Batch().run(events)
        if not numpy.allclose(answer, expected, rtol=1e-6, atol=1e-9):
            wrong.append(f"seed {SEED}, project {number}: {answer}, by scipy {expected}")
    print("\n".join(wrong[:5]) or f"{PROJECTS} works as scipy solves them at once, seed {SEED}")
    return 1 if wrong else 0


if __name__ == "__main__":
    sys.exit(main())
