"""A season of projects, played through the program's own commands by a virtual crafter, and held against the truth.

    /usr/bin/python3 tests/season/season.py --program build-tests/ballchange --projects 2000

Every project has its own chance, from --seed and its number: --only plays one again and prints its commands.
"""

import argparse
import functools
import os
import pathlib
import shlex
import sys
import tempfile
import time
import traceback
from concurrent.futures import ProcessPoolExecutor

import table
from crafter import Crafter

PROFILES = pathlib.Path(__file__).resolve().parents[2] / "profiles"


def play(program, seed, show, index):
    """What came of one project; a text instead where the program did what a user can't go on from."""
    with tempfile.TemporaryDirectory(prefix="season-") as folder:
        crafter = Crafter(program, PROFILES, folder, seed, index)
        try:
            return crafter.play()
        except Exception:
            last = shlex.join(crafter.program.lines[-1]) if crafter.program.lines else "nothing typed yet"
            return f"seed {seed}, project {index}: {traceback.format_exc().strip()}\nlast typed: ballchange {last}"
        finally:
            if show:
                for line in crafter.program.lines:
                    print("ballchange", shlex.join(line))


def main():
    options = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    options.add_argument("--program", required=True, type=os.path.abspath)
    options.add_argument("--projects", type=int, default=2000)
    options.add_argument("--seed", type=int, default=1)
    options.add_argument("--only", type=int)
    options.add_argument("--workers", type=int, default=2)
    told = options.parse_args()
    indices = [told.only] if told.only is not None else range(told.projects)
    began = time.monotonic()
    played = functools.partial(play, told.program, told.seed, told.only is not None)
    with ProcessPoolExecutor(1 if told.only is not None else told.workers) as pool:
        results = list(pool.map(played, indices, chunksize=1 if told.only is not None else 5))
    failed = [result for result in results if isinstance(result, str)]
    projects = [result for result in results if not isinstance(result, str)]
    for text in failed[:10]:
        print(text, file=sys.stderr)
    if told.only is not None:
        for project in projects:
            print({key: value for key, value in project.items() if key != "joins"})
        return 1 if failed else 0
    bad = table.show(projects)
    print(f"\nseed {told.seed}, {time.monotonic() - began:.0f} s")
    for text in bad:
        print(f"seed {told.seed}: {text}", file=sys.stderr)
    if failed:
        print(f"{len(failed)} projects of {len(results)} could not be played to their end", file=sys.stderr)
    return 1 if bad or failed else 0


if __name__ == "__main__":
    sys.exit(main())
