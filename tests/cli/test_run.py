"""The runner of the cases must itself notice what it is there to notice."""

import contextlib
import io
import pathlib
import tempfile
import unittest

import run

SAYS = """#!/bin/sh
case $1 in
  say) printf -- "$2" ;;
  err) printf -- "$2" >&2; exit 3 ;;
  fail) printf -- "$2"; exit 2 ;;
  cat) cat ;;
  write) printf -- "$2" >out.txt ;;
  env) printf "%s %s %s\\n" "$LC_ALL" "$TZ" "$COLUMNS" ;;
  terminal) read answer; [ -t 0 ] && [ -t 1 ] && echo "a terminal, told $answer" ;;
esac
"""


class Runner(unittest.TestCase):
    def setUp(self):
        folder = tempfile.TemporaryDirectory()
        self.addCleanup(folder.cleanup)
        self.case = pathlib.Path(folder.name, "some.case")
        self.program = pathlib.Path(folder.name, "ballchange")
        self.program.write_text(SAYS)
        self.program.chmod(0o755)

    def holds(self, text, accept=False):
        self.case.write_text("What it shows.\n\n" + text)
        with contextlib.redirect_stdout(io.StringIO()) as said:
            held = run.judge(self.case, str(self.program), [{}], accept)
        self.assertEqual(bool(said.getvalue()), not held)
        return held

    def test_a_case_that_holds(self):
        self.assertTrue(self.holds("--- $ ballchange say 'a\\n'\na\n"))
        self.assertTrue(self.holds("--- $ ballchange err 'no\\n'\n--- stderr\nno\n--- exit 3\n"))
        self.assertTrue(self.holds("--- $ ballchange err ''\n--- exit 3\n--- $ ballchange say ''\n--- exit 0\n"))
        self.assertTrue(self.holds("--- width 60\n--- $ TZ=X ballchange env\nC X 60\n"))

    def test_every_difference_is_seen(self):
        for text in ("--- $ ballchange say 'a\\n'\nb\n", "--- $ ballchange say 'a'\na\n", "--- $ ballchange say 'a\\n'\n",
                     "--- $ ballchange say 'a \\n'\na\n", "--- $ ballchange err 'no\\n'\n--- exit 3\n",
                     "--- $ ballchange err ''\n", "--- $ ballchange say ''\n--- exit 3\n",
                     "--- $ ballchange write 'a\\n'\n--- holds out.txt\nb\n",
                     "--- $ ballchange say ''\n--- holds out.txt\n",
                     "--- $ ballchange write '<p>one two</p>'\n--- reads out.txt\none\n",
                     "--- $ ballchange say ''\n--- reads out.txt\n"):
            with self.subTest(text):
                self.assertFalse(self.holds(text))

    def test_what_is_given(self):
        self.assertTrue(self.holds("--- stdin\none\ntwo\\c\n--- $ ballchange cat\none\ntwo\\c\n--- $ ballchange cat\n"))
        self.assertTrue(self.holds("--- file in/a.txt\nx\\r\n--- holds in/a.txt\nx\\r\n--- $ ballchange say ''\n"))
        self.assertTrue(self.holds("--- terminal 60\n--- stdin\nyes\n--- $ ballchange terminal\na terminal, told yes\n"))

    def test_json_is_judged(self):
        self.assertTrue(self.holds("--- $ ballchange say '{}' --format json\n{}\\c\n"))
        for output in ("{", "NaN", '{"a":1,"a":2}'):
            with self.subTest(output), self.assertRaises(run.Broken):
                self.holds(f"--- $ ballchange say '{output}' --format json\n", accept=True)
        with self.assertRaises(run.Broken):
            self.holds("--- $ ballchange fail '{}' --format json\n", accept=True)

    def test_accepting_makes_the_case_hold(self):
        self.holds("--- stdin\nx\\\\y\\e\n--- $ ballchange cat\n--- $ ballchange err '--- a\\n'\n", accept=True)
        self.assertEqual(self.case.read_text(), "What it shows.\n\n--- stdin\nx\\\\y\\e\n--- $ ballchange cat\nx\\\\y\\e\n"
                         "--- $ ballchange err '--- a\\n'\n--- stderr\n\\--- a\n--- exit 3\n")
        self.assertTrue(run.judge(self.case, str(self.program), [{}], False))

    def test_a_case_that_is_no_case(self):
        for text in ("", "--- $ other\n", "--- exot 3\n", "--- exit 3\n--- $ ballchange say ''\n",
                     "--- width x\n--- $ ballchange say ''\n", "--- file a\n\\q\n--- $ ballchange say ''\n"):
            with self.subTest(text), self.assertRaises(run.Broken):
                self.holds(text)

    def test_text_stands_for_any_bytes(self):
        for data in (b"", b"a", b"a\n", b"\\", b"\\c\n", b"a\\\\c", bytes(range(256)), b"--- a\n--- b", "\u2028\u202e\u00a0…\n".encode()):
            with self.subTest(data):
                self.assertEqual(run.to_bytes(run.to_text(data)), data)
                self.assertEqual("".join(run.lines_of(run.to_text(data))), run.to_text(data))


if __name__ == "__main__":
    unittest.main()
