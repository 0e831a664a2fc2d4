"""Recording, with other processes about: `record.py PROGRAM [ENTRIES]`, so many by each of eight (10)."""

import os
import pathlib
import re
import resource
import signal
import subprocess
import sys
import tempfile
import unittest

import yaml

REPO = pathlib.Path(__file__).resolve().parents[2]
ORCHARD = str(REPO / "profiles" / "orchard.yaml")
PROGRAM = ""
ENTRIES = 10
WRITERS = 8
SECONDS = 800


def run(folder, *arguments, **more):
    return subprocess.run([PROGRAM, *arguments], cwd=folder, capture_output=True, text=True, timeout=SECONDS, check=False,
                          stdin=subprocess.DEVNULL, env={"PATH": "/usr/bin:/bin", "HOME": "/"}, **more)


class Record(unittest.TestCase):
    def setUp(self):
        self.kept = tempfile.TemporaryDirectory()
        self.addCleanup(self.kept.cleanup)
        self.folder = pathlib.Path(self.kept.name)
        self.file = self.folder / "wrap.yaml"
        self.assertEqual(run(self.folder, "start", "wrap", "--yarn", ORCHARD, "--stitches", "60").returncode, 0)

    def refused(self, said, *arguments, **more):
        """One line, exit code 1, the folder as it was."""
        before = {path.name: path.read_bytes() for path in self.folder.iterdir()}
        done = run(self.folder, *arguments, **more)
        self.assertEqual((done.returncode, done.stdout, done.stderr.count("\n")), (1, "", 1), done.stderr)
        self.assertIn(said, done.stderr)
        self.assertEqual({path.name: path.read_bytes() for path in self.folder.iterdir()}, before)

    def test_eight_at_once(self):
        script = 'i=0; while [ $i -lt "$2" ]; do "$0" note "writer $1 line $i" >/dev/null || exit 1; i=$((i+1)); done'
        writers = [subprocess.Popen(["/bin/sh", "-c", script, PROGRAM, str(w), str(ENTRIES)], cwd=self.folder,
                                    stderr=subprocess.PIPE, env={"PATH": "/usr/bin:/bin", "HOME": "/"}, text=True)
                   for w in range(WRITERS)]
        said = [writer.communicate(timeout=SECONDS)[1] for writer in writers]
        self.assertEqual([writer.returncode for writer in writers], [0] * WRITERS, said)
        log = yaml.safe_load(self.file.read_text(encoding="utf-8"))["log"]
        self.assertEqual([entry["n"] for entry in log], list(range(1, WRITERS * ENTRIES + 1)))
        texts = [entry["text"] for entry in log]
        self.assertEqual(sorted(texts), sorted(f"writer {w} line {i}" for w in range(WRITERS) for i in range(ENTRIES)))
        for w in range(WRITERS):
            own = [text for text in texts if text.startswith(f"writer {w} ")]
            self.assertEqual(own, [f"writer {w} line {i}" for i in range(ENTRIES)])
        self.assertEqual(sorted(path.name for path in self.folder.iterdir()), ["wrap.yaml"])

    def test_two_start_the_same_file(self):
        racers = [subprocess.Popen([PROGRAM, "start", "new", "--yarn", ORCHARD, "--name", str(n)], cwd=self.folder,
                                   stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True,
                                   env={"PATH": "/usr/bin:/bin", "HOME": "/"}) for n in range(4)]
        said = [racer.communicate(timeout=SECONDS) for racer in racers]
        codes = [racer.returncode for racer in racers]
        self.assertEqual(sorted(codes), [0, 1, 1, 1], said)
        text = (self.folder / "new.yaml").read_text(encoding="utf-8")
        self.assertEqual(re.findall(r"^name: (.*)$", text, re.M), [f'"{codes.index(0)}"'])

    def test_start_over_a_file_or_a_folder(self):
        self.refused("wrap.yaml is there already", "start", "wrap", "--yarn", ORCHARD)
        (self.folder / "notes").mkdir()
        (self.folder / "link.yaml").symlink_to("gone.yaml")
        done = run(self.folder, "start", "link.yaml", "--yarn", ORCHARD)
        self.assertEqual(done.returncode, 1)
        self.assertFalse((self.folder / "gone.yaml").exists())
        self.assertEqual(run(self.folder, "start", "notes/deep/wrap", "--yarn", ORCHARD).returncode, 1)

    def test_a_read_only_file(self):
        self.file.chmod(0o444)
        self.refused("wrap.yaml", "note", "x")

    def test_a_read_only_folder(self):
        self.folder.chmod(0o555)
        self.addCleanup(self.folder.chmod, 0o755)
        # Root may write anywhere: then as somebody else.
        nobody = {"user": 65534, "group": 65534, "extra_groups": []} if os.geteuid() == 0 else {}
        if nobody:
            self.file.chmod(0o666)
        self.refused("cannot write wrap.yaml: Permission denied; nothing was recorded", "note", "x", **nobody)

    def test_a_folder_that_cannot_be_listed(self):
        self.folder.chmod(0o311)
        self.addCleanup(self.folder.chmod, 0o755)
        nobody = {"user": 65534, "group": 65534, "extra_groups": []} if os.geteuid() == 0 else {}
        done = run(self.folder, "log", **nobody)
        self.assertEqual((done.returncode, done.stdout, done.stderr),
                         (1, "", "ballchange: what is in this folder can't be told: Permission denied\n"))
        # Named, it need not be looked for.
        self.file.chmod(0o644)
        self.assertEqual(run(self.folder, "log", "wrap.yaml", **nobody).returncode, 0)

    def test_no_room(self):
        # A file may not grow past this size: what a full disk says too, in words of its own.
        def small():
            resource.setrlimit(resource.RLIMIT_FSIZE, (100, 100))
        self.refused("cannot write wrap.yaml: File too large; nothing was recorded", "note", "x", preexec_fn=small)

    def test_interrupted_while_it_reads(self):
        before = self.file.read_bytes()
        with subprocess.Popen([PROGRAM, "ball", "--outside", "-"], cwd=self.folder, stdin=subprocess.PIPE,
                              stdout=subprocess.PIPE, stderr=subprocess.PIPE) as process:
            process.stdin.write(b"plum 15, ")
            process.stdin.flush()
            # Another records meanwhile: nothing is locked while somebody is waited for.
            self.assertEqual(run(self.folder, "note", "meanwhile").returncode, 0)
            process.send_signal(signal.SIGINT)
            out, _ = process.communicate(timeout=SECONDS)
            self.assertEqual(out, b"")
            self.assertIn(process.returncode, (130, -signal.SIGINT))
        self.assertTrue(self.file.read_bytes().endswith(b"did: note, text: meanwhile}\n"))
        self.assertTrue(self.file.read_bytes().startswith(before.removesuffix(b" []\n")))
        self.assertEqual([path.name for path in self.folder.iterdir()], ["wrap.yaml"])

    def test_a_link_and_another_name(self):
        (self.folder / "here.yaml").symlink_to("wrap.yaml")
        self.assertEqual(run(self.folder, "note", "here.yaml", "by its link").returncode, 0)
        self.assertTrue((self.folder / "here.yaml").is_symlink())
        self.assertIn(b"by its link", self.file.read_bytes())
        os.link(self.file, self.folder / "twin.yaml")
        self.refused("twin.yaml", "note", "twin.yaml", "x")


if __name__ == "__main__":
    PROGRAM = str(pathlib.Path(sys.argv.pop(1)).resolve())
    if len(sys.argv) > 1:
        ENTRIES = int(sys.argv.pop())
    unittest.main()
