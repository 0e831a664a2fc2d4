"""Which files are compiled as one, and that clang-tidy finds in them what it finds in each alone."""

import json
import pathlib
import shutil
import subprocess
import sys
import tempfile
import unittest

TESTS = pathlib.Path(__file__).resolve().parents[1]
sys.path[:0] = [str(TESTS), str(TESTS / "gates")]
import tidy  # noqa: E402
import together  # noqa: E402

TOOL = shutil.which("clang-tidy-14") or shutil.which("clang-tidy")
KEEPS = "namespace {\n\n%s\n\n}  // namespace\n"


class Together(unittest.TestCase):
    def made(self, folder, texts):
        files = []
        for name, text in texts.items():
            path = pathlib.Path(folder, name.replace("_hpp", ".hpp"))
            path.write_text(text)
            files += [path] if path.suffix != ".hpp" else []
        return files

    def grouped(self, most=8, **texts):
        with tempfile.TemporaryDirectory() as folder:
            made = together.groups(self.made(folder, texts), most)
            return sorted("".join(path.name for path in group) for group in made)

    def compiled(self, **texts):
        with tempfile.TemporaryDirectory() as folder:
            one = pathlib.Path(folder, "one.cpp")
            one.write_text(together.as_one(self.made(folder, texts)))
            done = subprocess.run([shutil.which("c++"), "-std=c++20", "-fsyntax-only", one], capture_output=True, text=True)
            self.assertEqual(done.stderr, "")

    def test_files_that_share_no_name_stand_together_as_they_are(self):
        texts = {"a": KEEPS % "int one() { return 1; }", "b": KEEPS % "int two() { return 2; }"}
        self.assertEqual(self.grouped(**texts), ["ab"])
        with tempfile.TemporaryDirectory() as folder:
            self.assertNotIn("#define", together.as_one(self.made(folder, texts)))

    def test_what_both_keep_to_themselves_compiles_together(self):
        for kept in ("int one(int two) { return two; }", "struct one {\n  int two;\n};", "constexpr double one = 2;",
                     "using one = int;", "constexpr int other = 1, one = 2;", "constexpr int one[] = {1, 2};"):
            with self.subTest(kept):
                self.assertEqual(self.grouped(a=KEEPS % kept, b=KEEPS % kept), ["ab"])
                self.compiled(a=KEEPS % kept, b=KEEPS % kept)

    def test_a_name_that_another_file_calls_or_a_header_declares_is_not_taken_for_its_own(self):
        kept, calls = KEEPS % "int one(long) { return 1; }", '#include "h.hpp"\nint b() { return one(1); }\n'
        self.assertEqual(self.grouped(h_hpp="int one(int);\n", a=kept, b=calls), ["ab"])
        self.compiled(h_hpp="int one(int);\n", a=kept + "int two() { return one(1); }\n", b=calls)

    def test_what_a_member_or_a_header_names_as_well_parts_them(self):
        other = KEEPS % "int one() { return 1; }"
        for says in ("int b(X x) { return x.one; }", "int b(X x) { return x->one; }", "int b() { return far::one; }"):
            with self.subTest(says):
                self.assertEqual(self.grouped(a=KEEPS % f"int one() {{ return 2; }}\n{says}", b=other), ["a", "b"])
        for head in ("int one(int);\n", "namespace far::one {}\n"):
            with self.subTest(head):
                self.assertEqual(self.grouped(h_hpp=head, a='#include "h.hpp"\n' + other, b=other), ["a", "b"])

    def test_a_member_a_comment_and_a_text_of_another_file_part_nobody(self):
        says = 'int b(X x) { return x.one + x->one; }  // one\nconst char* c = "one";\n'
        self.assertEqual(self.grouped(a=KEEPS % "int one() { return 1; }", b=says), ["ab"])

    def test_a_header_beside_a_file_is_found_from_elsewhere(self):
        self.compiled(h_hpp="int one();\n", a='#include "h.hpp"\nint two() { return one(); }\n', b="")

    def test_who_opens_a_namespace_stands_with_its_like(self):
        opens = "using namespace far;\n"
        self.assertEqual(self.grouped(a=opens, b="", c=opens), ["ac", "b"])

    def test_no_group_is_larger_than_asked(self):
        self.assertEqual(self.grouped(2, a="", b="", c=""), ["ab", "c"])


@unittest.skipUnless(TOOL, "clang-tidy is not installed: what it finds was NOT tested")
class Tidy(unittest.TestCase):
    FAULTS = {"base/a.cpp": ("int* a(void* x) { return (int*)x; }\n", "a.cpp:1:26", "pro-type-cstyle-cast"),
              "base/b.cpp": ("int b(int x) {\n  if (x > 1) {\n    return 1;\n  } else {\n    return 2;\n  }\n}\n", "b.cpp:4:5",
                             "else-after-return"),
              "main.cpp": ("int c(int x) { return 1; }\n", "main.cpp:1:11", "misc-unused-parameters")}

    def test_a_fault_in_any_of_the_files_is_found(self):
        with tempfile.TemporaryDirectory() as folder:
            source = pathlib.Path(folder, "src")
            (source / "base").mkdir(parents=True)
            for name, (text, *_) in self.FAULTS.items():
                (source / name).write_text(text)
            files = [source / name for name in self.FAULTS]
            found = tidy.look(TOOL, files, {path: ("c++", "-std=c++20") for path in files}, folder)
        for _, *words in self.FAULTS.values():
            for word in words:
                self.assertIn(word, found)

    def test_every_file_is_looked_at_whether_compiled_alone_or_with_others(self):
        with tempfile.TemporaryDirectory() as folder:
            build, source = pathlib.Path(folder, "build"), pathlib.Path(folder, "src")
            build.mkdir()
            both = build / "together_0.cpp"
            both.write_text(f'#include <map>\n#include "{source}/base/a.hpp"\n#include "{source}/base/a.cpp"\n#include "{source}/base/b.cpp"\n')
            entries = [{"file": str(file), "command": f"c++ -DX -o some.o -c {file}"}
                       for file in (both, source / "main.cpp", pathlib.Path(folder, "tests", "t.cpp"))]
            (build / "compile_commands.json").write_text(json.dumps(entries))
            self.assertEqual(tidy.compiled(build, source),
                             dict.fromkeys((source / "base/a.cpp", source / "base/b.cpp", source / "main.cpp"), ("c++", "-DX")))

    def test_a_name_that_is_not_used_is_found_where_a_file_stands_apart(self):
        with tempfile.TemporaryDirectory() as folder:
            path = pathlib.Path(folder, "a.cpp")
            path.write_text("namespace far { int x(); }\nnamespace {\nusing far::x;\n}  // namespace\n")
            self.assertTrue(tidy.apart(path))
            self.assertIn("unused-using-decls", tidy.look(TOOL, [path], {path: ("c++", "-std=c++20")}, folder))

    def test_a_tool_that_dies_has_found_something(self):
        with tempfile.TemporaryDirectory() as folder:
            path, tool = pathlib.Path(folder, "a.cpp"), pathlib.Path(folder, "tool")
            path.write_text("")
            tool.write_text("#!/bin/sh\nkill -9 $$\n")
            tool.chmod(0o755)
            self.assertIn("-9", tidy.look(str(tool), [path], {path: ("c++",)}, folder))


if __name__ == "__main__":
    unittest.main()
