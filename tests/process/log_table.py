"""What `log` writes, read by others: `log_table.py PROGRAM`.

The table is read back by Python's csv module (RFC 4180, strict), the JSON by its json module, and both are compared
with the project's own entries, read by PyYAML.
"""

import csv
import io
import json
import pathlib
import subprocess
import sys
import tempfile
import unittest

import yaml

REPO = pathlib.Path(__file__).resolve().parents[2]
PROGRAM = ""

TEXTS = ["plain", "a, b; c", 'said "twice"', "=HYPERLINK(1)", "+1 more", "-3.5", "-2 rows", "@home", "'", "naïve · 2 ½"]


def project(entries):
    profile = (REPO / "profiles" / "orchard.yaml").read_text(encoding="utf-8")
    yarn = "".join(f"  {line}\n" for line in profile.splitlines() if not line.startswith("format:"))
    return "format: ballchange project 1\nyarn:\n" + yarn + "piece: {stitches: 60, yarn_per_stitch: 1.85 cm}\nlog:\n" + \
        "".join(f"  - {json.dumps({'n': n, 'at': f'2026-03-02T19:{n:02}:00Z', **entry}, ensure_ascii=False)}\n"
                for n, entry in enumerate(entries, 1))


ENTRIES = [
    {"did": "ball", "ball": "A", "mass": "50.2 g", "outside": "plum 15, sand 11, rust 30"},
    {"did": "ball", "ball": "=B", "dye_lot": "-17"},
    {"did": "begin", "ball": "A"},
    {"did": "row", "row": 40, "stitch": 12, "seen": ["row 39 stitch 4 navy begins", "row 40 stitch 2 grey begins"]},
    {"did": "join", "ball": "=B", "trim_old": "0 cm", "trim_new": "12.5 cm", "shift": "-1 st"},
    *({"did": "note", "text": text} for text in TEXTS),
    {"did": "cancel", "entry": 6},
]


def defused(text):
    """What a spreadsheet must not run; a number it may take for one."""
    try:
        float(text)
        return text
    except ValueError:
        return "'" + text if text[0] in "=+-@\t\r" else text


class Table(unittest.TestCase):
    def setUp(self):
        folder = self.enterContext(tempfile.TemporaryDirectory())
        self.file = pathlib.Path(folder) / "wrap.yaml"
        self.file.write_text(project(ENTRIES), encoding="utf-8")

    def log(self, *options):
        return subprocess.run([PROGRAM, "log", self.file, *options], capture_output=True, timeout=60, check=True,
                              env={"PATH": "/usr/bin:/bin", "LC_ALL": "C"}).stdout

    def test_csv_is_read_back(self):
        text = self.log("--csv").decode()
        self.assertEqual(text.count("\n"), text.count("\r\n"))
        rows = list(csv.DictReader(io.StringIO(text, newline=""), strict=True))
        self.assertEqual(len(rows), len(ENTRIES))
        for n, (row, entry) in enumerate(zip(rows, ENTRIES), 1):
            self.assertNotIn(None, row)  # no cell too many
            self.assertNotIn(None, row.values())  # none missing
            self.assertEqual((row["n"], row["did"], row["at"]), (str(n), entry["did"], f"2026-03-02T19:{n:02}:00Z"))
            self.assertEqual(row["cancelled"], "yes" if n == 6 else "")
            self.assertEqual(row["held"], "in-work" if entry["did"] == "join" else "")
            for key in ("ball", "dye_lot", "outside", "text"):
                self.assertEqual(row[key], defused(entry[key]) if key in entry else "")
        self.assertEqual(rows[0]["mass"], "50.2")
        self.assertEqual(rows[3]["seen"], "row 39 stitch 4 navy begins; row 40 stitch 2 grey begins")
        self.assertEqual((rows[4]["trim_new"], rows[4]["shift"]), ("12.5", "-1.85"))  # a stitch takes 1.85 cm

    def test_json_holds_what_the_file_does(self):
        told = json.loads(self.log("--format", "json"))
        log = yaml.safe_load(self.file.read_text(encoding="utf-8"))["log"]
        for entry, written in zip(told["entries"], log, strict=True):
            for key in ("n", "did", "ball", "dye_lot", "outside", "row", "stitch", "seen", "text", "entry"):
                self.assertEqual(entry.get(key), written.get(key))
        # Threaded takes 10 cm unless told.
        self.assertEqual(told["totals"]["by_cause"], {"begin": 0.0, "step": 12.5, "allowance": 10.0, "knots": 0.0, "swatches": 0.0})
        self.assertEqual(told["at"], {"row": 40, "stitch": 12})


if __name__ == "__main__":
    PROGRAM = sys.argv.pop(1)
    unittest.main()
