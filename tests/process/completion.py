"""Completion as a person at a shell gets it: `completion.py PROGRAM`. A shell that isn't there is skipped, loudly."""

import os
import pathlib
import pty
import re
import select
import shutil
import subprocess
import sys
import tempfile
import time
import unittest

REPO = pathlib.Path(__file__).resolve().parents[2]
COMPLETIONS = REPO / "src" / "completions"
PROGRAM = pathlib.Path()
SECONDS = 60

PROJECT = (REPO / "demo" / "seawall-wrap.yaml").read_text(encoding="utf-8")
HOSTILE = ["$(touch hacked)", "`touch hacked`", "x;touch hacked", "it's", 'say "x"', "@at", "@@x", "m:n=o@p@q", "-rf"]
UNSEEN = ["tab\tinside", "escape\x1b[31m", "turned\u202eround"]

# What is typed before the tab, what stands there after it: in bash and zsh, which quote alike here.
TYPED = [
    ("ballchange wei", "ballchange weigh "),
    ("ballchange --ver", "ballchange --version "),
    ("ballchange check --spar", "ballchange check --sparing "),
    ("ballchange check --color nev", "ballchange check --color never "),
    ("ballchange check --edge=av", "ballchange check --edge=avoid "),
    ("ballchange check --method thr", "ballchange check --method threaded "),
    ("ballchange check --yarn orch", "ballchange check --yarn orchard "),
    ("ballchange check --yarn=orch", "ballchange check --yarn=orchard "),
    ("ballchange draw fab", "ballchange draw fabric "),
    ("ballchange draw fabric wra", "ballchange draw fabric wrap.yaml "),
    ("ballchange help tol", "ballchange help tolerance "),
    ("ballchange log my", "ballchange log my\\ wrap.yaml "),
    ('ballchange log "my', 'ballchange log "my wrap.yaml" '),
    ("ballchange weigh wrap.yaml --ball Bl", "ballchange weigh wrap.yaml --ball Blue\\ two "),
    ("ballchange weigh my\\ wrap.yaml --ball Qu", "ballchange weigh my\\ wrap.yaml --ball Quay "),
    ("ballchange weigh 'my wrap.yaml' --ball Qu", "ballchange weigh 'my wrap.yaml' --ball Quay "),
    ("ballchange card wrap.yaml --out pag", "ballchange card wrap.yaml --out page.html "),
    ("ballchange check --old @my", "ballchange check --old @my\\ strand.txt "),
    ("ballchange place --new=@", "ballchange place --new=@my\\ strand.txt "),
    ("ballchange check --row 4", "ballchange check --row 4"),
    ("ballchange check --old \"rust 30, sand\" --spar", "ballchange check --old \"rust 30, sand\" --sparing "),
]


def project_with(*balls):
    """A project to which these were added."""
    text = re.sub(r"(?s)\nlog:.*", "\nlog:\n", PROJECT)
    for n, ball in enumerate(balls, 1):
        quoted = ball.replace("\\", "\\\\").replace('"', '\\"').replace("\x1b", "\\e").replace("\t", "\\t")
        text += f'  - {{n: {n}, at: 2026-03-02T19:20:00Z, did: ball, ball: "{quoted}"}}\n'
    return text


def environment(folder):
    return {"HOME": str(folder), "XDG_DATA_HOME": str(folder / "share"), "XDG_DATA_DIRS": str(folder / "share"),
            "PATH": f"{PROGRAM.parent}:/usr/bin:/bin", "LC_ALL": "C.UTF-8", "TERM": "dumb", "COLUMNS": "300",
            **{name: value for name, value in os.environ.items() if name.endswith("SAN_OPTIONS")}}


def said(folder, *typed):
    run = subprocess.run([PROGRAM, "words", "--", *typed], cwd=folder, env=environment(folder.parent), capture_output=True,
                         text=True, timeout=SECONDS, check=True, stdin=subprocess.DEVNULL)
    assert run.stderr == "", run.stderr
    kind, *lines = run.stdout.splitlines()
    return kind, [line.split("\t")[0] for line in lines]


class Shell:
    """A shell at a terminal; `setting_up` ends with what makes Ctrl-X Ctrl-Z tell the line as <<LINE>>."""

    def __init__(self, command, setting_up, folder):
        pid, self.terminal = pty.fork()
        if pid == 0:
            os.chdir(folder)
            os.execve(shutil.which(command[0]), command, environment(folder.parent))
        self.pid, self.seen = pid, ""
        self.send(setting_up + "\nprintf '%s\\n' re''ady\n")
        self.until(r"ready\r?\n")

    def send(self, text):
        os.write(self.terminal, text.encode())

    def until(self, pattern):
        ends = time.monotonic() + SECONDS
        while not (found := re.search(pattern, self.seen, re.S)):
            if time.monotonic() > ends or not select.select([self.terminal], [], [], SECONDS)[0]:
                raise AssertionError(f"no {pattern} in {self.seen!r}")
            self.seen += os.read(self.terminal, 65536).decode("utf-8", "replace")
        self.seen = self.seen[found.end():]
        return found

    def completed(self, typed):
        self.send("\x15" + typed + "\t")
        self.send("\x18\x1a")
        return self.until(r"<<(.*?)>>").group(1).replace("\r\n", "")

    def run(self, more):
        self.send(more + "; printf '%s\\n' do''ne\n")
        self.until(r"done\r?\n")

    def close(self):
        os.close(self.terminal)
        os.waitpid(self.pid, 0)


BASH = (["bash", "--norc", "--noprofile", "-i"],
        f"PS1='> '; set +o history; source {COMPLETIONS}/ballchange.bash; bind 'set enable-bracketed-paste off'; "
        "bind -x '\"\\C-x\\C-z\": printf \"<%s>\" \"<$READLINE_LINE>\"'; stty susp undef")
ZSH = (["zsh", "-f", "-i"],
       f"PS1='> '; stty susp undef; fpath=({COMPLETIONS} $fpath); autoload -U compinit; compinit -u -D; "
       "zstyle ':completion:*' insert-tab false; unset zle_bracketed_paste; told() { printf '<%s>' \"<$BUFFER>\" }; "
       "zle -N told; bindkey -e; bindkey '^X^Z' told")


class Completion(unittest.TestCase):
    def setUp(self):
        kept = tempfile.TemporaryDirectory()
        self.addCleanup(kept.cleanup)
        folder = self.folder = pathlib.Path(kept.name).resolve()
        (folder / "share" / "ballchange").mkdir(parents=True)
        (folder / "share" / "ballchange" / "profiles").symlink_to(REPO / "profiles")
        self.here = folder / "here"
        self.here.mkdir()
        self.write("wrap.yaml", project_with("A", "Blue two"))
        self.write("my wrap.yaml", project_with("Quay"))
        self.write("page.html", "")
        self.write("my strand.txt", "plum 15, sand 11, rust 30\n")

    def write(self, name, text):
        (self.here / name).write_text(text, encoding="utf-8")

    def shell(self, told):
        command, setting_up = told
        if shutil.which(command[0]) is None:
            print(f"SKIPPED: {command[0]} is not installed, so completion in it was NOT tested", file=sys.stderr)
            self.skipTest(f"no {command[0]}")
        shell = Shell(command, setting_up, self.here)
        self.addCleanup(shell.close)
        return shell

    def test_every_command_and_option_is_offered(self):
        overview = subprocess.run([PROGRAM, "help"], capture_output=True, text=True, check=True, timeout=SECONDS).stdout
        commands = re.findall(r"^  (\w+)  ", overview.split("\n\n")[2], re.M)
        self.assertGreater(len(commands), 10)
        self.assertEqual(said(self.here, "")[1], commands)
        for command in commands:
            text = subprocess.run([PROGRAM, "help", command], capture_output=True, text=True, check=True,
                                  timeout=SECONDS).stdout
            options = list(dict.fromkeys(re.findall(r"^  (--\S+)", text, re.M)))  # pictures share some
            with self.subTest(command):
                self.assertEqual(said(self.here, command, "-")[1], options)
                for option, words in re.findall(r"^  (--\S+) (\S+\|\S+)", text, re.M):
                    self.assertEqual(said(self.here, command, option, ""), ("words", words.split("|")))

    def test_a_picture_offers_what_it_takes(self):
        every = said(self.here, "draw", "-")[1]
        text = subprocess.run([PROGRAM, "help", "draw"], capture_output=True, text=True, check=True, timeout=SECONDS).stdout
        valued = set(re.findall(r"^  (--\S+) \S", text, re.M))
        for picture in ("strands", "fabric", "repeat"):
            own = said(self.here, "draw", picture, "-")[1]
            self.assertEqual(len(own), len(set(own)))
            self.assertLess(len(own), len(every))
            for option in every:
                with self.subTest(picture, option=option):
                    typed = ["draw", picture, "wrap.yaml", "--no-ask", option, *(["1"] if option in valued else [])]
                    run = subprocess.run([PROGRAM, *typed], cwd=self.here, env=environment(self.here.parent),
                                         capture_output=True, text=True, timeout=SECONDS)
                    self.assertEqual(f"leave it out of draw {picture}" in run.stderr, option not in own, run.stderr)

    def test_names_that_cannot_be_seen_or_typed_are_left_out(self):
        for name in HOSTILE + UNSEEN:
            self.write(name + ".yaml", project_with("A"))
        self.write("balls.yaml", project_with(*HOSTILE, "plain"))
        seen = sorted(name + ".yaml" for name in [*HOSTILE[:-1], "balls", "wrap", "my wrap"])
        self.assertEqual(sorted(said(self.here, "log", "")[1]), seen)
        self.assertEqual(said(self.here, "weigh", "balls.yaml", "--ball", "")[1], [*HOSTILE[:-1], "plain"])

    def test_a_broken_project_offers_nothing_and_says_nothing(self):
        whole = project_with("A", "Blue two")
        for length in range(0, len(whole), 37):
            self.write("wrap.yaml", whole[:length])
            said(self.here, "weigh", "wrap.yaml", "--ball", "")
        self.write("wrap.yaml", "format: ballchange project 1\nlog: [")
        self.assertEqual(said(self.here, "weigh", "wrap.yaml", "--ball", ""), ("words", []))

    def typed_at(self, shell):
        for typed, expected in TYPED:
            with self.subTest(typed):
                self.assertEqual(shell.completed(typed), expected)

    def test_bash(self):
        self.typed_at(self.shell(BASH))

    def test_zsh(self):
        self.typed_at(self.shell(ZSH))

    def hostile_names_at(self, shell):
        """Whatever is completed and then run is one word, as it was in the file."""
        self.write("balls.yaml", project_with(*HOSTILE[:-1]))
        told = self.here / "told"
        shell.run('\x15ballchange() { printf "%s\\n" "${@: -1}" > told; }')
        starts = ["\\$", "\\`", "x", "i", "s", "@a", "@@", "@@x", "m", "m:", "m:n=", "m:n=o@", "m:n=o@p", "m:n=o@p@"]
        for option, before in (("--ball ", ""), ("--ball=", "--ball=")):
            for start in starts:
                ball = next(name for name in HOSTILE if name.startswith(start.lstrip("\\")))
                with self.subTest(option + start):
                    line = shell.completed(f"ballchange weigh balls.yaml {option}{start}")
                    shell.run("")
                    self.assertEqual(told.read_text(encoding="utf-8"), before + ball + "\n", line)
        self.assertEqual(shell.completed('ballchange weigh balls.yaml --ball "x'),
                         'ballchange weigh balls.yaml --ball "x;touch hacked" ')
        shell.run("")
        self.assertEqual(told.read_text(encoding="utf-8"), "x;touch hacked\n")
        self.assertEqual(list(self.folder.rglob("hacked")), [])

    def test_bash_quotes_hostile_names(self):
        self.hostile_names_at(self.shell(BASH))

    def test_zsh_quotes_hostile_names(self):
        self.hostile_names_at(self.shell(ZSH))

    def test_fish(self):
        if shutil.which("fish") is None:
            print("SKIPPED: fish is not installed, so completion in it was NOT tested", file=sys.stderr)
            self.skipTest("no fish")
        self.write("balls.yaml", project_with(*HOSTILE[:-1]))
        asked = [typed for typed, _ in TYPED] + ["ballchange weigh balls.yaml --ball "]
        script = f"source {COMPLETIONS}/ballchange.fish\n"
        for n, typed in enumerate(asked):
            quoted = typed.replace("\\", "\\\\").replace("'", "\\'")
            script += f"complete -C '{quoted}' > {n}.told\n"
        subprocess.run(["fish", "--no-config", "-c", script], cwd=self.here, env=environment(self.folder), check=True,
                       timeout=SECONDS, stdin=subprocess.DEVNULL)

        def told(n):
            lines = (self.here / f"{n}.told").read_text(encoding="utf-8").splitlines()
            return [line.split("\t")[0] for line in lines]

        for n, (typed, expected) in enumerate(TYPED):
            word = re.sub(r"\\(.)", r"\1", re.split(r"(?<!\\) ", expected.rstrip())[-1]).strip('"')
            with self.subTest(typed):
                if expected == typed:
                    self.assertEqual(told(n), [])
                else:
                    self.assertIn(word.split(" ")[-1], [one.split(" ")[-1] for one in told(n)])
        self.assertEqual(sorted(told(len(TYPED))), sorted(HOSTILE[:-1]))
        self.assertEqual(list(self.folder.rglob("hacked")), [])


if __name__ == "__main__":
    PROGRAM = pathlib.Path(sys.argv.pop(1)).resolve()
    unittest.main()
