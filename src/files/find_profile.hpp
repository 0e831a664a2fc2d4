#pragma once
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "files/disk.hpp"
#include "files/profile.hpp"

// Where yarn profiles lie: by path, or by name in the current folder, the person's own data folder, the system's (XDG
// Base Directory Specification 0.8) and the place the program was installed to.
namespace ballchange {

// Taken from the environment by main; an empty variable counts as not set.
struct Surroundings {
  std::string home;             // HOME
  std::string data_home;        // XDG_DATA_HOME, usually ~/.local/share
  std::string data_dirs;        // XDG_DATA_DIRS, usually /usr/local/share:/usr/share
  std::string installed_share;  // the program's own data folder, /usr/share/ballchange; may be empty
};

// The folders in which a name is looked for, first to last, each once.
[[nodiscard]] std::vector<std::string> profile_folders(const Surroundings& around);

// Whether that file lies in one of them that everybody on the computer shares.
[[nodiscard]] bool is_shared_profile(std::string_view file, const Surroundings& around);

// Whether it comes with the program, by its name where it lies in a folder of data: `cmake --install --prefix ~/.local`
// puts the examples among the person's own.
[[nodiscard]] bool is_example_profile(std::string_view file, const Surroundings& around);
// The names of those.
[[nodiscard]] std::span<const std::string_view> example_profiles();

// The names of all that lie there, sorted; other files of this folder are not among them.
[[nodiscard]] std::vector<std::string> profile_names(const Disk& disk, const Surroundings& around);

// The file of `name`: itself when it holds a '/' or ends in ".yaml", otherwise NAME.yaml in the first folder that has
// one. Throws Problem(content) with the nearest name and where it looked.
[[nodiscard]] std::string find_profile(std::string_view name, const Disk& disk, const Surroundings& around);

// Finds and reads. Throws Problem(file) or Problem(content).
[[nodiscard]] Profile load_profile(std::string_view name, const Disk& disk, const Surroundings& around);

}  // namespace ballchange
