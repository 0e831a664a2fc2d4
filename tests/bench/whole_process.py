"""What the program takes as a whole process, in time and in memory.

    whole_process.py BUILD PROFILES [TIMES]

`check` against a bare program that loads the same libraries and the same file, both in turn, so that a noisy machine
slows both; the ratio of the medians counts. Then the commands of a project at ten times the entries.
"""

import pathlib
import statistics
import subprocess
import sys
import tempfile

import projects

ENVIRONMENT = {"HOME": "/", "PATH": "/usr/bin:/bin", "LC_ALL": "C"}
READINGS = ["--old", "rust 30, sand 11, plum", "--new", "plum 15, sand 11, rust 30"]
# Recording, but not the disk's part of it.
DRY = ["--dry-run", "--at", "2030-01-01T00:00Z"]


class Bench:
    def __init__(self, build):
        self.program, self.bare, self.spent = (str(build / name) for name in (
            "ballchange", "tests/bench/bench_bare", "tests/bench/bench_spent"))

    def run(self, *words):
        """Milliseconds and MiB of one run."""
        done = subprocess.run([self.spent, *words], capture_output=True, env=ENVIRONMENT, check=False, text=True)
        if done.returncode or done.stderr:
            sys.exit(f"{' '.join(words)}: exit {done.returncode}\n{done.stderr}")
        milliseconds, kib = done.stdout.split()
        return float(milliseconds), float(kib) / 1024

    def compare(self, title, file, check, times, most):
        spent = {"check": [], "bare": []}
        for _ in range(times):
            spent["check"].append(self.run(self.program, *check))
            spent["bare"].append(self.run(self.bare, str(file)))
        (ours, peak), (bare, bare_peak) = ([statistics.median(values) for values in zip(*runs)]
                                           for runs in spent.values())
        print(f"{title}, median of {times}, same libraries, same file, in turn")
        print(f"  check               {ours:9.2f} ms {peak:9.2f} MiB")
        print(f"  bare program        {bare:9.2f} ms {bare_peak:9.2f} MiB")
        print(f"  ratio               {ours / bare:9.2f}    {peak / bare_peak:9.2f}        at most {most}")

    def learn(self, times):
        """measure, from one strand of five repeats: 30 entries."""
        one = "plum 92, sand 11, rust 81, moss 14, navy 69, grey 9"
        strand = ", ".join([one.replace("plum 92", f"plum {88 + n}") for n in range(5)])
        runs = [self.run(self.program, "measure", "--strand", strand) for _ in range(times)]
        spent, peak = (statistics.median(values) for values in zip(*runs))
        print(f"measure, 30 entries, median of {times}")
        print(f"                      {spent:9.2f} ms {peak:9.2f} MiB        at most 50 ms")

    def grow(self, folder):
        """Commands on projects of ten times the entries: linear is ten times the time."""
        ends = ["--ball", "B29", *READINGS[:2]]
        piece = {"log": ["log"], "check": ["check", *ends], "join": ["join", *ends, "--row", "200000", *DRY],
                 "row": ["row", "--row", "200000", *DRY], "rip": ["rip", "--row", "1", *DRY],
                 "cancel": ["cancel", "300", *DRY], "weigh": ["weigh", "--mass", "10", *DRY]}
        kinds = [(lambda n: projects.piece(30, n), piece),
                 (lambda n: projects.piece(n // 2, n), {"log, a ball in two": ["log"]}),
                 (lambda n: projects.ravelled(n // 4, n // 4), {"log, all ripped": ["log"]}),
                 (projects.weighed, {"weigh, all weighings": ["weigh", "--mass", "10", *DRY]})]
        print("by the entries              10,000            100,000      times as much")
        for text, commands in kinds:
            files = []
            for entries in (10_000, 100_000):
                files.append(folder / f"{entries}.yaml")
                files[-1].write_text(text(entries), encoding="utf-8")
            for name, (command, *options) in commands.items():
                runs = [[self.run(self.program, command, str(file), *options) for _ in range(times)]
                        for file, times in zip(files, (3, 1))]
                (small, small_peak), (large, peak) = (map(min, zip(*run)) for run in runs)
                print(f"  {name:18}{small:6.0f} ms {small_peak:4.0f} MiB   {large:6.0f} ms {peak:4.0f} MiB   "
                      f"{large / small:5.1f} {peak / small_peak:5.1f}")


def main():
    build, profiles = (pathlib.Path(word).resolve() for word in sys.argv[1:3])
    times = int(sys.argv[3]) if len(sys.argv) > 3 else 100
    bench = Bench(build)
    profile = profiles / "orchard.yaml"
    bench.compare("a profile", profile, ["check", "--yarn", str(profile), *READINGS], times, 2)
    bench.learn(times)
    with tempfile.TemporaryDirectory() as name:
        folder = pathlib.Path(name)
        project = folder / "piece.yaml"
        project.write_text(projects.piece(30, 300), encoding="utf-8")
        bench.compare("a project of 30 balls, 300 entries", project, ["check", str(project), *READINGS[:2]], times, 1.5)
        bench.grow(folder)


if __name__ == "__main__":
    main()
