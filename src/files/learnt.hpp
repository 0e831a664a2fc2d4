#pragma once
#include <optional>
#include <string>
#include <vector>

#include "base/measure.hpp"
#include "files/append_file.hpp"
#include "files/lock.hpp"
#include "files/measured.hpp"
#include "files/yaml_tree.hpp"
#include "yarn/yarn.hpp"

// Profiles learnt anew from what they keep, and from more.
namespace ballchange {

// Throws Problem(content) with file and line.
[[nodiscard]] KeptStrands measured_strands(const std::string& profile, const std::string& file);
// The last key of a profile.
[[nodiscard]] std::string measured_text(const std::vector<std::string>& strands, const std::optional<Repeat>& before,
                                        Reckoning reckoning);

struct Relearnt {
  std::string text;
  bool left_out = false;  // remarks, or keys of sections that aren't known, in what had to be written anew
};
// The profile with another repeat, other strands and what was known before them, all else byte for byte as it was.
// Throws Problem(content) where that can't be done without touching the rest.
[[nodiscard]] Relearnt with_learnt(const std::string& profile, const std::string& file, const Repeat& repeat,
                                   const std::vector<std::string>& strands,
                                   const std::optional<Repeat>& before = std::nullopt);

struct Kept {
  std::string path;  // what the file held before is there now
  Remarks remarks;
};
// Replaces a file that held `old`; what it held is kept beside it as FILE~1, or the next number that is free. Throws
// Problem(file), and then the file is as it was and nothing lies beside it.
[[nodiscard]] Kept replace_and_keep(Disk& disk, const std::string& path, const Patience& patience,
                                    const std::string& old, const std::string& now);

}  // namespace ballchange
