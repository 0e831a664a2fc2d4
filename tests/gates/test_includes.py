"""What includes.py finds of files that live on another's includes, and what it leaves alone."""

import pathlib
import tempfile
import unittest

import includes


class Includes(unittest.TestCase):
    def lacking(self, text, **headers):
        with tempfile.TemporaryDirectory() as folder:
            for name, held in headers.items():
                pathlib.Path(folder, f"{name}.hpp").write_text(held)
            path = pathlib.Path(folder, "a.cpp")
            path.write_text(text)
            return list(includes.Tree(pathlib.Path(folder)).lacking(path))

    def test_a_standard_name_needs_its_header(self):
        self.assertEqual(self.lacking("std::vector<int> v;"), ["std::vector, but not <vector>"])
        self.assertEqual(self.lacking("#include <vector>\nstd::vector<int> v;"), [])

    def test_a_macro_needs_its_header(self):
        self.assertEqual(self.lacking("int f() { assert(a); }"), ["assert, but not <cassert>"])

    def test_another_header_that_brings_it_in_passing_is_not_enough(self):
        self.assertEqual(self.lacking("#include <algorithm>\nint a = std::move(b);"), ["std::move, but not <utility>"])

    def test_a_header_of_ours_may_bring_it(self):
        self.assertEqual(self.lacking('#include "b.hpp"\nstd::string s;', b='#include "c.hpp"', c="#include <string>"), [])

    def test_a_joined_list_needs_more_than_formatting(self):
        self.assertEqual(self.lacking("#include <fmt/core.h>\nint a = fmt::join(b);"),
                         ["fmt::join, but not <fmt/format.h> or <fmt/ranges.h>"])

    def test_a_name_nobody_has_placed_is_asked_about(self):
        self.assertEqual(len(self.lacking("std::unheard_of x;")), 1)

    def test_a_type_of_ours_needs_its_header(self):
        self.assertEqual(self.lacking("Ball ball;", b="struct Ball {\n};"), ["Ball, but not b.hpp"])
        self.assertEqual(self.lacking("int f(const Ball& ball);", b="struct Ball {\n};"), ["Ball, but not b.hpp"])
        self.assertEqual(self.lacking("yarns::Ball ball;", b="struct Ball {\n};"), ["Ball, but not b.hpp"])
        self.assertEqual(self.lacking('#include "b.hpp"\nBall ball;', b="struct Ball {\n};"), [])

    def test_a_function_of_ours_needs_its_header(self):
        for call in ("int a = wind(1);", "int a = yarns::wind(1);", "int f() { return wind(1); }",
                     "bool a = b && wind(1);", "int a = 2 * wind(1);", "bool a = 2 > wind(1);", "bool a = not wind(1);",
                     "int a = wind<int>(1);"):
            with self.subTest(call):
                self.assertEqual(self.lacking(call, b="int wind(int);"), ["wind, but not b.hpp"])

    def test_a_constant_and_a_suffix_of_ours_need_their_headers(self):
        self.assertEqual(self.lacking("int a = kMost;", b="constexpr int kMost = 3;"), ["kMost, but not b.hpp"])
        self.assertEqual(self.lacking("auto a = 3_cm;", b='constexpr int operator""_cm(int);'), ["_cm, but not b.hpp"])

    def test_ones_own_of_the_same_name_needs_nothing(self):
        for own in ("int wind(int) { return 0; }\nint a = wind(1);", "auto wind = [] {};\nint a = wind();",
                    "int f(Wind& wind) { return wind(1); }", "int* wind(int);\nint a = *wind(1);", "int a = ball.wind(1);",
                    "// wind(1)\n", 'auto a = "wind(1)";'):
            with self.subTest(own):
                self.assertNotIn("wind, but not b.hpp", self.lacking(own, b="int wind(int);"))


if __name__ == "__main__":
    unittest.main()
