"""The shape of the source: includes point downward only, the outside world is met in one place, files stay small.

The order of the layers is read from src/CMakeLists.txt. Prints every breach; exit code 1 when there is one.
"""

import pathlib
import re
import subprocess
import sys

ROOT = pathlib.Path(__file__).resolve().parents[2]
SRC = ROOT / "src"

# (what it is, pattern, where it may stand: layers, or None for nowhere)
OUTSIDE = [
    ("yaml-cpp", r"#include <yaml-cpp/", {"files"}),
    ("logging", r"#include <spdlog/", {"show", "console", "project", "commands", "main"}),
    ("Boost.Program_options", r"#include <boost/program_options", {"console", "commands", "main"}),
    ("streams and terminals", r"#include <(iostream|termios\.h|sys/ioctl\.h|unistd\.h|cstdio|fstream|filesystem)>",
     {"files", "show", "console", "commands", "main"}),
    ("the environment", r"\b(secure_)?getenv\s*\(", {"files", "show", "console", "commands", "main"}),
    ("the clock", r"#include <(ctime|chrono|time\.h|sys/time\.h)>|\bstd::time\s*\(", {"files", "show", "console", "commands", "main"}),
    ("chance other than base/random.hpp", r"#include <random>|\b(rand|srand)\s*\(", set()),
    ("a locale", r"#include <(locale|clocale)>|\bsetlocale\s*\(|\bstd::locale\b|\.imbue\s*\(", set()),
    ("numbers that follow the locale", r"\b(std::)?(strto[dfl]+|stod|stof|stold|atof|sscanf)\s*\(", set()),
]
ONE_FILE_ONLY = {"logging"}
LINES = {".hpp": 200, ".cpp": 400}
LONG_FUNCTION, LONG_SHARE = 40, 0.05


# What the top level of the repository holds beside dot-files and what nobody commits.


TOP = {"CMakeLists.txt", "README.md", "DEVELOPERS.md", "src", "tests", "profiles", "demo", "man"}


def stray(paths):
    """Of the paths in the repository, what lies at its top and has no place there."""
    top = {path.split("/")[0] for path in paths}
    return sorted(name for name in top - TOP if not name.startswith("."))


def committed():
    """Paths in the repository; none where the source stands without one."""
    told = subprocess.run(["git", "ls-files"], cwd=ROOT, capture_output=True, text=True, check=False)
    return told.stdout.splitlines() if told.returncode == 0 else []


def edges(text):
    """Layer -> the layers it names as right below it."""
    found = {}
    for name, rest in re.findall(r"^ballchange_layer\((\w+)([^)]*)\)", text, re.M):
        direct = re.search(r"\bON\s+((?:(?!USES\b)\w+\s*)*)", rest)
        found[name] = direct.group(1).split() if direct else []
    return found


def layers(right_below):
    """Layer -> every layer it may include, itself among them."""
    below = {}
    for name, direct in right_below.items():
        below[name] = {name}.union(*(below[d] for d in direct))
    below["main"] = set(below)
    return below


def unused_edges(right_below, reached):
    """What a layer names but nothing in it includes (`reached`: layer -> the layers that its files include)."""
    for name, direct in right_below.items():
        for lower in direct:
            if lower not in reached.get(name, set()):
                yield f"src/CMakeLists.txt: {name} is ON {lower}, but includes nothing of it"


def reached_by(paths):
    reached = {}
    for path in paths:
        targets = re.findall(r'^\s*#\s*include\s+"(\w+)/', path.read_text(), re.M)
        reached.setdefault(layer_of(path), set()).update(targets)
    return reached


def layer_of(path):
    relative = path.relative_to(SRC)
    return relative.parts[0] if len(relative.parts) > 1 else relative.stem


def includes(path, below):
    layer = layer_of(path)
    for number, line in enumerate(path.read_text().splitlines(), 1):
        match = re.match(r'\s*#\s*include\s+"([^"]+)"', line)
        if not match:
            continue
        target = match.group(1)
        where = f"{path.relative_to(ROOT)}:{number}: includes {target}"
        if not (SRC / target).is_file():
            yield f"{where}, which is no file below src"
        elif target.split("/")[0] not in below[layer]:
            yield f"{where}; {layer} may include {', '.join(sorted(below[layer]))}"


def outside(paths):
    for what, pattern, allowed in OUTSIDE:
        met = []
        for path in paths:
            code = re.sub(r"//[^\n]*", "", path.read_text())
            if re.search(pattern, code):
                met.append(path.relative_to(ROOT))
                if layer_of(path) not in allowed:
                    yield f"{met[-1]}: reaches for {what}; allowed in {', '.join(sorted(allowed)) or 'no file'}"
        if what in ONE_FILE_ONLY and len(met) > 1:
            yield f"{what} in more than one file: {', '.join(map(str, met))}"


def blanked(text):
    """The text, as long and with the same line ends, without comments, literals, preprocessor lines and template heads."""
    blank = lambda match: re.sub(r"[^\n]", " ", match.group(0))
    literal = r'//[^\n]*|/\*.*?\*/|R"\((?:.|\n)*?\)"|"(?:\\.|[^"\\\n])*"|(?<![0-9a-fA-F])\'(?:\\.|[^\'\\\n])+\''
    text = re.sub(literal, blank, text, flags=re.S)
    text = re.sub(r"^#[^\n]*|\btemplate <[^;{()]*>\n|\b(public|private|protected):", blank, text, flags=re.M)
    return text


def opens(head):
    """What a brace after this head begins, where namespaces and classes are open."""
    if re.search(r"\bnamespace\b|\bextern\s*$", head):
        return "namespace"
    if re.search(r"\b(struct|class|union|enum)\b[^()]*$", head):
        return "type"
    after = r"(?:\s|const\b|noexcept\b|override\b|final\b|mutable\b|&)*(?:->[^=]*)?$"
    if re.search(r"\)" + after, head) or re.search(r"\)[^()]*[^:]:[^:].*[)}]\s*$", head, re.S):
        return "function"
    return "value"


def functions(text):
    """First line and length in lines of every function, those defined inside classes too; a lambda is part of what
    holds it."""
    text = blanked(text)
    scopes = []
    head = 0  # where the declaration begins that is being read
    for match in re.finditer(r"[{};]", text):
        at, sign = match.start(), match.group(0)
        inside = scopes[-1][0] if scopes else "namespace"
        if sign == "{":
            kind = opens(text[head:at]) if inside in ("namespace", "type") else "value"
            begin = head + len(text[head:]) - len(text[head:].lstrip())
            scopes.append((kind, begin))
            if kind != "value":
                head = at + 1
        elif sign == "}":
            kind, begin = scopes.pop()
            if kind == "function":
                yield text.count("\n", 0, begin) + 1, text.count("\n", begin, at) + 1
            if kind != "value":
                head = at + 1
        elif inside in ("namespace", "type"):
            head = at + 1


def sizes(paths):
    lengths = []
    for path in paths:
        lines = len(path.read_text().splitlines())
        if lines > LINES[path.suffix]:
            yield f"{path.relative_to(ROOT)}: {lines} lines; {LINES[path.suffix]} at most"
        lengths += [(length, path.relative_to(ROOT), head) for head, length in functions(path.read_text())]
    long = sorted(entry for entry in lengths if entry[0] > LONG_FUNCTION)
    for length, path, head in long:
        above = (ROOT / path).read_text().splitlines()[head - 2]
        if not above.strip().startswith("// Long: "):
            yield f"{path}:{head}: {length} lines; divide it, or say in a line above it, '// Long: ...', why not"
    if len(long) > LONG_SHARE * len(lengths):
        yield f"{len(long)} of {len(lengths)} functions have more than {LONG_FUNCTION} lines; one in twenty at most:"
        yield from (f"  {path}:{head}: {length} lines" for length, path, head in long)


def unit_tests_that_vanish():
    for path in sorted((ROOT / "tests").glob("unit/*.cpp")) + sorted((ROOT / "tests").glob("proof/*.cpp")):
        if path.name != "main.cpp" and not re.search(r"^\s*(TEST|SCENARIO)_", path.read_text(), re.M):
            yield f"{path.relative_to(ROOT)}: holds no test"


def holds_code(folder):
    return folder.is_dir() and any(path.suffix in LINES for path in folder.rglob("*"))


def main():
    right_below = edges((SRC / "CMakeLists.txt").read_text())
    below = layers(right_below)
    paths = sorted(path for suffix in LINES for path in SRC.rglob("*" + suffix))
    found = [f"src/{folder.name}: no layer in src/CMakeLists.txt"
             for folder in sorted(SRC.iterdir()) if holds_code(folder) and folder.name not in below]
    known = [path for path in paths if layer_of(path) in below]
    found += [f"{path.relative_to(ROOT)}: belongs to no layer" for path in paths if path not in known]
    for path in known:
        found += includes(path, below)
    found += unused_edges(right_below, reached_by(known))
    found += outside(known)
    found += sizes(known)
    found += unit_tests_that_vanish()
    found += [f"{name}: has no place at the top of the repository" for name in stray(committed())]
    print("\n".join(found) or f"{len(known)} files in {len(below) - 1} layers, all in order")
    return 1 if found else 0


if __name__ == "__main__":
    sys.exit(main())
