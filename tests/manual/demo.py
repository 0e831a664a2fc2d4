"""Plays demo/play: what it prints against demo.txt, the project it ends with against demo/seawall-wrap.yaml.

    demo.py build/ballchange             both to the byte, in other locales and time zones and on terminals as well
    demo.py build/ballchange --accept    writes what it prints and the project, for review
"""

import difflib
import os
import pathlib
import subprocess
import sys
import tempfile

REPO = pathlib.Path(__file__).resolve().parents[2]
sys.path.insert(0, str(REPO / "tests" / "cli"))
from run import elsewheres, on_terminal  # noqa: E402

PLAY = REPO / "demo" / "play"
PRINTED = REPO / "tests" / "manual" / "demo.txt"
PROJECT = REPO / "demo" / "seawall-wrap.yaml"
WIDTH = 80


def played(program, environment, terminal=None):
    """What is printed, and the project, each as text."""
    with tempfile.TemporaryDirectory() as folder:
        words = ["sh", str(PLAY), folder]
        environment = {"HOME": "/nonexistent", "PATH": f"{program.parent}:/usr/bin:/bin", "LC_ALL": "C.UTF-8",
                       **{name: value for name, value in os.environ.items() if name.endswith("SAN_OPTIONS")},
                       **environment}
        if terminal:
            out, _, code = on_terminal(words, environment, folder, b"", terminal)
        else:
            done = subprocess.run(words, stdout=subprocess.PIPE, stderr=subprocess.STDOUT, stdin=subprocess.DEVNULL,
                                  env=environment, cwd=folder, timeout=240, check=False)
            out, code = done.stdout, done.returncode
        out = out.decode("utf-8")
        if code:
            sys.exit(f"{out}\nthe demo ends with {code}")
        return out, pathlib.Path(folder, PROJECT.name).read_text(encoding="utf-8")


def same(path, real, where):
    wanted = path.read_text(encoding="utf-8")
    sys.stdout.writelines(difflib.unified_diff(wanted.splitlines(True), real.splitlines(True), f"{path} holds",
                                               f"really{where}"))
    return real == wanted


def main():
    program = pathlib.Path(sys.argv[1]).resolve()
    if sys.argv[2:] == ["--accept"]:
        for path, text in zip((PRINTED, PROJECT), played(program, {})):
            path.write_text(text, encoding="utf-8")
        return 0
    held = True
    with tempfile.TemporaryDirectory() as locales:
        plays = [({}, None, ""), *((environment, None, f" ({environment['LC_ALL']})")
                                   for environment in elsewheres(locales)),
                 ({"TERM": "dumb"}, WIDTH, " (on a terminal)"), ({"TERM": "xterm"}, 132, " (on a wide terminal)")]
        for environment, terminal, where in plays:
            printed, project = played(program, environment, terminal)
            held = same(PROJECT, project, where) and held
            # A wider terminal in colour shows more, and differently.
            if terminal in (None, WIDTH):
                held = same(PRINTED, printed, where) and held
    wide = [line for line in PRINTED.read_text(encoding="utf-8").splitlines() if len(line) > WIDTH]
    sys.stdout.writelines(f"wider than {WIDTH}: {line}\n" for line in wide)
    print(f"{len(plays)} plays")
    return 0 if held and not wide else 1


if __name__ == "__main__":
    sys.exit(main())
