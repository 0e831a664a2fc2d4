"""Which C++ files may be compiled as one, so that the headers they share are read once.

    together.py MOST FILE...    each file and the number of its group, FILE|N;FILE|N;...; MOST files a group

Two files may not stand in one group when one says what the other keeps to itself, or reads a header that declares it,
or when one opens a namespace and the other does not.
"""

import collections
import functools
import pathlib
import re
import sys

ROOT = pathlib.Path(__file__).resolve().parents[1]


def declared(text):
    """The names that the lines of a file declare outside functions and types."""
    names = set()
    for line in text.splitlines():
        if line[:1].isspace() or line.startswith(("//", "}", "#", "TEST_CASE", "namespace")):
            continue
        line = re.sub(r"//.*|<[^()]*>", "", line)
        found = re.match(r"(?:struct|class|enum(?: class)?|using) (\w+)", line)
        names.update([found.group(1)] if found else re.findall(r"(\w+)(?=\s*[({=;\[])", line)[:1])
    return names


def own_names(text):
    """The names a file keeps to itself, in its nameless namespaces."""
    parts = re.findall(r"^namespace \{\n(.*?)^\}\s*//\s*namespace$", text, re.M | re.S)
    return set().union(*map(declared, parts))


@functools.cache
def included(name, beside):
    """The names that a header of ours declares, and those it includes."""
    for folder in (beside, ROOT / "src", ROOT / "tests"):
        if (folder / name).is_file():
            text = (folder / name).read_text(encoding="utf-8")
            return declared(text) | brought(text, (folder / name).parent)
    return set()


def brought(text, beside):
    """The names that the headers of ours declare which a text includes."""
    return set().union(*(included(name, beside) for name in re.findall(r'^#include "(.+)"', text, re.M)))


def spoken_names(text):
    """The names a file says, but for those of members: one of them may be another file's own."""
    bare = re.sub(r'//.*|"(?:\\.|[^"\\\n])*"', "", text)
    return set(re.findall(r"(?<![\w.>:])[A-Za-z_]\w*", bare))


def groups(files, most):
    """The files in lists of at most `most`."""
    names, said, opened = {}, {}, {}
    for path in files:
        text = path.read_text(encoding="utf-8")
        names[path], said[path] = own_names(text), spoken_names(text) | brought(text, path.parent)
        opened[path] = re.findall(r"^using namespace .*", text, re.M)
    kept_by = collections.Counter(name for own in names.values() for name in own)
    made = []
    # The names that most files have are dealt out first, each file to where the fewest are.
    for path in sorted(files, key=lambda path: (-max(map(kept_by.get, names[path]), default=0), path)):
        fitting = [group for group in made if not names[path] & group["said"] and not said[path] & group["names"]
                   and group["opened"] == opened[path] and len(group["files"]) < most]
        if not fitting:
            fitting = [{"files": [], "names": set(), "said": set(), "opened": opened[path]}]
            made += fitting
        group = min(fitting, key=lambda group: len(group["files"]))
        group["files"].append(path)
        group["names"] |= names[path]
        group["said"] |= said[path]
    return [group["files"] for group in made]


if __name__ == "__main__":
    made = groups([pathlib.Path(name) for name in sys.argv[2:]], int(sys.argv[1]))
    print(";".join(f"{path}|{number}" for number, group in enumerate(made) for path in group), end="")
