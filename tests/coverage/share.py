"""The share of lines that ran, a layer a line: `share.py BUILD`, a build with --coverage after its tests.

Of the layers below `files`, as src/CMakeLists.txt orders them. Exit code 1 where all together are under 95 %. The lines
that never ran stand in BUILD/never_ran.txt as PATH:LINE.
"""

import collections
import json
import pathlib
import re
import subprocess
import sys

ROOT = pathlib.Path(__file__).resolve().parents[2]
WANTED = 95.0  # per cent
AT_ONCE = 50  # objects a run of gcov


def layers():
    """The layers below `files`, lowest first."""
    text = (ROOT / "src/CMakeLists.txt").read_text()
    names = re.findall(r"^ballchange_layer\((\w+)", text, re.M)
    return names[:names.index("files")]


def below_src(name):
    """A file's path below src, none of another's: however it was compiled, with a path or beside a compiler cache."""
    *before, path = re.split(r"(?:^|/)src/", name, maxsplit=1)
    return path if before and (ROOT / "src" / path).is_file() else None


def counts(build):
    """(path below src, line) -> how often it ran, added up over all objects and instances of a template.

    The tests' own objects count too: of an inline function that several objects hold, the linker keeps any one.
    """
    # .gcno, not .gcda: an object that no test pulls in leaves none, and its lines count as not run.
    objects = sorted(str(path) for folder in ("src", "tests/CMakeFiles/unit_tests.dir")
                     for path in (build / folder).rglob("*.gcno"))
    if not objects:
        sys.exit(f"{build}: holds no .gcno; build it with --coverage")
    found = collections.Counter()
    for first in range(0, len(objects), AT_ONCE):
        told = subprocess.run(["gcov", "--stdout", "--json-format", *objects[first:first + AT_ONCE]], check=True,
                              capture_output=True, text=True).stdout
        for one in told.splitlines():
            for file in json.loads(one)["files"]:
                path = below_src(file["file"])
                for line in file["lines"] if path else []:
                    found[path, line["line_number"]] += line["count"]
    return found


def main():
    build = pathlib.Path(sys.argv[1]).resolve()
    found = counts(build)
    ran, lines, never = collections.Counter(), collections.Counter(), []
    wanted = layers()
    for (path, line), count in sorted(found.items()):
        layer = path.split("/")[0]
        if layer in wanted:
            lines[layer] += 1
            ran[layer] += count > 0
            if count == 0:
                never.append(f"src/{path}:{line}\n")
    (build / "never_ran.txt").write_text("".join(never))

    print("layer     lines    ran")
    for layer in wanted:
        print(f"{layer:8} {lines[layer]:6} {100 * ran[layer] / max(lines[layer], 1):5.1f}%")
    share = 100 * ran.total() / max(lines.total(), 1)
    print(f"{'all':8} {lines.total():6} {share:5.1f}%")
    if share < WANTED:
        sys.exit(f"the unit tests run {share:.1f} % of these lines, and {WANTED:.0f} % are wanted; those that never ran: "
                 f"{build / 'never_ran.txt'}")


if __name__ == "__main__":
    main()
