"""Compiles several C++ files as one, so that the headers they share are read once.

    together.py MOST FOLDER FILE...    writes files into FOLDER that include FILE..., each at most MOST; prints their paths

What a file keeps to itself (in a nameless namespace) and another says gets a name of its own while the file is read. Where
that can't be, as a member bears the name as well, and where one opens a namespace and another doesn't, files stand apart.
"""

import functools
import pathlib
import re
import sys

ROOT = pathlib.Path(__file__).resolve().parents[1]


def declared(text):
    """The names that the lines of a file declare outside functions and types."""
    names = set()
    for line in text.splitlines():
        if line[:1].isspace() or re.match(r"//|\}|#|TEST_CASE|namespace|using [\w:]+;", line):
            continue
        line = re.sub(r"//.*|<[^()]*>", "", line)
        found = re.match(r"(?:struct|class|enum(?: class)?|using) (\w+)", line)
        names.update([found.group(1)] if found else re.findall(r"(\w+)(?=\s*[({=;\[])", line)[:1])
        if line.startswith("const"):  # several of one type
            names.update(re.findall(r"(?<=, )(\w+)(?= = )", line))
    return names - {"operator"}


def own_names(text):
    """The names a file keeps to itself, in its nameless namespaces."""
    parts = re.findall(r"^namespace \{\n(.*?)^\}\s*//\s*namespace$", text, re.M | re.S)
    return set().union(*map(declared, parts))


def header(name, beside):
    """Where a header of ours is that a file in the folder `beside` includes; None for the libraries'."""
    return next((folder / name for folder in (beside, ROOT / "src", ROOT / "tests") if (folder / name).is_file()), None)


@functools.cache
def included(path):
    """The names that a header declares, those of its namespaces among them, and those it includes."""
    text = path.read_text(encoding="utf-8")
    spaces = re.findall(r"\w+", " ".join(re.findall(r"^namespace ([\w:]+)", text, re.M)))
    return declared(text) | set(spaces) | brought(text, path.parent)


def brought(text, beside):
    """The names that the headers of ours declare which a text includes."""
    paths = (header(name, beside) for name in re.findall(r'^#include "(.+)"', text, re.M))
    return set().union(*(included(path) for path in paths if path))


def bare(text):
    return re.sub(r'//.*|"(?:\\.|[^"\\\n])*"', "", text)


def called_names(text):
    """The names a file calls, but for members: one of them may be another file's own."""
    return set(re.findall(r"(?<![\w.>:])[A-Za-z_]\w*(?=\()", bare(text)))


def member_names(text):
    """The names a file says of a member, or in a named namespace."""
    return set(re.findall(r"(?:\.|->|::)\s*([A-Za-z_]\w*)", bare(text)))


class File:
    def __init__(self, path):
        self.path = path
        self.text = path.read_text(encoding="utf-8")
        self.own = own_names(self.text)
        reads = brought(self.text, path.parent)
        self.said = self.own | called_names(self.text) | reads
        self.fixed = self.own & (member_names(self.text) | reads)  # to be had by no other name
        self.opened = re.findall(r"^using namespace .*", self.text, re.M)

    def stands_with(self, other):
        return self.opened == other.opened and not self.fixed & other.said and not other.fixed & self.said

    def heads(self):
        for line in re.findall(r"^#include .*", self.text, re.M):
            name = re.match(r'#include "(.+)"', line)
            found = name and header(name.group(1), self.path.parent)
            yield f'#include "{found}"' if found else line


def groups(paths, most):
    """The files in lists of at most `most`."""
    made = []
    for file in sorted(map(File, paths), key=lambda file: (-len(file.fixed), file.path)):
        fitting = [group for group in made if len(group) < most and all(map(file.stands_with, group))]
        if not fitting:
            made.append([])
        min(fitting or made[-1:], key=len).append(file)
    return [[file.path for file in group] for group in made]


def as_one(paths):
    """The text of a file that includes the others; what they include first, so that no file's own names meet it."""
    files = [File(path) for path in paths]
    lines = list(dict.fromkeys(head for file in files for head in file.heads()))
    for number, file in enumerate(files):
        others = set().union(*(other.said for other in files if other is not file))
        clashing = sorted((file.own - file.fixed) & others)
        lines += [f"#define {name} {name}_{number}" for name in clashing]
        lines += [f'#include "{file.path}"  // NOLINT(bugprone-suspicious-include)']
        lines += [f"#undef {name}" for name in clashing]
    return "\n".join([*lines, ""])


def main():
    folder, paths = pathlib.Path(sys.argv[2]), list(map(pathlib.Path, sys.argv[3:]))
    folder.mkdir(parents=True, exist_ok=True)
    made = {folder / f"together_{number}.cpp": as_one(group)
            for number, group in enumerate(groups(paths, int(sys.argv[1])))}
    for path in set(folder.iterdir()) - set(made):
        path.unlink()
    for path, text in made.items():
        if not path.is_file() or path.read_text(encoding="utf-8") != text:
            path.write_text(text, encoding="utf-8")
    print(";".join(map(str, made)), end="")


if __name__ == "__main__":
    main()
