#pragma once
#include <string>
#include <vector>

#include "session.hpp"

// Single command lines about the orchard yarn.
namespace ballchange {

inline Ran run(const std::vector<std::string>& arguments, const std::string& input = {}) {
  return Session().run(arguments, input);
}

inline std::vector<std::string> check(const std::string& old_text, const std::string& new_text,
                                      std::vector<std::string> more = {}) {
  std::vector<std::string> arguments{"check", "--yarn", "orchard.yaml", "--old", old_text, "--new", new_text};
  arguments.insert(arguments.end(), more.begin(), more.end());
  return arguments;
}

inline const char* const kOld = "rust 30, sand 11, plum";
inline const char* const kNew = "plum 15, sand 11, rust 30";

}  // namespace ballchange
