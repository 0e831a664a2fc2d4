"""clang-tidy over src, by .clang-tidy: `tidy.py BUILD`, a build folder with compile_commands.json.

Most of its time goes into the headers of the libraries, again for every file. Therefore up to TOGETHER files are looked at
as one that includes them (tests/together.py). Apart stand those that give a name or a namespace another name: whether that
one is used is only told of the file looked at itself. Prints the findings; exit code 1 when there are any.
"""

import concurrent.futures
import json
import os
import pathlib
import re
import shlex
import shutil
import subprocess
import sys
import tempfile

ROOT = pathlib.Path(__file__).resolve().parents[2]
sys.path.insert(0, str(ROOT / "tests"))
from together import as_one, groups  # noqa: E402

TOGETHER = 40


def compiled(build, source):
    """Of each file below `source`: the words it is compiled with, alone or in a file that includes it, but for names."""
    words = {}
    for entry in json.loads((build / "compile_commands.json").read_text()):
        path = pathlib.Path(entry["file"])
        held = [path]
        if source not in path.parents and path.name.startswith("together_"):  # several compiled as one
            held = map(pathlib.Path, re.findall(r'^#include "(.+\.cpp)"', path.read_text(encoding="utf-8"), re.M))
        told = shlex.split(entry["command"])
        out = told.index("-o")
        told = tuple(word for place, word in enumerate(told)
                     if place not in (out, out + 1) and word not in ("-c", entry["file"]))
        words |= {path: told for path in held if source in path.parents}
    return words


def apart(path):
    """Whether a file must be looked at by itself."""
    return re.search(r"^\s*(using [\w:]+(<.*>)?;|namespace \w+ = )", path.read_text(encoding="utf-8"), re.M)


def look(tool, files, told, folder):
    """What clang-tidy finds in the files, looked at together; None where they can't be."""
    whole = files[0]
    if len(files) > 1:
        whole = pathlib.Path(folder) / f"with_{files[0].parent.name}_{files[0].stem}_{len(files)}.cpp"
        whole.write_text(as_one(files))
    defined = dict.fromkeys(word for path in files for word in told[path] if word.startswith("-D"))
    words = [word for word in told[files[0]][1:] if not word.startswith("-D")] + [*defined]
    done = subprocess.run([tool, "--quiet", f"--config-file={ROOT / '.clang-tidy'}", whole, "--", *words, "-w"],
                          capture_output=True, text=True, errors="replace")
    if len(files) > 1 and "[clang-diagnostic-error]" in done.stdout:
        return None
    if done.returncode == 0:
        return ""
    # Standard error counts what is held back.
    counts = re.compile(r"^(\d+ warnings?( and \d+ errors?)?|\d+ errors?) generated\.$|^Suppressed ")
    said = done.stdout + "\n".join(line for line in done.stderr.splitlines() if not counts.match(line))
    return said or f"{tool} ended with {done.returncode} on {', '.join(map(str, files))}"


def main():
    words = compiled(pathlib.Path(sys.argv[1]), ROOT / "src")
    missed = sorted(set((ROOT / "src").rglob("*.cpp")) - set(words))
    if missed:
        sys.exit(f"{sys.argv[1]} doesn't compile {', '.join(str(path.relative_to(ROOT)) for path in missed)}: configure again")
    tool = shutil.which("clang-tidy-14") or shutil.which("clang-tidy")
    if not tool:
        sys.exit("clang-tidy is missing: apt-get install clang-tidy")
    alone = [path for path in sorted(words) if apart(path)]
    parts = groups([path for path in sorted(words) if path not in alone], TOGETHER) + [[path] for path in alone]
    findings = []
    with tempfile.TemporaryDirectory() as folder, concurrent.futures.ThreadPoolExecutor(os.cpu_count()) as pool:
        def judge(files):
            found = look(tool, files, words, folder)
            if found is None:
                half = len(files) // 2
                return judge(files[:half]) + judge(files[half:])
            return [found] if found else []
        # The longest first, or the last one would be waited for alone.
        for found in pool.map(judge, sorted(parts, key=len, reverse=True)):
            findings += found
    print("\n".join(findings) if findings else f"{len(words)} files, nothing found")
    return 1 if findings else 0


if __name__ == "__main__":
    sys.exit(main())
