"""The system fails while `row` records, at one call after the other: `faults.py PROGRAM`. Needs strace."""

import pathlib
import shutil
import subprocess
import sys
import tempfile
import unittest

PROGRAM = ""
PIECE = "{name: One, repeat: [{colour: plum, length: 92 cm}, {colour: sand, length: 11 cm}]}"
OLD = f"format: ballchange project 1 # mine\nyarn: {PIECE}\nlog:\n  - {{n: 1, at: 2026-03-02T19:20:00Z, did: row, row: 3}}\n"
ROW = ["row", "wrap.yaml", "--row", "4", "--at", "2026-03-02T20:20:00Z"]
NEW = OLD + "  - {n: 2, at: 2026-03-02T20:20:00Z, did: row, row: 4}\n"
# What puts an entry on the disk; a new file is written, synced, exchanged for the old one, and the folder synced.
CALLS = ("openat", "flock", "write", "fchmod", "fsync", "rename", "renameat2", "unlinkat", "unlink", "close")
KILLED = (-9, 137)


@unittest.skipUnless(shutil.which("strace"), "strace is not there to make calls fail")
class Faults(unittest.TestCase):
    def setUp(self):
        if b"__ubsan_handle" in pathlib.Path(PROGRAM).read_bytes():
            self.skipTest("the sanitizers ask things of the system for themselves, and stop when they fail")
        kept = tempfile.TemporaryDirectory()
        self.addCleanup(kept.cleanup)
        self.folder = pathlib.Path(kept.name)
        (self.folder / "work").mkdir()
        self.project = self.folder / "work" / "wrap.yaml"

    def record(self, *before):
        return subprocess.run([*before, PROGRAM, *ROW], cwd=self.folder / "work", stdin=subprocess.DEVNULL, timeout=120,
                              capture_output=True, text=True, check=False, env={"PATH": "/usr/bin:/bin", "HOME": "/"})

    def traced(self, *faults):
        """What came of it, and the calls it made."""
        log = self.folder / "strace.log"
        done = self.record("strace", "-qq", "-o", str(log), "-e", "trace=" + ",".join("?" + call for call in CALLS), *faults)
        return done, [line for line in log.read_text().splitlines() if "(" in line]

    def at_each_call(self, fault, judge):
        self.project.write_text(OLD)
        done, calls = self.traced()
        self.assertEqual((done.returncode, self.project.read_text()), (0, NEW), done.stderr)
        names = [call.split("(")[0] for call in calls]
        first = names.index("flock") - 1  # the folder is opened for its lock
        self.assertLessEqual({"openat", "write", "fsync", "renameat2"}, set(names[first:]))
        for at in range(first, len(names)):
            self.project.write_text(OLD)
            nth = names[:at].count(names[at]) + 1  # strace counts each kind of call for itself
            with self.subTest(call=calls[at], fault=fault):
                done, met = self.traced("-e", f"inject={names[at]}:{fault}:when={nth}")
                self.assertTrue(done.returncode in KILLED or any("(INJECTED)" in call for call in met))
                judge(done)
                self.next_works()

    def next_works(self):
        there = self.project.read_text()
        again = self.record()
        self.assertEqual((again.returncode, again.stderr), (0, ""))
        last = there.count("- {n:") + 1
        self.assertEqual(self.project.read_text(), there + f"  - {{n: {last}, at: 2026-03-02T20:20:00Z, did: row, row: 4}}\n")
        self.assertEqual([path.name for path in self.project.parent.iterdir()], ["wrap.yaml"])

    def told_the_truth(self, done):
        there = self.project.read_text()
        if done.returncode == 0:
            self.assertEqual(there, NEW)
            return
        self.assertEqual(done.returncode, 1)
        self.assertIn(there, (OLD, NEW))
        self.assertLessEqual(done.stderr.count("\n"), 1)
        # Recorded, but the telling did not get through: that much is told where it can be.
        if done.stderr:
            self.assertEqual(there == NEW, "entry 2 was recorded, so don't give the command again" in done.stderr)

    def test_one_call_finds_the_disk_full(self):
        self.at_each_call("error=ENOSPC", self.told_the_truth)

    def test_one_call_fails(self):
        self.at_each_call("error=EIO", self.told_the_truth)

    def test_killed_at_one_call(self):
        def whole(done):
            self.assertIn(done.returncode, KILLED)
            self.assertIn(self.project.read_text(), (OLD, NEW))
        self.at_each_call("signal=KILL", whole)


if __name__ == "__main__":
    PROGRAM = str(pathlib.Path(sys.argv.pop(1)).resolve())
    unittest.main()
