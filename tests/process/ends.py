"""How the program ends when its surroundings go away: `ends.py PROGRAM`."""

import os
import pathlib
import signal
import subprocess
import sys
import tempfile
import time
import unittest

REPO = pathlib.Path(__file__).resolve().parents[2]
ORCHARD = str(REPO / "profiles" / "orchard.yaml")
PLACE = ["place", "--yarn", ORCHARD, "--new", "plum 15, sand 11, rust 30"]
PROGRAM = ""


def started(arguments, **streams):
    return subprocess.Popen([PROGRAM, *arguments], stderr=subprocess.PIPE, env={"PATH": "/usr/bin:/bin", "HOME": "/"},
                            **streams)


def waits_for_input(process):
    """True once the process sleeps in a read: then the signal finds it there, however slow the machine is."""
    for _ in range(3000):
        state = pathlib.Path(f"/proc/{process.pid}/stat").read_text().rsplit(")", 1)[1].split()[0]
        call = pathlib.Path(f"/proc/{process.pid}/wchan").read_text()
        if state == "S" and ("pipe" in call or "read" in call or call in ("", "0")):
            return True
        time.sleep(0.01)
    return False


class Ends(unittest.TestCase):
    def test_a_small_stack_is_enough(self):
        small = ["sh", "-c", 'ulimit -s 64; exec "$0" "$@"', PROGRAM, *PLACE]
        run = subprocess.run(small, capture_output=True, timeout=60, check=False)
        self.assertEqual((run.returncode, run.stderr), (0, b""))

    def test_a_closed_pipe_is_silent(self):
        for form in ([], ["--format", "json"]):
            reading, writing = os.pipe()
            os.close(reading)
            with self.subTest(form), started(PLACE + form, stdout=writing) as process:
                os.close(writing)
                self.assertEqual(process.communicate(timeout=60)[1], b"")

    def test_a_pipe_with_a_project_s_name_is_not_waited_for(self):
        with tempfile.TemporaryDirectory() as folder:
            os.mkfifo(pathlib.Path(folder, "wrap.yaml"))
            for typed in (["log", "wrap.yaml"], ["start", "new", "--yarn", "wrap.yaml"]):
                run = subprocess.run([PROGRAM, *typed], cwd=folder, capture_output=True, text=True, timeout=60, check=False,
                                     stdin=subprocess.DEVNULL, env={"PATH": "/usr/bin:/bin", "HOME": "/"})
                self.assertEqual((run.returncode, run.stderr),
                                 (1, "ballchange: wrap.yaml: it is no ordinary file; name a file\n"))

    def test_a_full_device_is_an_error(self):
        for form in ([], ["--format", "json"]):
            with self.subTest(form), open("/dev/full", "wb") as full, started(PLACE + form, stdout=full) as process:
                said = process.communicate(timeout=60)[1]
                self.assertEqual(process.returncode, 1)
                self.assertNotEqual(said, b"")

    def test_what_was_recorded_is_told_where_the_answer_cannot_be(self):
        with tempfile.TemporaryDirectory() as folder:
            def on_a_full_device(*arguments):
                with open("/dev/full", "wb") as full:
                    run = subprocess.run([PROGRAM, *arguments], cwd=folder, stdin=subprocess.DEVNULL, stdout=full, timeout=60,
                                         stderr=subprocess.PIPE, text=True, check=False, env={"PATH": "/usr/bin:/bin", "HOME": "/"})
                self.assertEqual(run.returncode, 1)
                return run.stderr.removeprefix("ballchange: cannot write the answer to standard output: No space left on device")

            once = ", so don't give the command again\n"
            for form in ([], ["--format", "json"]):
                with self.subTest(form):
                    self.assertEqual(on_a_full_device("start", "wrap", "--yarn", ORCHARD, *form), "; wrap.yaml was opened" + once)
                    self.assertEqual(on_a_full_device("row", "--row", "3", *form), "; entry 1 was recorded" + once)
                    both = ["ball", "--outside", "plum 15, sand 11, rust 30", "--begin", *form]
                    self.assertEqual(on_a_full_device(*both, "--dry-run"), "\n")
                    self.assertEqual(on_a_full_device("log", *form), "\n")
                    (pathlib.Path(folder) / "wrap.yaml").unlink()
            subprocess.run([PROGRAM, "start", "wrap", "--yarn", ORCHARD], cwd=folder, stdout=subprocess.DEVNULL, check=True)
            self.assertEqual(on_a_full_device(*both), "; entries 1 and 2 were recorded" + once)

    def test_interrupted_while_it_waits_for_input(self):
        with started(["place", "--yarn", ORCHARD, "--new", "-"], stdin=subprocess.PIPE, stdout=subprocess.PIPE) as process:
            self.assertTrue(waits_for_input(process))
            process.send_signal(signal.SIGINT)
            out, _ = process.communicate(timeout=60)
            self.assertEqual(out, b"")
            # By the signal itself, which a shell tells as 130, or by that exit code.
            self.assertIn(process.returncode, (130, -signal.SIGINT))


if __name__ == "__main__":
    PROGRAM = str(pathlib.Path(sys.argv.pop(1)).resolve())
    unittest.main()
