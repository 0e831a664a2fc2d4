"""Questions at a terminal, from outside: `asking.py PROGRAM`."""

import os
import pathlib
import pty
import select
import signal
import subprocess
import sys
import tempfile
import termios
import time
import unittest

import yaml

REPO = pathlib.Path(__file__).resolve().parents[2]
ORCHARD = str(REPO / "profiles" / "orchard.yaml")
PROGRAM = ""
SECONDS = 60
ENVIRONMENT = {"PATH": "/usr/bin:/bin", "HOME": "/", "TERM": "dumb"}
BALLS = (("A", []), ("B", ["--outside", "plum 15, sand 11, rust 30"]), ("C", ["--outside", "rust 62, moss 14, navy"]))


def run(folder, *arguments):
    return subprocess.run([PROGRAM, *arguments], cwd=folder, capture_output=True, text=True, timeout=SECONDS, check=False,
                          stdin=subprocess.DEVNULL, env=ENVIRONMENT)


class Terminal:
    """Somebody who reads a question before answering it."""

    def __init__(self, folder, *arguments):
        self.screen = ""
        self.ours, theirs = pty.openpty()
        modes = termios.tcgetattr(theirs)
        modes[3] &= ~termios.ECHO
        termios.tcsetattr(theirs, termios.TCSANOW, modes)
        # A session of its own, with this as its terminal: so that Ctrl-C reaches it.
        self.process = subprocess.Popen([sys.executable, "-c", "import fcntl, os, sys, termios\n"
                                         "fcntl.ioctl(0, termios.TIOCSCTTY, 0)\nos.execv(sys.argv[1], sys.argv[1:])",
                                         PROGRAM, *arguments], cwd=folder, stdin=theirs, stdout=theirs, stderr=theirs,
                                        env=ENVIRONMENT, start_new_session=True)
        os.close(theirs)

    def _more(self, until):
        ready, _, _ = select.select([self.ours], [], [], max(0, until - time.monotonic()))
        if not ready:
            raise AssertionError(f"nothing more came after: {self.screen}")
        try:
            piece = os.read(self.ours, 65536)
        except OSError:  # the last writer is gone
            piece = b""
        self.screen += piece.decode("utf-8").replace("\r\n", "\n")
        return piece != b""

    def waits(self, prompt):
        until = time.monotonic() + SECONDS
        while not self.screen.endswith(prompt):
            if not self._more(until):
                raise AssertionError(f"ended before it asked {prompt!r}: {self.screen}")
        return self

    def types(self, text):
        os.write(self.ours, text.encode("utf-8"))
        self.screen += "\n"
        return self

    def ends(self):
        until = time.monotonic() + SECONDS
        while self._more(until):
            pass
        code = self.process.wait(SECONDS)
        os.close(self.ours)
        return code


class Asking(unittest.TestCase):
    def setUp(self):
        kept = tempfile.TemporaryDirectory()
        self.addCleanup(kept.cleanup)
        self.folder = pathlib.Path(kept.name)
        self.file = self.folder / "wrap.yaml"
        self.done("start", "wrap", "--yarn", ORCHARD, "--stitches", "60", "--yarn-per-stitch", "1.85cm")
        for name, more in BALLS:
            self.done("ball", "--ball", name, *more, *(["--begin"] if name == "A" else []))
        self.done("row", "--row", "110", "--stitch", "12")

    def done(self, *arguments):
        ended = run(self.folder, *arguments)
        self.assertEqual(ended.returncode, 0, ended.stderr)

    def log(self):
        return yaml.safe_load(self.file.read_text(encoding="utf-8"))["log"]

    def test_an_evenings_ball_change(self):
        evening = Terminal(self.folder, "check")
        evening.waits("the one that costs least): ").types("\n")
        evening.waits("Old end: ").types("rust 30, sand 11, plum 40, hook\n")
        evening.waits("Record it? (y/n) ").types("y\n")
        self.assertEqual(evening.ends(), 0, evening.screen)
        self.assertEqual((self.log()[-1]["did"], self.log()[-1]["ball"]), ("join", "C"))

    def test_others_record_while_a_question_stands(self):
        evening = Terminal(self.folder, "check").waits("the one that costs least): ")
        self.done("note", "meanwhile")
        evening.types("C\n").waits("Old end: ")
        self.done("note", "and again")
        evening.types("rust 30, sand 11, plum 40, hook\n").waits("Record it? (y/n) ").types("y\n")
        self.assertEqual(evening.ends(), 0, evening.screen)
        self.assertEqual([entry["did"] for entry in self.log()[-3:]], ["note", "note", "join"])

    def test_what_changes_the_work_while_a_question_stands_voids_the_advice(self):
        for changed in (["row", "--row", "111"], ["rip", "--row", "5"], ["gauge", "--size", "8 mm"],
                        ["gauge", "--yarn-per-stitch", "1.9cm"], ["cancel", "--last"]):
            with self.subTest(changed):
                evening = Terminal(self.folder, "check").waits("the one that costs least): ").types("\n")
                evening.waits("Old end: ").types("rust 30, sand 11, plum 40, hook\n").waits("Record it? (y/n) ")
                if changed[-1] == "--last":
                    changed = ["cancel", str(len(self.log()))]
                self.done(*changed)
                length = len(self.log())
                evening.types("y\n")
                self.assertNotEqual(evening.ends(), 0, evening.screen)
                self.assertIn("has changed since the advice was given", evening.screen)
                self.assertEqual(len(self.log()), length)
                self.done("cancel", str(length))

    def test_interrupted_at_each_question(self):
        answers = {"check": ("\n", "rust 30, sand 11, plum 40, hook\n", ""), "ball": ("\n", "50\n", "\n", ""),
                   "start": ("orchard\n", "60\n", "1.85\n", "")}
        (self.folder / "orchard.yaml").write_bytes(pathlib.Path(ORCHARD).read_bytes())
        before = {path.name: path.read_bytes() for path in self.folder.iterdir()}
        for command, typed in answers.items():
            words = [command, "new"] if command == "start" else [command]
            for stop in range(len(typed)):
                with self.subTest(command=command, stop=stop):
                    terminal = Terminal(self.folder, *words)
                    for answer in typed[:stop]:
                        terminal.waits(": ").types(answer)
                    terminal.waits(") " if (command, stop) == ("check", 2) else ": ").types("\x03")
                    self.assertEqual(terminal.ends(), 130, terminal.screen)
                    self.assertEqual({path.name: path.read_bytes() for path in self.folder.iterdir()}, before)

    def test_a_bar_is_taken_away_when_it_is_ended(self):
        long = ("estimate", "--yarn", ORCHARD, "--needed", "80000m", "--knots", "5")
        for told, code in ((signal.SIGTERM, -signal.SIGTERM), (signal.SIGINT, 130)):
            with self.subTest(told):
                terminal = Terminal(self.folder, *long).waits(" %")
                terminal.process.send_signal(told)
                self.assertEqual(terminal.ends(), code, terminal.screen)
                bar, blank = terminal.screen.rstrip("\r").rsplit("\r", 2)[-2:]
                self.assertEqual(blank, " " * len(bar), terminal.screen)

    def test_the_end_of_input_names_the_option(self):
        before = self.file.read_bytes()
        for typed in ("\n", "\x04"):
            with self.subTest(typed=typed):
                terminal = Terminal(self.folder, "check", "--ball", "C").waits("Old end: ").types(typed)
                self.assertEqual(terminal.ends(), 2, terminal.screen)
                self.assertIn("no answer, so nothing was recorded: give --old", terminal.screen)
        self.assertEqual(self.file.read_bytes(), before)

    def test_nothing_is_asked_without_a_terminal(self):
        for arguments, code in ((["check"], 2), (["start", "new"], 2), (["ball"], 0)):
            with self.subTest(arguments):
                ended = run(self.folder, *arguments)
                self.assertEqual(ended.returncode, code, ended.stderr)
                self.assertNotIn("Enter", ended.stdout)


if __name__ == "__main__":
    PROGRAM = str(pathlib.Path(sys.argv.pop(1)).resolve())
    unittest.main()
