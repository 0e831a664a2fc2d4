"""Works simulated as their balls come, against the same in vectorised numpy, in turn: `numpy_estimate.py BENCH`."""

import statistics
import subprocess
import sys
import time

import numpy

WORKS = 1_000_000
AT_ONCE = 50_000  # as many as stay in the cache
BALLS = 14
NEEDED, PERIOD, ALLOWANCE, TOLERANCE, BALL = 148_000, 276, 8, 3.7, 12_500


def in_numpy(random):
    start = time.perf_counter()
    waste, balls = [], []
    for _ in range(WORKS // AT_ONCE):
        holds = random.normal(BALL, 0.02 * BALL, (AT_ONCE, BALLS))
        lost = random.uniform(0, PERIOD, (AT_ONCE, BALLS))
        lost[lost >= PERIOD - TOLERANCE] = 0
        lost += ALLOWANCE
        lost[:, 0] = 0
        count = (numpy.cumsum(holds - lost, axis=1) < NEEDED).sum(axis=1)
        waste.append(numpy.take_along_axis(numpy.cumsum(lost, axis=1), count[:, None], axis=1))
        balls.append(count + 1)
    waste, balls = numpy.concatenate(waste), numpy.concatenate(balls)
    numpy.quantile(waste, [0.5, 0.9, 0.95])
    return time.perf_counter() - start, waste.mean(), balls.mean()


def main():
    random = numpy.random.default_rng(1)
    ours, numpys = [], []
    for _ in range(5):
        ours.append([float(word) for word in subprocess.check_output([sys.argv[1], str(WORKS)], text=True).split()])
        numpys.append(in_numpy(random))
    (fast, waste, balls), (slow, waste_numpy, balls_numpy) = (
        [statistics.median(column) for column in zip(*runs)] for runs in (ours, numpys))
    print(f"estimate, {WORKS:,} works as their balls come, median of 5, in turn")
    print(f"  ours                {fast * 1000:9.1f} ms    waste {waste:.1f} cm, {balls:.3f} balls")
    print(f"  numpy               {slow * 1000:9.1f} ms    waste {waste_numpy:.1f} cm, {balls_numpy:.3f} balls")
    print(f"  ratio               {slow / fast:9.2f}       at least 10")


main()
