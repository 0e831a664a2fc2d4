"""Draws every kind of picture and holds each against what SVG asks: pictures.py build/ballchange

Each must be well-formed (xmllint), have a title and a description that it names as its own, use no name twice, refer to
nothing that isn't in it, load nothing from outside, and keep its words on the paper.
"""

import collections
import itertools
import json
import pathlib
import re
import subprocess
import sys
import tempfile
import unittest
import xml.etree.ElementTree as ElementTree

PROGRAM = str(pathlib.Path(sys.argv.pop(1)).resolve())
PROFILES = sorted((pathlib.Path(__file__).resolve().parents[2] / "profiles").glob("*.yaml"))
SVG = "{http://www.w3.org/2000/svg}"

YARN = """format: ballchange yarn 1
name: Hedge & <ditch>
felts: true
repeat:
  - {colour: plum, shade: "#5b2a59", length: 92 cm}
  - {colour: "<sand>", shade: "#c9b48f", length: 11 cm}
  - {colour: rust, shade: "#a5492a", length: 80 cm}
  - {colour: a moss of a very long name & more, length: 14 cm}
  - {colour: plum, shade: "#5b2a59", length: 70 cm}
  - {colour: dot, length: 1.5 cm}
"""
STITCHES = """format: ballchange yarn 1
name: Counted
repeat:
  - {colour: indigo, length: 42 st}
  - {colour: ecru, length: 6 st}
  - {colour: ochre, length: 30 st}
  - {colour: ecru, length: 9 st}
"""
LONG = "format: ballchange yarn 1\nname: Long\nrepeat:\n" + "".join(
    f"  - {{colour: {'ash oak elm fir yew'.split()[k % 5]}, length: {20 + k * 37 % 60} cm}}\n" for k in range(100))
PROJECT = """format: ballchange project 1
name: Gate & <post>
units: cm
yarn:
  name: Orchard
  felts: true
  ball: {mass: 50 g, length: 125 m}
  repeat:
    - {colour: plum, shade: "#5b2a59", length: 92 cm}
    - {colour: sand, shade: "#c9b48f", length: 11 cm}
    - {colour: rust, shade: "#a5492a", length: 80 cm}
    - {colour: moss, shade: "#5d6b3a", length: 14 cm}
    - {colour: navy, shade: "#1f2d4d", length: 70 cm}
    - {colour: grey, shade: "#8d9096", length: 9 cm}
piece: {stitches: 70, rows: 60, yarn_per_stitch: 2 cm, foundation: 140 cm}
join: {method: felted, allowance: 8 cm}
log:
  - {n: 1, at: 2026-03-02T19:20:00Z, did: ball, ball: A, outside: "plum 15, sand 11, rust 30"}
  - {n: 2, at: 2026-03-02T19:21:00Z, did: begin, ball: A}
  - {n: 3, at: 2026-03-02T19:22:00Z, did: ball, ball: "B & <b>", outside: "plum 15, sand 11, rust 30"}
  - {n: 4, at: 2026-03-06T20:00:00Z, did: row, row: 41, stitch: 12}
"""

ENDS = ["--old", "rust 30, <sand> 11, plum", "--new", "plum 15, <sand> 11, rust 30"]
STRANDS = [
    ["--yarn", "hedge.yaml", *ENDS, "--method", "felted"],
    ["--yarn", "hedge.yaml", "--units", "in", "--old", "rust 12, <sand> 4 1/4, plum", "--new", "plum 6, <sand> 4 1/4, rust"],
    ["--yarn", "hedge.yaml", "--old", "rust 30, <sand> 11, plum 40, hook", *ENDS[2:], "--room", "5cm", "--take", "2"],
    ["--yarn", "hedge.yaml", "--old", ENDS[1], "--new", "rust 52, a moss 14, plum 70, dot"],
    ["--yarn", "counted.yaml", "--old", "ochre 9, ecru 6, indigo", "--new", "indigo 20, ecru 6, ochre 4"],
    ["--whole", "plum 84", "--old", "plum 31, fern", "--new", "plum 73, oat"],
    ["project.yaml", "--old", "rust 30, sand 11, plum"],
    ["project.yaml", "--knot", "--old", "rust 30, sand 11, plum", "--new", "rust 50, moss 14, navy"],
]
FABRIC = [
    ["project.yaml"],
    ["project.yaml", "--worked", "rounds", "--left-handed"],
    ["--yarn", "hedge.yaml", "--stitches", "40", "--rows", "30", "--yarn-per-stitch", "2cm", "--out-of-step", "6"],
]
REPEAT = [
    ["--yarn", "hedge.yaml"],
    ["--yarn", "hedge.yaml", "--new", "plum 15, rust 30"],
    ["--yarn", "hedge.yaml", "--new", "plum, <sand> 11", "--units", "in"],
    ["--yarn", "counted.yaml", "--old", "ecru 3, ochre 30"],
    ["--yarn", "long.yaml"],
    ["project.yaml", "--old", "rust 30, sand 11, plum"],
]
KINDS = [*(["strands", *more] for more in STRANDS), *(["fabric", *more] for more in FABRIC),
         *(["repeat", *more, *bar] for more, bar in itertools.product(REPEAT, ([], ["--bar"])))]


def number(text):
    return float(text.removesuffix("mm"))


class Pictures(unittest.TestCase):
    def setUp(self):
        self.folder = tempfile.TemporaryDirectory()
        self.addCleanup(self.folder.cleanup)
        self.here = pathlib.Path(self.folder.name)
        for name, text in (("hedge", YARN), ("counted", STITCHES), ("long", LONG), ("project", PROJECT)):
            (self.here / f"{name}.yaml").write_text(text, encoding="utf-8")

    def draw(self, words):
        done = subprocess.run([PROGRAM, "draw", *words, "--out", "it.svg", "--format", "json"], capture_output=True,
                              cwd=self.here, text=True, check=False, timeout=60, stdin=subprocess.DEVNULL)
        self.assertIn(done.returncode, (0, 3), done.stderr)
        told = json.loads(done.stdout)
        self.assertEqual(told["out"], "it.svg", told["description"])
        return told, self.here / "it.svg"

    def judge(self, words):
        told, path = self.draw(words)
        lint = subprocess.run(["xmllint", "--noout", "--nonet", path], capture_output=True, text=True, check=False)
        self.assertEqual((lint.returncode, lint.stderr), (0, ""))
        root = ElementTree.parse(path).getroot()
        self.assertEqual(root.tag, SVG + "svg")
        width, height = number(root.get("width")), number(root.get("height"))
        self.assertEqual(root.get("viewBox").split(), ["0", "0", root.get("width")[:-2], root.get("height")[:-2]])
        self.assertLessEqual(width, 184)
        self.assertLessEqual(height, 254)

        names = [node.get("id") for node in root.iter() if node.get("id")]
        self.assertEqual(len(names), len(set(names)), "a name stands there twice")
        text = path.read_text(encoding="utf-8")
        self.assertLessEqual(set(re.findall(r"url\(#([^)]+)\)", text)), set(names))
        self.assertEqual(set(re.findall(r"https?://[^\"<]*", text)), {"http://www.w3.org/2000/svg"})
        self.assertNotRegex(text, r"<(script|image|use|style|foreignObject)|href|@import")

        by_name = {node.get("id"): node for node in root.iter() if node.get("id")}
        label = [by_name[name] for name in root.get("aria-labelledby").split()]
        self.assertEqual([node.tag for node in label], [SVG + "title", SVG + "desc"])
        self.assertEqual([node.text for node in label], [told["title"], told["description"]])
        self.on_paper(root, width, height)
        return text

    def on_paper(self, root, width, height):
        """No word begins, or ends where it is anchored, off the paper; a letter is no narrower than 0.4 of its size."""
        for group in root.iter(SVG + "g"):
            shift = re.fullmatch(r"translate\(([\d.-]+) ([\d.-]+)\)", group.get("transform", ""))
            if not shift:
                continue
            for node in group.iter(SVG + "text"):
                x, y = float(node.get("x")) + float(shift[1]), float(node.get("y")) + float(shift[2])
                wide = 0.4 * 3.2 * len(node.text)
                left = {"end": x - wide, "middle": x - wide / 2}.get(node.get("text-anchor"), x)
                self.assertGreaterEqual(left, -0.5, node.text)
                self.assertLessEqual(left + wide, width + 0.5, node.text)
                self.assertTrue(0 <= y <= height, node.text)

    def test_pictures(self):
        for words in KINDS:
            with self.subTest(words=words):
                self.judge(words)

    def test_bars_of_the_shipped_yarns_tell_every_length_whole(self):
        for profile, unit in itertools.product(PROFILES, ("cm", "in")):
            with self.subTest(profile=profile.stem, unit=unit):
                words = ["repeat", "--bar", "--yarn", str(profile), "--units", unit]
                text = self.judge(words)
                told, _ = self.draw(words)
                told_words = [node.text for node in ElementTree.fromstring(text).iter(SVG + "text")]
                self.assertNotIn("…", "".join(told_words))
                sections = re.search(r"in working order: (.*?)\.(?: |$)(?!\d)", told["description"])
                self.assertIsNotNone(sections, told["description"])
                for section in sections[1].split(", "):
                    length = re.search(r"[\d.]+(?: \d+/\d+)? (?:cm|m|in|yd|stitches)$", section)[0]
                    self.assertTrue(any(re.search(rf"(^|[: ]){re.escape(length)}$", one) for one in told_words),
                                    f"{section} stands nowhere in {told_words}")

    def test_every_colour_of_a_piece_has_its_letter_in_it(self):
        size = itertools.chain(itertools.product(PROFILES, ((200, 1000), (60, 200))),
                               [(PROFILES[0].with_name("quickstile.yaml"), (12, 12))])
        pieces = [["--yarn", str(profile), "--stitches", str(stitches), "--rows", str(rows), "--yarn-per-stitch", "1.8cm"]
                  for profile, (stitches, rows) in size]
        for words in [*pieces, [str(PROFILES[0].parent.parent / "demo" / "seawall-wrap.yaml")], *FABRIC]:
            with self.subTest(words=words):
                self.draw(["fabric", *words])
                text = (self.here / "it.svg").read_text(encoding="utf-8")
                found = collections.Counter(re.findall(r'<text[^>]*text-anchor="middle"[^>]*>([A-Z])</text>', text))
                # Its name stands beside the first, below the piece.
                self.assertTrue(found)
                self.assertEqual([letter for letter, count in found.items() if count < 2], [])

    def test_a_name_stays_a_name(self):
        text = self.judge(["strands", "--yarn", "hedge.yaml", *ENDS])
        self.assertIn("&lt;sand&gt;", text)
        self.assertNotIn("<sand>", text)

    def test_where_no_cut_is_advised_nothing_is_drawn(self):
        done = subprocess.run([PROGRAM, "draw", "strands", "--yarn", "hedge.yaml", "--old", "rust 30, <sand> 11",
                               "--new", "plum 40", "--out", "it.svg", "--format", "json"], capture_output=True,
                              cwd=self.here, text=True, check=False, timeout=60, stdin=subprocess.DEVNULL)
        self.assertEqual(done.returncode, 3, done.stderr)
        told = json.loads(done.stdout)
        self.assertEqual((told["out"], told["verdict"]), (None, "measure-more"))
        self.assertFalse((self.here / "it.svg").exists())


if __name__ == "__main__":
    unittest.main()
