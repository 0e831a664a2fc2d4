#pragma once
#include <string>
#include <vector>

#include "base/measure.hpp"
#include "files/yaml_tree.hpp"
#include "yarn/yarn.hpp"

// Yarn profiles: "format: ballchange yarn 1", a name, and the repeat in working order.
namespace ballchange {

struct Profile {
  Yarn yarn;
  std::vector<std::string>
      notes;  // "file:line:column: ...": keys that are not known, what only measure reads, to be told once
};

// Throws Problem(content), "file:line:column: what; what would be right". A format with a newer number is refused.
[[nodiscard]] Profile read_profile(std::string text, const std::string& file);

// The same from a mapping without its format, as a project holds it. `bare` is the unit of a number without one, unless
// the mapping's own `units` says otherwise.
[[nodiscard]] Profile read_yarn(Node mapping, Unit bare);

// A profile that reads back as the same yarn: sections to 0.001 mm, the ball to 0.1 mm.
[[nodiscard]] std::string write_profile(const Yarn& yarn);

}  // namespace ballchange
