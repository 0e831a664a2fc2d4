"""Holds the documents against the program.

    check.py build/ballchange             every command and option of the program is in the manual and the other way
                                          round, and every example prints what the documents show
    check.py build/ballchange --accept    writes what the examples print into the documents, for review

An example is a line `$ ballchange ...` (a line that ends in \\ goes on below) in a literal block of a manual page or a
fenced block of README.md or DEVELOPERS.md; the lines below it, up to the next `$ `, are what it prints. Where nothing
is shown it must end with exit code 0. A block that follows a comment `file: NAME` is written to that file first. All
examples of a document run in one fresh folder with demo/ in it, 80 columns wide in Markdown and 72 in a manual page, as
read on 80.
"""

import difflib
import os
import pathlib
import re
import shlex
import shutil
import subprocess
import sys
import tempfile

REPO = pathlib.Path(__file__).resolve().parents[2]
PAGE = REPO / "man" / "ballchange.1"
# What opens and closes a block, and a comment that names a file.
MDOC = (r"\.Bd -literal", r"\.Ed", r'\.\\" file: (\S+)', 72)
MARKDOWN = (r"```", r"```", r"<!-- file: (\S+) -->", 80)
DOCUMENTS = {PAGE: MDOC, REPO / "man" / "ballchange.5": MDOC, REPO / "README.md": MARKDOWN,
             REPO / "DEVELOPERS.md": MARKDOWN}
ROFF = {"-": r"\-", "\\": r"\e", "^": r"\(ha", "~": r"\(ti", "`": r"\(ga", "'": r"\(aq", "·": r"\(pc"}


def to_roff(line):
    line = "".join(ROFF.get(c, c) for c in line)
    return r"\&" + line if line.startswith(".") else line


def from_roff(line):
    line = line.removeprefix(r"\&")
    for char, escape in ROFF.items():
        if char != "\\":
            line = line.replace(escape, char)
    return line.replace(r"\e", "\\")


def run(program, words, folder, columns):
    environment = {"HOME": str(folder), "XDG_DATA_DIRS": str(folder / "share"), "PATH": "/usr/bin:/bin",
                   "COLUMNS": str(columns), "LC_ALL": "C", "TZ": "UTC",
                   **{name: value for name, value in os.environ.items() if name.endswith("SAN_OPTIONS")}}
    return subprocess.run([program, *words], capture_output=True, env=environment, cwd=folder / "here", timeout=60,
                          check=False, text=True, encoding="utf-8", stdin=subprocess.DEVNULL)


# Examples.

def played(program, block, folder, columns, complaints):
    """The lines of a block as they would have to stand there."""
    real, at = [], 0
    while at < len(block):
        line = block[at]
        at += 1
        real.append(line)
        if not line.startswith("$ ballchange"):
            continue
        command = line[2:]
        while command.endswith("\\"):
            command = command[:-1] + block[at]
            real.append(block[at])
            at += 1
        shown = at
        while at < len(block) and not block[at].startswith("$ "):
            at += 1
        done = run(program, shlex.split(command)[1:], folder, columns)
        if shown < at:
            real += (done.stdout + done.stderr).splitlines() + ([""] if at < len(block) else [])
        elif done.returncode != 0:
            complaints.append(f"$ {command}\nends with {done.returncode}: {done.stderr}")
    return real


def examples(program, path, accept):
    """Runs every example of a document; True when all print what is shown."""
    opens, closes, names_file, columns = DOCUMENTS[path]
    roff = DOCUMENTS[path] is MDOC
    real, complaints, commands = [], [], 0
    lines = path.read_text(encoding="utf-8").splitlines()
    with tempfile.TemporaryDirectory() as name:
        folder = pathlib.Path(name).resolve()
        (folder / "here").mkdir()
        (folder / "here" / "demo").symlink_to(REPO / "demo")
        (folder / "share" / "ballchange").mkdir(parents=True)
        (folder / "share" / "ballchange" / "profiles").symlink_to(REPO / "profiles")
        at, file = 0, None
        while at < len(lines):
            line = lines[at]
            at += 1
            real.append(line)
            named = re.fullmatch(names_file, line)
            if named:
                file = named.group(1)
            if not re.match(opens, line):
                continue
            end = next(i for i in range(at, len(lines)) if re.match(closes, lines[i]))
            block = [from_roff(text) if roff else text for text in lines[at:end]]
            if file:
                (folder / "here" / file).write_text("\n".join(block) + "\n", encoding="utf-8")
                file = None
            commands += sum(text.startswith("$ ballchange") for text in block)
            block = played(program, block, folder, columns, complaints)
            real += [to_roff(text) if roff else text for text in block]
            real.append(lines[end])
            at = end + 1
    print(f"{path.name}: {commands} examples")
    for complaint in complaints:
        print(complaint)
    if accept:
        path.write_text("\n".join(real) + "\n", encoding="utf-8")
        return True
    sys.stdout.writelines(text + "\n" for text in difflib.unified_diff(lines, real, f"{path.name} shows",
                                                                       "really", lineterm=""))
    return not complaints and real == lines


def lines_of_help(program):
    """What `help` and its words on the craft have a person type and the program then refuses."""
    wrong, count = [], 0
    with tempfile.TemporaryDirectory() as name:
        folder = pathlib.Path(name).resolve()
        (folder / "here").mkdir()
        (folder / "share" / "ballchange").mkdir(parents=True)
        (folder / "share" / "ballchange" / "profiles").symlink_to(REPO / "profiles")
        shutil.copy(REPO / "demo" / "seawall-wrap.yaml", folder / "here")
        overview = run(program, ["help"], folder, 80).stdout
        topics = re.findall(r"^  ballchange help (\w+)", overview, re.M)
        for topic in [None, *topics]:
            text = run(program, ["help", topic], folder, 80).stdout if topic else overview
            for command in re.findall(r"^  (ballchange (?!help).*)$", text.replace("\\\n", ""), re.M):
                count += 1
                done = run(program, shlex.split(command)[1:], folder, 80)
                if done.returncode != 0:
                    wrong.append(f"help {topic or ''}: $ {command}\nends with {done.returncode}: {done.stderr}")
    print(f"help: {count} lines to type, {len(topics)} words on the craft")
    return wrong if count >= 5 and topics else [*wrong, "too few lines of help were found"]


# Commands and options.

def own_table(program, folder):
    """Command -> option -> its words to choose from, as the program itself tells."""
    overview = run(program, ["help"], folder, 200).stdout
    table = {}
    for command in re.findall(r"^  (\w+)  ", overview.split("\n\n")[2], re.M):
        options = run(program, ["help", command], folder, 200).stdout
        found = re.findall(r"^  --(\S+)(?: (\S+\|\S+))?", options, re.M)
        table[command] = {name: set(words.split("|")) - {""} for name, words in found}
    return table


def sections(text, macro):
    """Heading -> what stands below it."""
    parts = re.split(rf"^\.{macro} (.+)$", text, flags=re.M)
    return dict(zip(parts[1::2], parts[2::2]))


def manual_table(page):
    """The same, as the manual tells: a command's subsection refers (.Sx) to the groups of its options."""
    parts = sections(page.replace("\\-", "-"), "Sh")
    groups = {}
    for caption, body in sections(parts["OPTIONS"], "Ss").items():
        items = re.findall(r"^\.It Fl -([\w-]+)(.*)$", body, re.M)
        if len(items) != len({name for name, _ in items}):
            raise SystemExit(f"{caption}: an option stands there twice")
        groups[caption] = {name: set(re.findall(r"[\w-]+", rest.removeprefix(" Cm"))) if rest.startswith(" Cm") else set()
                           for name, rest in items}
    table = {}
    for command, body in sections(parts["COMMANDS"], "Ss").items():
        table[command] = {}
        for caption in re.findall(r'^\.Sx "?([^"\n]+?)"?(?: [.,;])?$', body, re.M):
            table[command].update(groups.get(caption, {}))
    return table


def differences(ours, theirs):
    """What differs between the program's table and the manual's."""
    for command in sorted(ours.keys() | theirs.keys()):
        if command not in theirs or command not in ours:
            yield f"{command}: only {'the program' if command in ours else 'the manual'} has this command"
            continue
        for option in sorted(ours[command].keys() | theirs[command].keys()):
            if option not in theirs[command] or option not in ours[command]:
                yield f"{command} --{option}: only in {'the program' if option in ours[command] else 'the manual'}"
            elif ours[command][option] != theirs[command][option]:
                yield (f"{command} --{option}: the program takes {sorted(ours[command][option])}, "
                       f"the manual says {sorted(theirs[command][option])}")


def exit_codes(page):
    """Exit codes of the source that the manual leaves out, or the other way round."""
    line = re.search(r"static constexpr int (done = .*);", (REPO / "src" / "commands" / "run.hpp").read_text()).group(1)
    ours = set(re.findall(r"\d+", line))
    theirs = set(re.findall(r"^\.It (\d+)$", sections(page, "Sh")["EXIT STATUS"], re.M))
    return [f"exit codes: the program has {sorted(ours)}, the manual {sorted(theirs)}"] if ours != theirs else []


def main():
    program = str(pathlib.Path(sys.argv[1]).resolve())
    accept = sys.argv[2:] == ["--accept"]
    page = PAGE.read_text(encoding="utf-8")
    with tempfile.TemporaryDirectory() as name:
        folder = pathlib.Path(name)
        (folder / "here").mkdir()
        ours = own_table(program, folder)
    wrong = [*differences(ours, manual_table(page)), *exit_codes(page), *lines_of_help(program)]
    for line in wrong:
        print(line)
    print(f"{len(ours)} commands, {sum(map(len, ours.values()))} options compared with {PAGE.name}")
    held = [examples(program, path, accept) for path in DOCUMENTS]
    return 0 if all(held) and not wrong and ours else 1


if __name__ == "__main__":
    sys.exit(main())
