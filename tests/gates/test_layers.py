"""layers.py finds functions wherever they are defined, and only functions; edges that nothing uses; strays."""

import unittest

from layers import edges, functions, layers, stray, unused_edges

SAMPLE = '''\
#include <array>
namespace a {
struct Row {
  int x;
};
constexpr std::array<Row, 2> kRows{{{1},
                                    {2}}};
const auto kWords = words({"a{b", "'"});

template <typename Same>
bool holds(Same same) {
  return same('{');
}

class Walk : public Base<Row> {
 public:
  explicit Walk(int x) : x_(x), rows_{1, 2} {
    go();  // not its end: }
  }
  Walk() = default;
  [[nodiscard]] bool done() const { return at_ >= 1'000; }
  int run(
      int from) const override {
    const auto step = [&](int a) {
      return a;
    };
    if (from > 0) {
      return step(from);
    }
    return 0;
  }
  auto begin() const -> std::vector<int>::iterator {
    return {};
  }

 private:
  std::function<int(int)> rest_;
  int x_{3};
};

void Walk::compute(const Row& row,
                   int level) {
  for (; level < 2; ++level) {
    use(Row{level});
  }
}

enum class Kind { one, two };
}  // namespace a
'''


class Functions(unittest.TestCase):
    def test_every_function_is_found_with_its_length(self):
        lines = SAMPLE.splitlines()
        found = [(lines[first - 1].strip(), length) for first, length in functions(SAMPLE)]
        self.assertEqual(found, [
            ("bool holds(Same same) {", 3),
            ("explicit Walk(int x) : x_(x), rows_{1, 2} {", 3),
            ("[[nodiscard]] bool done() const { return at_ >= 1'000; }", 1),
            ("int run(", 10),
            ("auto begin() const -> std::vector<int>::iterator {", 3),
            ("void Walk::compute(const Row& row,", 6),
        ])


LAYERS = '''\
ballchange_layer(base USES fmt::fmt)
ballchange_layer(yarn ON base)
ballchange_layer(plan ON yarn base USES Threads::Threads)
'''


class Edges(unittest.TestCase):
    def test_a_layer_may_include_what_lies_below(self):
        self.assertEqual(edges(LAYERS), {"base": [], "yarn": ["base"], "plan": ["yarn", "base"]})
        self.assertEqual(layers(edges(LAYERS))["plan"], {"plan", "yarn", "base"})

    def test_an_edge_that_nothing_uses_is_found(self):
        reached = {"base": {"base"}, "yarn": {"base", "yarn"}, "plan": {"base", "plan"}}
        self.assertEqual(list(unused_edges(edges(LAYERS), reached)),
                         ["src/CMakeLists.txt: plan is ON yarn, but includes nothing of it"])


class Top(unittest.TestCase):
    def test_what_has_no_place_at_the_top_is_found(self):
        self.assertEqual(stray([".gitignore", ".ci/all", "README.md", "src/main.cpp", "l.yaml", "notes/a", "notes/b"]),
                         ["l.yaml", "notes"])


if __name__ == "__main__":
    unittest.main()
