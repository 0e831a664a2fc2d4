"""How long `check` takes as a whole process, against a bare program that loads the same libraries and the same profile.

    whole_process.py BALLCHANGE BARE PROFILE [TIMES]

Both run in turn, so that a noisy machine slows both; the ratio of the medians counts.
"""

import os
import pathlib
import statistics
import sys
import time


def milliseconds(words, environment, quiet):
    actions = [(os.POSIX_SPAWN_DUP2, quiet, 0), (os.POSIX_SPAWN_DUP2, quiet, 1)]
    start = time.perf_counter()
    child = os.posix_spawn(words[0], words, environment, file_actions=actions)
    _, status = os.waitpid(child, 0)
    spent = time.perf_counter() - start
    code = os.waitstatus_to_exitcode(status)
    if code:
        sys.exit(f"{' '.join(words)}: exit {code}")
    return 1000 * spent


def main():
    program, bare, profile = (str(pathlib.Path(word).resolve()) for word in sys.argv[1:4])
    times = int(sys.argv[4]) if len(sys.argv) > 4 else 200
    environment = {"HOME": "/", "PATH": "/usr/bin:/bin", "LC_ALL": "C"}
    check = [program, "check", "--yarn", profile, "--old", "rust 30, sand 11, plum", "--new", "plum 15, sand 11, rust 30"]
    spent = {"check": [], "bare": []}
    quiet = os.open(os.devnull, os.O_RDWR)
    for _ in range(times):
        spent["check"].append(milliseconds(check, environment, quiet))
        spent["bare"].append(milliseconds([bare, profile], environment, quiet))
    median = {name: statistics.median(values) for name, values in spent.items()}
    print(f"check, whole process    {median['check']:9.2f} ms   median of {times}")
    print(f"bare program            {median['bare']:9.2f} ms   same libraries, same profile, in turn")
    print(f"ratio                   {median['check'] / median['bare']:9.2f}      at most 2")


if __name__ == "__main__":
    main()
