"""An append on the real disk, looked at from outside: `outside.py PROBE`."""

import contextlib
import fcntl
import os
import pathlib
import random
import shutil
import signal
import struct
import subprocess
import sys
import tempfile
import time
import unittest

PROBE = ""
NOBODY = 0xFFFFFFFF  # of an entry that names no one
OLD = "name: Wrap # mine\nlog:\n  - {n: 1, did: note}\n"
NEW = OLD + "  - {n: 2, did: note, text: a 1}\n"
# What an append asks of the system, by whatever name this machine has for it.
CALLS = ",".join("?" + call for call in (
    "openat open read write close flock fstat newfstatat stat statx access faccessat faccessat2 readlink readlinkat "
    "getdents64 listxattr getxattr fsetxattr fremovexattr fchown fchmod fsync rename renameat renameat2 unlink unlinkat link linkat").split())
ENVIRONMENT = {"PATH": "/usr/bin:/bin"}
CALLS_OF_AN_APPEND = 37  # the last so many, with what closes the program; those before load it
KILLED = (-signal.SIGKILL, 128 + signal.SIGKILL)
NO_EXCHANGE = ["-e", "inject=?renameat2:error=EINVAL:when=1+"]


def record(path, *before, who="a", times=1, **more):
    return subprocess.run([*before, PROBE, str(path), who, str(times)], capture_output=True, text=True, timeout=120,
                          env=ENVIRONMENT, **more)


class Append(unittest.TestCase):
    def setUp(self):
        self.folder = pathlib.Path(tempfile.mkdtemp())
        self.addCleanup(shutil.rmtree, self.folder)
        self.project = self.folder / "wrap.yaml"
        self.project.write_text(OLD)

    def left_over(self):
        return sorted(name for name in os.listdir(self.folder) if name.startswith("."))

    def refused(self, result, message, code=1):
        self.assertEqual((result.returncode, result.stderr, result.stdout), (code, message + "\n", ""))
        self.assertEqual(self.left_over(), [])

    # Faults.

    def traced(self, *injections):
        if b"__ubsan_handle" in pathlib.Path(PROBE).read_bytes():
            self.skipTest("the sanitizers ask things of the system for themselves, and stop when they fail")
        log = self.folder / "strace.log"
        result = record(self.project, "strace", "-qq", "-o", str(log), "-e", "trace=" + CALLS, *injections)
        lines = log.read_text().splitlines()
        log.unlink()
        return result, [line for line in lines if "(" in line]

    def at_each_call(self, fault, for_good, check):
        for fallback in ([], NO_EXCHANGE):
            self.project.write_text(OLD)
            names = [call.split("(")[0] for call in self.traced(*fallback)[1]]
            for n in range(len(names) - CALLS_OF_AN_APPEND, len(names)):
                if fallback and names[n] == "renameat2":
                    continue
                # strace counts each kind of call for itself.
                faults = []
                for name in sorted(set(names)) if for_good else [names[n]]:
                    if not (fallback and name == "renameat2"):
                        faults += ["-e", f"inject={name}:{fault}:when={names[:n].count(name) + 1}" + "+" * for_good]
                self.project.write_text(OLD)
                with self.subTest(call=names[n], number=n, fault=fault, fallback=bool(fallback)):
                    result, met = self.traced(*fallback, *faults)
                    self.assertTrue(result.returncode in KILLED or any(call.endswith("(INJECTED)") for call in met))
                    check(result)
                    self.next_works()

    def next_works(self):
        there = self.project.read_text()
        after = record(self.project, who="b")
        self.assertEqual((after.returncode, after.stdout, after.stderr), (0, "", ""))
        last = there.count("- {n:") + 1
        self.assertEqual(self.project.read_text(), there + f"  - {{n: {last}, did: note, text: b 1}}\n")
        self.assertEqual(self.left_over(), [])

    def exit_code_is_true(self, result):
        self.assertIn(result.returncode, (0, 1))
        self.assertEqual(self.project.read_text(), NEW if result.returncode == 0 else OLD)

    def told_the_truth(self, result):
        self.exit_code_is_true(result)
        self.assertEqual(result.stderr.count("\n"), result.returncode)

    def whole(self, result):
        self.assertIn(result.returncode, KILLED)
        self.assertIn(self.project.read_text(), (OLD, NEW))

    def test_any_call_fails_once(self):
        self.at_each_call("error=EIO", False, self.told_the_truth)

    def test_from_any_call_on_all_fail(self):
        self.at_each_call("error=ENOSPC", True, self.exit_code_is_true)  # what is said fails as well

    def test_killed_at_any_call(self):
        self.at_each_call("signal=KILL", False, self.whole)

    def test_the_folder_is_not_synced(self):
        result = self.traced("-e", "inject=fsync:error=EIO:when=2")[0]
        self.assertEqual((result.returncode, result.stdout),
                         (0, "recorded, but the disk did not confirm it (Input/output error)\n"))
        self.assertEqual(self.project.read_text(), NEW)

    def test_a_full_disk(self):
        result = self.traced("-e", "inject=write:error=ENOSPC:when=1")[0]
        self.refused(result, f"cannot write {self.project}: No space left on device; nothing was recorded")
        self.assertEqual(self.project.read_text(), OLD)

    @unittest.skipUnless(os.geteuid() == 0, "only root may mount a small disk")
    def test_a_disk_that_fills_up(self):
        fills = ('mount -t tmpfs -o size=64k none "$1" || exit 77; printf "log: []\\n# %060000d\\n" 1 >"$1/wrap.yaml"; '
                 'cp "$1/wrap.yaml" "$1/../before"; "$2" "$1/wrap.yaml" a 1; code=$?; '
                 'cmp "$1/wrap.yaml" "$1/../before" && ls -A "$1" && exit $code')
        disk = self.folder / "disk"
        disk.mkdir()
        result = subprocess.run(["unshare", "-m", "sh", "-c", fills, "sh", str(disk), PROBE], capture_output=True,
                                text=True, env=ENVIRONMENT)
        if result.returncode != 1 and ("unshare" in result.stderr or result.returncode == 77):
            self.skipTest("no disk can be mounted here: " + result.stderr)
        self.assertEqual((result.returncode, result.stdout), (1, "wrap.yaml\n"))
        self.assertEqual(result.stderr,
                         f"cannot write {disk}/wrap.yaml: No space left on device; nothing was recorded\n")

    # Files of other kinds.

    def test_mode_owner_and_links_stay(self):
        self.project.chmod(0o640)
        if os.geteuid() == 0:
            os.chown(self.project, 65534, 65533)
        before = self.project.stat()
        link = self.folder / "link.yaml"
        link.symlink_to("wrap.yaml")
        self.assertEqual(record(link).returncode, 0)
        self.assertTrue(link.is_symlink())
        self.assertEqual(self.project.read_text(), NEW)
        after = self.project.stat()
        self.assertEqual((after.st_mode, after.st_uid, after.st_gid), (before.st_mode, before.st_uid, before.st_gid))

    def attribute(self, name, value):
        try:
            os.setxattr(self.project, name, value)
        except OSError as error:
            self.skipTest(f"no {name} here: {error}")

    def test_what_other_programs_noted_with_the_file_stays(self):
        self.attribute("user.note", b"mine")
        self.assertEqual(record(self.project).returncode, 0)
        self.assertEqual(os.getxattr(self.project, "user.note"), b"mine")

    # acl(5), linux/posix_acl_xattr.h: version 2, then tag, permissions and id of each: owner, one more person, group, mask
    # and all others.
    ACCESS = struct.pack("<I" + 5 * "HHI", 2, 1, 6, NOBODY, 2, 6, 65534, 4, 0, NOBODY, 0x10, 6, NOBODY, 0x20, 0, NOBODY)

    def test_who_may_read_and_write_stays(self):
        self.attribute("system.posix_acl_access", self.ACCESS)
        self.assertEqual(record(self.project).returncode, 0)
        self.assertEqual(os.getxattr(self.project, "system.posix_acl_access"), self.ACCESS)

    def test_a_group_is_granted_nothing_where_the_list_of_people_can_not_go_over(self):
        self.attribute("system.posix_acl_access", self.ACCESS)
        result, _ = self.traced("-e", "inject=fsetxattr:error=EOPNOTSUPP:when=1+")
        self.assertEqual(result.returncode, 0)
        self.assertEqual(self.project.stat().st_mode & 0o777, 0o600)

    def test_another_group_is_granted_what_everybody_is(self):
        if os.geteuid() != 0:
            self.skipTest("only root gives files away")
        for mode, then in ((0o660, 0o600), (0o664, 0o644)):
            with self.subTest(oct(mode)):
                os.chown(self.project, -1, 65533)
                self.project.chmod(mode)
                result, _ = self.traced("-e", "inject=fchown:error=EPERM:when=1+")
                self.assertEqual((result.returncode, self.project.stat().st_mode & 0o777), (0, then))

    def test_someone_else_s_file_is_left_alone_where_a_new_one_would_shut_them_out(self):
        if os.geteuid() != 0:
            self.skipTest("only root gives files away")
        os.chown(self.project, 65534, -1)
        self.project.chmod(0o600)
        result, _ = self.traced("-e", "inject=fchown:error=EPERM:when=1+")
        self.refused(result, f"{self.project} belongs to someone else, who could not open it any more: a new version would "
                             "be yours. It was left as it is; let its owner do this, or give it to a group of you both "
                             "that may read and write it")

    def test_who_may_read_and_write_stays_where_the_attributes_are_too_many_to_list(self):
        self.attribute("system.posix_acl_access", self.ACCESS)
        result, _ = self.traced("-e", "inject=listxattr:error=E2BIG:when=1+")
        self.assertEqual(result.returncode, 0)
        self.assertEqual(os.getxattr(self.project, "system.posix_acl_access"), self.ACCESS)

    def test_a_folder_s_own_list_of_people_is_not_given_to_it(self):
        self.attribute("user.note", b"mine")
        os.setxattr(self.folder, "system.posix_acl_default", self.ACCESS)
        self.project.chmod(0o640)
        self.assertEqual(record(self.project).returncode, 0)
        self.assertNotIn("system.posix_acl_access", os.listxattr(self.project))
        self.assertEqual(self.project.stat().st_mode & 0o777, 0o640)

    def test_what_can_not_be_replaced_is_refused(self):
        second = self.folder / "second.yaml"
        second.hardlink_to(self.project)
        self.refused(record(second), f"cannot write {second}: the file has 2 names (hard links), and the others would "
                                     "not see the new entry; go on with a copy")
        second.unlink()
        self.refused(record(self.folder), f"cannot write {self.folder}: it is a folder; name the file in it")
        pipe = self.folder / "pipe"
        os.mkfifo(pipe)
        self.refused(record(pipe), f"cannot write {pipe}: it is no ordinary file")
        loop = self.folder / "loop"
        loop.symlink_to("loop")
        self.refused(record(loop), f"cannot open {loop}: Too many levels of symbolic links")
        self.project.chmod(0o444)
        self.refused(record(self.project), f"cannot write {self.project}: it is read-only; make it writable, or go on with a copy")
        self.assertEqual(self.project.read_text(), OLD)
        self.project.chmod(0o644)
        os.truncate(self.project, 64 * 1024 * 1024 + 1)
        self.refused(record(self.project), f"{self.project}: larger than 64 MB; is it the right file?", 2)

    def test_a_read_only_folder(self):
        self.project.chmod(0o666)
        self.folder.chmod(0o555)
        self.addCleanup(self.folder.chmod, 0o755)
        nobody = {"user": 65534} if os.geteuid() == 0 else {}
        self.refused(record(self.project, **nobody),
                     f"cannot write {self.project}: Permission denied; nothing was recorded")
        self.assertEqual(self.project.read_text(), OLD)

    # Others at the same time.

    @contextlib.contextmanager
    def folder_locked(self):
        held = os.open(self.folder, os.O_RDONLY)
        fcntl.flock(held, fcntl.LOCK_EX)
        try:
            yield
        finally:
            os.close(held)

    def test_a_lock_is_waited_for(self):
        with self.folder_locked():
            waiting = subprocess.Popen([PROBE, str(self.project), "a", "1"], stdout=subprocess.PIPE, text=True,
                                       env=ENVIRONMENT)
            time.sleep(1.3)
            self.assertIsNone(waiting.poll())
            self.assertEqual(self.project.read_text(), OLD)
        self.assertEqual(waiting.communicate(timeout=60)[0], "waiting\n")
        self.assertEqual(self.project.read_text(), NEW)

    def test_the_lock_of_a_killed_process_blocks_nobody(self):
        holder = subprocess.Popen(["flock", str(self.folder), "sleep", "60"], start_new_session=True)
        while subprocess.run(["flock", "-n", str(self.folder), "true"]).returncode == 0:
            time.sleep(0.01)
        os.killpg(holder.pid, signal.SIGKILL)
        holder.wait()
        self.assertEqual(record(self.project).stdout, "")
        self.assertEqual(self.project.read_text(), NEW)

    def saved_in_between(self):
        return (f"{self.project}: another program saved it in the same moment; its version stays and nothing was "
                "recorded, so give the command once more\n")

    def test_a_save_between_reading_and_replacing_stays(self):
        if b"__ubsan_handle" in pathlib.Path(PROBE).read_bytes():
            self.skipTest("the sanitizers stop where they are traced")
        slow = ["strace", "-qq", "-o", "/dev/null", "-e", "trace=renameat2", "-e",
                "inject=renameat2:delay_enter=2000000:when=1"]
        running = subprocess.Popen([*slow, PROBE, str(self.project), "a", "1"], stdout=subprocess.PIPE,
                                   stderr=subprocess.PIPE, text=True, env=ENVIRONMENT)
        while not self.left_over():  # the new version is being written beside it
            self.assertIsNone(running.poll())
            time.sleep(0.01)
        saved = OLD.replace("# mine", "# the editor's")
        beside = self.folder / "wrap.yaml~"
        beside.write_text(saved)
        beside.replace(self.project)
        out, err = running.communicate(timeout=60)
        self.assertEqual((running.returncode, out, err), (1, "", self.saved_in_between()))
        self.assertEqual(self.project.read_text(), saved)
        self.assertEqual(self.left_over(), [])

    def test_an_editor_that_saves_all_the_time_loses_nothing(self):
        seed = 20260302
        chance = random.Random(seed)
        seen = set()
        for round_number in range(30):
            running = subprocess.Popen([PROBE, str(self.project), "a", "3"], stdout=subprocess.DEVNULL,
                                       stderr=subprocess.PIPE, text=True, env=ENVIRONMENT)
            saved = ""
            for save in range(1000):
                saved = f"name: save {round_number} {save}\nlog:\n  - {{n: 1, did: note}}\n"
                beside = self.folder / "wrap.yaml~"
                beside.write_text(saved)
                beside.replace(self.project)
                if running.poll() is not None:
                    break
                time.sleep(chance.uniform(0, 0.012))
            said = running.communicate(timeout=60)[1]
            with self.subTest(seed=seed, round=round_number, said=said):
                seen.add(running.returncode)
                self.assertTrue(self.project.read_text().startswith(saved))
                self.assertIn(running.returncode, (0, 1))
                self.assertEqual(said, self.saved_in_between() if running.returncode else "")
                self.assertEqual(self.left_over(), [])
        print(f"ends met while an editor saved: {sorted(seen)}")


if __name__ == "__main__":
    PROBE = str(pathlib.Path(sys.argv.pop(1)).resolve())
    unittest.main()
