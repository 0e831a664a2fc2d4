"""The assignment behind the bound against scipy's, and the search against a published circle.

usage: judge.py PROBE
"""

import pathlib
import random
import subprocess
import sys

from scipy.optimize import linear_sum_assignment

CHECKS = pathlib.Path(__file__).resolve().parents[1] / "checks"
SEED, TABLES = 1955, 300


def tables():
    """Seeded tables of every kind: few and many ties, places on a circle, some pairs forbidden."""
    chance = random.Random(SEED)
    for _ in range(TABLES):
        n = chance.randint(3, 40)
        kind = chance.randrange(4)
        if kind == 3:
            period = chance.randint(10, 30000)
            tolerance = chance.randint(0, period // 20)
            finish, start = ([chance.randrange(period) for _ in range(n)] for _ in "es")
            table = [[max(0, (e - s + tolerance) % period - 2 * tolerance) for s in start] for e in finish]
        else:
            table = [[chance.randrange((3, 100, 10**9)[kind]) for _ in range(n)] for _ in range(n)]
        for i in range(n):
            table[i][i] = -1
            if n > 4 and chance.random() < 0.2:
                table[i][(i + 2) % n] = -1
        yield table


def published():
    """br17 of TSPLIB: best tour 39."""
    words = (CHECKS / "br17.atsp").read_text().split("EDGE_WEIGHT_SECTION")[1].split()
    costs = [int(word) for word in words if word != "EOF"]
    table = [costs[17 * i:17 * i + 17] for i in range(17)]
    for i in range(17):
        table[i][i] = -1
    return table


def asked(probe, given):
    text = "\n".join(f"{len(table)} " + " ".join(str(cost) for row in table for cost in row) for table in given)
    run = subprocess.run([probe], input=text, capture_output=True, text=True, check=True)
    return [tuple(map(int, line.split())) for line in run.stdout.splitlines()]


def least(table):
    """By scipy; what is forbidden costs more than all else together."""
    ban = 10**9 * (len(table) + 1)
    costs = [[ban if cost < 0 else cost for cost in row] for row in table]
    rows, columns = linear_sum_assignment(costs)
    return sum(costs[row][column] for row, column in zip(rows, columns))


def main():
    given = list(tables())
    answers = asked(sys.argv[1], given + [published()])
    wrong = [] if len(answers) == len(given) + 1 else [f"{len(answers)} answers to {len(given) + 1} tables"]
    for row, (table, (assignment, circle, bound)) in enumerate(zip(given, answers)):
        expected = least(table)
        if assignment != expected:
            wrong.append(f"seed {SEED}, table {row}: assignment {assignment}, by scipy {expected}")
        if not expected <= bound <= circle:
            wrong.append(f"seed {SEED}, table {row}: bound {bound} is not between {expected} and {circle}")
    if answers[-1][1:] != (39, 39):
        wrong.append(f"br17: circle {answers[-1][1]}, bound {answers[-1][2]}; published 39")
    print("\n".join(wrong) or f"{len(given)} assignments as scipy's; br17: 39, proven")
    return 1 if wrong else 0


if __name__ == "__main__":
    sys.exit(main())
