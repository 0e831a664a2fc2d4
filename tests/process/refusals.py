"""What is refused, one row each: `refusals.py PROGRAM`; with `--accept` it writes what is said into the table, for review.

Each `refusals/*.table` begins with the files of a folder, `=== NAME` and the text below it. Then come rows, apart by
blank lines; after `#` a title of those below it:

    with yarn.yaml | 92 cm | 0.4 cm               a piece of that file, found once, and what stands in its place
    make link a.yaml yarn.yaml                    see `Folder.make`
    $ place --yarn yarn.yaml --new "plum 3"       the command line, quoted as in a shell; left out: that of the row above
    2 yarn.yaml:6:36: length '0.4 cm' is ...      exit code and first line of standard error
    then with yarn.yaml | 0.4 cm | 0.5 cm         what the message says would be right,
    then $ place --yarn yarn.yaml --new "plum 3"  which must end in 0 or 3; only one of both may be given

The folder afterwards holds the same files as before, untouched, and nothing else; with `--format json` the same is said
and nothing printed. Anywhere {{TEXT*N}} stands for N times TEXT, \\n for a line end, \\xHH for a byte, \\p for a bar.
"""

import os
import pathlib
import re
import shlex
import subprocess
import sys
import tempfile
import unittest

HERE = pathlib.Path(__file__).resolve().parent
REPO = HERE.parents[1]
PROGRAM = ""
ACCEPT = False


def to_bytes(text):
    text = re.sub(r"\{\{(.*?)\*(\d+)\}\}", lambda found: found[1] * int(found[2]), text)
    def one(found):
        known = {b"n": b"\n", b"t": b"\t", b"r": b"\r", b"p": b"|", b"\\": b"\\"}
        return known[found[1]] if found[1] in known else bytes([int(found[1][1:], 16)])
    return re.sub(rb"\\(x[0-9a-f]{2}|[ntrp\\])", one, text.encode())


class Row:
    def __init__(self, number):
        self.number, self.said_at = number, None
        self.steps, self.command, self.said, self.then_steps, self.then = [], None, None, [], None

    def take(self, line, at):
        then = line.startswith("then ")
        kind, _, rest = line.removeprefix("then ").partition(" ")
        if kind == "$":
            setattr(self, "then" if then else "command", rest)
        elif kind in ("with", "make"):
            (self.then_steps if then else self.steps).append((kind, rest))
        elif re.fullmatch("[12?]", kind) and not then:
            self.said, self.said_at = line, at
        else:
            raise ValueError(f"line {at + 1}: {line}")


class Table:
    def __init__(self, path):
        self.path = path
        self.lines = path.read_text(encoding="utf-8").split("\n")
        self.files, self.rows = {}, []
        name, row, command = None, None, ""
        for at, line in enumerate(self.lines):
            if line.startswith("=== "):
                name = line[4:]
                self.files[name] = ""
            elif name and line != "===":
                self.files[name] += line + "\n"
            elif name:
                name = None
            elif not line or line.startswith("#"):
                row = None
            else:
                if row is None:
                    row = Row(at + 1)
                    self.rows.append(row)
                row.take(line, at)
                command = row.command = row.command or command

    def accept(self):
        for row in self.rows:
            self.lines[row.said_at] = row.said
        self.path.write_text("\n".join(self.lines), encoding="utf-8")


class Folder:
    def __init__(self, path, files):
        self.path = path
        self.user = {}
        for name, text in files.items():
            (path / name).write_text(text, encoding="utf-8")

    def do(self, steps):
        for kind, rest in steps:
            if kind == "make":
                self.make(*shlex.split(rest))
            else:
                self.replace(*[part.strip(" ") for part in rest.split("|")])

    def replace(self, name, old, new):
        path = self.path / name
        old, new, text = to_bytes(old), to_bytes(new), path.read_bytes()
        if text.count(old) != 1:
            raise ValueError(f"{old} stands {text.count(old)} times in {name}")
        path.write_bytes(text.replace(old, new))

    def make(self, what, name=".", other=""):
        path = self.path / name
        if what == "file":
            path.write_bytes(to_bytes(other))
        elif what == "long":  # with nothing but NULs, which take no room on the disk
            path.touch()
            os.truncate(path, int(other))
        elif what == "link":
            path.symlink_to(other)
        elif what == "twin":
            os.link(self.path / other, path)
        elif what == "folder":
            path.mkdir()
        elif what == "pipe":
            os.mkfifo(path)
        elif what == "gone":
            path.unlink()
        elif what == "mode":
            # Root may do all: then as somebody else.
            if os.geteuid() == 0:
                self.user = {"user": 65534, "group": 65534, "extra_groups": []}
                for one in (self.path, *self.path.iterdir()):
                    os.chown(one, 65534, 65534, follow_symlinks=False)
            path.chmod(int(other, 8))
        else:
            raise ValueError(f"make {what}")

    def state(self):
        found = {}
        for path in sorted(self.path.iterdir()):
            at = path.lstat()
            text = path.read_bytes() if path.is_file() and at.st_size < 1 << 20 else b""
            found[path.name] = (at.st_ino, at.st_mode, at.st_size, at.st_mtime_ns, text)
        return found


class Refusals(unittest.TestCase):
    def environment(self, share):
        sanitizers = {name: value for name, value in os.environ.items() if name.endswith("SAN_OPTIONS")}
        return {"PATH": "/usr/bin:/bin", "HOME": "/nowhere", "XDG_DATA_DIRS": str(share), "LC_ALL": "C.UTF-8", **sanitizers}

    def run_line(self, line, folder, *more):
        words = [os.fsdecode(to_bytes(word)) for word in shlex.split(line.replace("\\", "\\\\"))]
        done = subprocess.run([PROGRAM, *words[:1], *more, *words[1:]], cwd=folder.path, stdin=subprocess.DEVNULL, capture_output=True,
                              timeout=60, check=False, env=self.environment(folder.path.parent / "share"), **folder.user)
        return done.returncode, done.stdout, done.stderr.decode("utf-8", "backslashreplace")

    def judge(self, row, folder):
        folder.do(row.steps)
        before = folder.state()
        code, out, err = self.run_line(row.command, folder)
        said = f"{code} " + err.split("\n", 1)[0].removeprefix("ballchange: ").replace("\\", "\\\\")
        if ACCEPT:
            row.said = said
        self.assertEqual(said, row.said)
        self.assertIn(code, (1, 2))
        self.assertEqual(out, b"")
        self.assertEqual(folder.state(), before)
        if "--format" not in row.command:
            self.assertEqual(self.run_line(row.command, folder, "--format", "json"), (code, b"", err))
            self.assertEqual(folder.state(), before)
        if row.then or row.then_steps:
            folder.do(row.then_steps)
            code, _, err = self.run_line(row.then or row.command, folder)
            self.assertIn(code, (0, 3), err)

    def test_table(self):
        count = 0
        for path in sorted((HERE / "refusals").glob("*.table")):
            table = Table(path)
            self.assertNotEqual(table.rows, [])
            for row in table.rows:
                with self.subTest(table=path.name, line=row.number), tempfile.TemporaryDirectory() as kept:
                    root = pathlib.Path(kept)
                    root.chmod(0o755)
                    (root / "share" / "ballchange").mkdir(parents=True)
                    (root / "share" / "ballchange" / "profiles").symlink_to(REPO / "profiles")
                    (root / "work").mkdir()
                    folder = Folder(root / "work", table.files)
                    try:
                        self.judge(row, folder)
                    finally:
                        folder.path.chmod(0o755)
                    count += 1
            if ACCEPT:
                table.accept()
        print(f"{count} rows held")


if __name__ == "__main__":
    PROGRAM = str(pathlib.Path(sys.argv.pop(1)).resolve())
    ACCEPT = "--accept" in sys.argv
    unittest.main(argv=[sys.argv[0]])
