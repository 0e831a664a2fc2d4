"""Runs the cases of this folder against the program and compares everything it says, byte for byte.

    run.py --program build/ballchange tests/cli/*.case       compare; exit code 1 and a diff where something differs
    run.py --program build/ballchange --accept X.case        write what the program says into the case, for review
    run.py --program build/ballchange --elsewhere X.case     compare again in other locales, time zones, thread counts

A case is a text that a user could have written. Up to the first line that starts with `--- ` it says what it shows;
then come sections:

    A splash of sand was overlooked.

    --- file end.txt
    plum 15, rust 30
    --- $ ballchange place --yarn orchard --new @end.txt
    plum, 77 cm in. ...
    --- stderr
    warning: ...
    --- exit 3

`--- $ [NAME=VALUE]... ballchange ARGUMENTS` runs the program, quoted as in a shell, without one. Below it stands the
expected standard output; then `--- stderr` (nothing expected when left out) and `--- exit N` (0 when left out). Steps
follow each other in one fresh folder. Between them may stand
    --- file NAME      writes a file               --- width N     columns for the commands below (80)
    --- holds NAME     what a file holds by now    --- terminal N  they run on a terminal of N columns, both outputs in
    --- stdin          input of the next command                   one; `--- width N` ends that
    --- reads NAME     what a page or picture says by now, a line for each piece of text of two words or more
{{version}} stands for the program's version, {{here}} for the case's folder, {{repo}} for that of the source. \\e is the
escape character, \\r a carriage return, \\t a tab, \\xHH a byte, \\\\ a backslash, \\- a minus where a line of text begins
with `--- `; a last line that ends in \\c has no line end. With `--format json` the standard output must also be JSON to
Python: no NaN, no key twice; and empty with exit 1 or 2.
"""

import argparse
import difflib
import fcntl
import html
import json
import os
import pathlib
import pty
import re
import shlex
import struct
import subprocess
import sys
import tempfile
import termios

REPO = pathlib.Path(__file__).resolve().parents[2]
VERSION = re.search(r"project\(ballchange VERSION (\S+)", (REPO / "CMakeLists.txt").read_text()).group(1)
SECONDS = 60


class Broken(Exception):
    """A case that does not follow the format, or cannot be run."""


# Text of a case and the bytes it stands for.

def to_bytes(text):
    def one(match):
        token = match.group(1)
        if token[0] == "x":
            return bytes([int(token[1:], 16)])
        return {"e": b"\x1b", "r": b"\r", "t": b"\t", "\\": b"\\", "-": b"-", "c": b""}[token]

    if re.search(r"(?<!\\)(\\\\)*\\c\n$", text):
        text = text[:-1]
    parts = re.split(r"(\\(?:x[0-9A-Fa-f]{2}|.|\n|$))", text)
    out = b""
    for part in parts:
        match = re.fullmatch(r"\\(x[0-9A-Fa-f]{2}|[ert\\c-])", part)
        if part.startswith("\\") and not match:
            raise Broken(f"{part!r} is no escape")
        out += one(match) if match else part.encode("utf-8", "surrogateescape")
    return out


def to_text(data):
    text = data.decode("utf-8", "surrogateescape").replace("\\", "\\\\")

    def one(match):
        code = ord(match.group())
        named = {0x1B: "\\e", 0x0D: "\\r", 0x09: "\\t"}
        if code in named:
            return named[code]
        return f"\\x{code - 0xDC00:02x}" if code >= 0xDC80 else "".join(f"\\x{b:02x}" for b in chr(code).encode())

    text = re.sub("[\x00-\x09\x0b-\x1f\x7f-\x9f\u200b-\u200f\u2028-\u202e\u2066-\u2069\ufeff\udc80-\udcff]", one, text)
    text = re.sub(r"^---(?= )", r"\\---", text, flags=re.M)
    return text if not text or text.endswith("\n") else text + "\\c\n"


class Section:
    def __init__(self, kind, argument, line):
        self.kind, self.argument, self.line, self.text = kind, argument, line, ""

    def __str__(self):
        return f"--- {self.kind} {self.argument}".rstrip() + "\n" + self.text


def lines_of(text):
    """Its lines with their ends; only a line feed ends one."""
    return [line + "\n" for line in text.removesuffix("\n").split("\n")] if text else []


def parse(text):
    """What the case shows, and its sections."""
    title, sections = "", []
    for number, line in enumerate(lines_of(text), 1):
        if line.startswith("--- "):
            kind, _, argument = line[4:].strip().partition(" ")
            if kind not in ("$", "stderr", "exit", "file", "holds", "reads", "stdin", "width", "terminal"):
                raise Broken(f"line {number}: no such section: {kind}")
            sections.append(Section(kind, argument.strip(), number))
        elif sections:
            sections[-1].text += line
        else:
            title += line
    if not any(section.kind == "$" for section in sections):
        raise Broken("holds no command (--- $ ballchange ...)")
    return title, sections


class Run:
    """One case being run: its folder, its environment, and the sections as they really come out."""

    def __init__(self, program, folder, environment):
        self.program, self.root, self.here = program, folder, folder / "here"
        self.here.mkdir()
        (folder / "home").mkdir()
        (folder / "share" / "ballchange").mkdir(parents=True)
        (folder / "share" / "ballchange" / "profiles").symlink_to(REPO / "profiles")
        self.environment = {
            "HOME": str(folder / "home"), "XDG_DATA_HOME": str(folder / "home" / "share"),
            "XDG_CONFIG_HOME": str(folder / "home" / "config"), "XDG_DATA_DIRS": str(folder / "share"),
            "PATH": "/usr/bin:/bin", "TERM": "xterm-256color", "COLUMNS": "80", "TZ": "UTC", "LC_ALL": "C",
            **{name: value for name, value in os.environ.items() if name.endswith("SAN_OPTIONS")}, **environment}
        self.stdin, self.terminal = b"", None

    def given(self, text):
        return to_bytes(self.filled(text))

    def filled(self, text):
        for name, value in (("version", VERSION), ("here", self.here), ("repo", REPO)):
            text = text.replace("{{" + name + "}}", str(value))
        return text

    def told(self, data):
        for name, value in (("here", self.here), ("repo", REPO)):
            data = data.replace(str(value).encode(), ("{{" + name + "}}").encode())
        return to_text(data)

    def command(self, text):
        words = shlex.split(self.filled(text))
        environment = dict(self.environment)
        while words and re.match(r"[A-Z_]+=", words[0]):
            name, _, value = words.pop(0).partition("=")
            environment[name] = value
        if not words or words[0] != "ballchange":
            raise Broken(f"a command starts with ballchange: {text}")
        words[0] = self.program
        stdin, self.stdin = self.stdin, b""
        if self.terminal:
            out, err, code = on_terminal(words, environment, self.here, stdin, self.terminal)
        else:
            done = subprocess.run(words, input=stdin, capture_output=True, env=environment, cwd=self.here,
                                  timeout=SECONDS, check=False)
            out, err, code = done.stdout, done.stderr, done.returncode
            if "--format json" in " ".join(words) or "--format=json" in words:
                judge_json(out, code)
        return out, err, code

    def columns(self, section):
        if not section.argument.isdigit():
            raise Broken(f"line {section.line}: --- {section.kind} takes a number of columns")
        self.environment["COLUMNS"] = section.argument
        self.terminal = int(section.argument) if section.kind == "terminal" else None

    def step(self, section):
        """Anything but a command and what is expected of it."""
        if section.kind == "file":
            path = self.here / section.argument
            path.parent.mkdir(parents=True, exist_ok=True)
            path.write_bytes(self.given(section.text))
        elif section.kind == "stdin":
            self.stdin = self.given(section.text)
        else:
            self.columns(section)


def once(pairs):
    keys = [key for key, _ in pairs]
    if len(keys) != len(set(keys)):
        raise ValueError("a key stands twice")
    return dict(pairs)


def no_constant(name):
    raise ValueError(f"{name} is no JSON")


def judge_json(out, code):
    """Complains of what must not even be accepted."""
    if code in (1, 2):
        if out:
            raise Broken(f"with --format json and exit {code} standard output must be empty")
        return
    try:
        json.loads(out.decode("utf-8"), object_pairs_hook=once, parse_constant=no_constant)
    except ValueError as error:
        raise Broken(f"not JSON, {error}: {to_text(out)}") from error


def on_terminal(words, environment, folder, stdin, columns):
    """Runs on a pseudo-terminal that does not echo; what comes out of it, with plain line ends."""
    ours, theirs = pty.openpty()
    fcntl.ioctl(theirs, termios.TIOCSWINSZ, struct.pack("HHHH", 24, columns, 0, 0))
    modes = termios.tcgetattr(theirs)
    modes[3] &= ~termios.ECHO
    termios.tcsetattr(theirs, termios.TCSANOW, modes)
    environment = {name: value for name, value in environment.items() if name != "COLUMNS"}
    with subprocess.Popen(words, stdin=theirs, stdout=theirs, stderr=theirs, env=environment, cwd=folder,
                          start_new_session=True) as process:
        os.close(theirs)
        os.write(ours, stdin + b"\x04")
        out = b""
        while True:
            try:
                piece = os.read(ours, 65536)
            except OSError:  # the last writer is gone
                break
            if not piece:
                break
            out += piece
        code = process.wait(SECONDS)
    os.close(ours)
    return out.replace(b"\r\n", b"\n"), b"", code


def play(program, sections, environment):
    """The sections as they would have to stand there for the case to hold."""
    real, position = [], 0
    with tempfile.TemporaryDirectory() as folder:
        run = Run(program, pathlib.Path(folder).resolve(), environment)
        while position < len(sections):
            section = sections[position]
            position += 1
            if section.kind == "$":
                while position < len(sections) and sections[position].kind in ("stderr", "exit"):
                    position += 1
                out, err, code = run.command(section.argument)
                wanted_version = "{{version}}" in section.text
                real.append(made("$", section.argument, told_out(run, out, wanted_version)))
                if err:
                    real.append(made("stderr", "", run.told(err)))
                if code:
                    real.append(made("exit", str(code), ""))
            elif section.kind == "holds":
                path = run.here / section.argument
                real.append(made("holds", section.argument, run.told(path.read_bytes()) if path.is_file()
                                 else "(no such file)\n"))
            elif section.kind == "reads":
                path = run.here / section.argument
                real.append(made("reads", section.argument, run.told(words_of(path.read_bytes())) if path.is_file()
                                 else "(no such file)\n"))
            elif section.kind in ("stderr", "exit"):
                raise Broken(f"line {section.line}: --- {section.kind} belongs below a command")
            else:
                run.step(section)
                real.append(section)
    return real


WITHIN_A_LINE = "a|b|em|strong|code|span|tspan|i"


def words_of(page):
    """Of HTML or SVG, without its labels of one word; what stands twice, as titles do, once."""
    text = re.sub(r"(?s)<style.*?</style>|<!--.*?-->", "", page.decode("utf-8"))
    text = re.sub(rf"</?(?:{WITHIN_A_LINE})(?:\s[^>]*)?>", "", text)
    pieces = [" ".join(html.unescape(piece).split()) for piece in re.split(r"<[^>]*>", text)]
    return "".join(f"{piece}\n" for piece in dict.fromkeys(pieces)
                   if len(re.findall(r"[^\W\d_]{2,}", piece)) > 1).encode()


def told_out(run, out, wanted_version):
    text = run.told(out)
    return text.replace(VERSION, "{{version}}") if wanted_version else text


def made(kind, argument, text):
    section = Section(kind, argument, 0)
    section.text = text
    return section


def written(title, sections):
    return title + "".join(map(str, normal(sections)))


def normal(sections):
    """`--- exit 0` and an empty `--- stderr` say nothing; stderr stands before exit."""
    kept = [s for s in sections if not (s.kind == "exit" and s.argument == "0") and not (s.kind == "stderr" and not s.text)]
    for at in range(1, len(kept)):
        if kept[at].kind == "stderr" and kept[at - 1].kind == "exit":
            kept[at - 1], kept[at] = kept[at], kept[at - 1]
    return kept


def german_locale(folder):
    """A locale with decimal commas, made on the spot: few machines have one installed."""
    done = subprocess.run(["localedef", "-i", "de_DE", "-f", "UTF-8", f"{folder}/de_DE.UTF-8"], capture_output=True,
                          check=False)
    if done.returncode not in (0, 1) or not pathlib.Path(folder, "de_DE.UTF-8").is_dir():
        raise Broken(f"localedef failed: {done.stderr.decode()}")
    return {"LC_ALL": "de_DE.UTF-8", "LANG": "de_DE.UTF-8", "LOCPATH": folder, "TZ": "PLACE-13:30",
            "OMP_NUM_THREADS": "7", "MALLOC_PERTURB_": "165"}


def elsewheres(folder):
    return [german_locale(folder), {"LC_ALL": "tr_TR.UTF-8", "LANG": "tr_TR", "TZ": "AWAY11", "OMP_NUM_THREADS": "1",
                                    "LANGUAGE": "tr", "MALLOC_PERTURB_": "90"}]


def judge(path, program, environments, accept):
    """Runs one case in every environment; True when it holds."""
    text = path.read_text(encoding="utf-8", errors="surrogateescape")
    title, sections = parse(text)
    wanted = written(title, sections)
    for environment in environments:
        real = written(title, play(program, sections, environment))
        if accept:
            path.write_text(real, encoding="utf-8")
            return True
        if real != wanted:
            where = f" ({' '.join(f'{n}={v}' for n, v in environment.items())})" if environment else ""
            sys.stdout.writelines(difflib.unified_diff(lines_of(wanted), lines_of(real),
                                                       f"{path} expected", f"really{where}", n=5))
            return False
    return True


def main():
    options = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    options.add_argument("--program", required=True)
    options.add_argument("--accept", action="store_true")
    options.add_argument("--elsewhere", action="store_true")
    options.add_argument("cases", nargs="+", type=pathlib.Path)
    told = options.parse_args()
    program = str(pathlib.Path(told.program).resolve())
    failed = 0
    with tempfile.TemporaryDirectory() as folder:
        environments = elsewheres(folder) if told.elsewhere else [{}]
        for path in told.cases:
            try:
                failed += not judge(path, program, environments, told.accept)
            except (Broken, subprocess.TimeoutExpired) as error:
                print(f"{path}: {error}")
                failed += 1
    print(f"{len(told.cases) - failed} of {len(told.cases)} cases hold")
    return 1 if failed else 0


if __name__ == "__main__":
    sys.exit(main())
