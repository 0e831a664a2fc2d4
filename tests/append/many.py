"""Eight processes record at once in one project: `many.py PROBE ENTRIES-EACH`. Each entry is there, once, in order."""

import os
import pathlib
import subprocess
import sys
import tempfile

import yaml

PROCESSES = 8


def main():
    probe, each = sys.argv[1], int(sys.argv[2])
    with tempfile.TemporaryDirectory() as folder:
        project = pathlib.Path(folder) / "wrap.yaml"
        head = "format: ballchange project 1\nname: Wrap # shared\nlog: []\n"
        project.write_text(head)
        names = [f"p{i}" for i in range(PROCESSES)]
        running = [subprocess.Popen([probe, str(project), name, str(each)], stdout=subprocess.DEVNULL) for name in names]
        codes = [process.wait() for process in running]
        assert codes == [0] * PROCESSES, codes
        text = project.read_text()
        assert text.startswith(head.replace(" []", "")), text[:200]
        log = yaml.load(text, Loader=getattr(yaml, "CSafeLoader", yaml.SafeLoader))["log"]
        assert [entry["n"] for entry in log] == list(range(1, PROCESSES * each + 1))
        for name in names:
            mine = [entry["text"] for entry in log if entry["text"].split()[0] == name]
            assert mine == [f"{name} {i}" for i in range(1, each + 1)], mine
        assert os.listdir(folder) == ["wrap.yaml"], os.listdir(folder)
    print(f"{PROCESSES} processes, {each} entries each: all there, once, in order")


if __name__ == "__main__":
    main()
