#include "files/find_profile.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <array>
#include <set>
#include <system_error>
#include <utility>

#include "base/problem.hpp"
#include "base/text.hpp"
#include "files/source.hpp"

namespace ballchange {
namespace {

constexpr std::string_view kEnding = ".yaml";
constexpr std::size_t kMostBeforeFormat = 4096;
constexpr std::string_view kBelow = "/ballchange/profiles";
// All of profiles/.
constexpr std::array<std::string_view, 9> kExamples{"deckplank", "farfurrow", "gatepost", "orchard",  "quickstile",
                                                    "rookwalk",  "slowdusk",  "tallyrow", "thumbrope"};
constexpr std::string_view kUsualDataDirs = "/usr/local/share:/usr/share";

bool is_path(std::string_view name) { return name.find('/') != std::string_view::npos || name.ends_with(kEnding); }

// The specification has relative folders ignored.
void add_absolute(std::vector<std::string>& folders, std::string_view share, std::string_view below) {
  if (share.empty() || share.front() != '/') return;
  while (share.size() > 1 && share.back() == '/') share.remove_suffix(1);
  std::string folder = fmt::format("{}{}", share, below);
  if (std::find(folders.begin(), folders.end(), folder) == folders.end()) folders.push_back(std::move(folder));
}

void add_own(std::vector<std::string>& folders, const Surroundings& around) {
  if (around.data_home.starts_with('/')) {
    add_absolute(folders, around.data_home, kBelow);
  } else {
    add_absolute(folders, around.home, std::string("/.local/share").append(kBelow));
  }
}

std::vector<std::string> known_names(const Disk& disk, const std::vector<std::string>& folders) {
  std::vector<std::string> names;
  for (const std::string& folder : folders) {
    std::vector<std::string> files;
    try {
      files = disk.names_in(folder);
    } catch (const std::system_error&) {
      continue;
    }
    for (const std::string& file : files) {
      if (file.size() > kEnding.size() && file.ends_with(kEnding)) {
        names.push_back(file.substr(0, file.size() - kEnding.size()));
      }
    }
  }
  return names;
}

bool says_yarn(const Disk& disk, const std::string& file) {
  try {
    return disk.is_file(file) && disk.read(file, kMostBeforeFormat).find("ballchange yarn ") != std::string::npos;
  } catch (const std::system_error&) {
    return false;
  }
}

void refuse_bad_name(std::string_view name) {
  if (name.empty()) throw Problem(Fault::content, "the yarn profile has no name; write its name or its file");
  for (std::size_t at = 0; at < name.size();) {
    if (is_unprintable(next_code_point(name, at))) {
      throw Problem(
          Fault::content,
          fmt::format("yarn profile '{}' holds a character that can't be seen; write it again", printable(name, 60)));
    }
  }
}

}  // namespace

std::vector<std::string> profile_folders(const Surroundings& around) {
  std::vector<std::string> folders{"."};
  add_own(folders, around);
  std::string_view dirs = around.data_dirs.empty() ? kUsualDataDirs : std::string_view(around.data_dirs);
  while (!dirs.empty()) {
    const std::size_t colon = std::min(dirs.find(':'), dirs.size());
    add_absolute(folders, dirs.substr(0, colon), kBelow);
    dirs.remove_prefix(std::min(colon + 1, dirs.size()));
  }
  add_absolute(folders, around.installed_share, "/profiles");
  return folders;
}

bool is_shared_profile(std::string_view file, const Surroundings& around) {
  std::vector<std::string> own{"."};
  add_own(own, around);
  const std::vector<std::string> folders = profile_folders(around);
  return std::any_of(folders.begin() + static_cast<std::ptrdiff_t>(own.size()), folders.end(),
                     [&](const std::string& folder) { return file.starts_with(folder + "/"); });
}

std::span<const std::string_view> example_profiles() { return kExamples; }

bool is_example_profile(std::string_view file, const Surroundings& around) {
  if (is_shared_profile(file, around)) return true;
  const std::size_t slash = file.rfind('/');
  if (slash == std::string_view::npos || !file.ends_with(kEnding)) return false;
  std::vector<std::string> own;
  add_own(own, around);
  const std::string_view name = file.substr(slash + 1, file.size() - slash - 1 - kEnding.size());
  return !own.empty() && file.substr(0, slash) == own.front() &&
         std::find(kExamples.begin(), kExamples.end(), name) != kExamples.end();
}

std::vector<std::string> profile_names(const Disk& disk, const Surroundings& around) {
  std::set<std::string> names;
  for (const std::string& folder : profile_folders(around)) {
    for (const std::string& name : known_names(disk, {folder})) {
      const std::string file = fmt::format("{}/{}{}", folder, name, kEnding);
      if (says_yarn(disk, folder == "." ? name + std::string(kEnding) : file)) names.insert(name);
    }
  }
  return {names.begin(), names.end()};
}

std::string find_profile(std::string_view name, const Disk& disk, const Surroundings& around) {
  refuse_bad_name(name);
  if (is_path(name)) return std::string(name);
  const std::vector<std::string> folders = profile_folders(around);
  for (const std::string& folder : folders) {
    std::string file =
        folder == "." ? fmt::format("{}{}", name, kEnding) : fmt::format("{}/{}{}", folder, name, kEnding);
    if (disk.is_file(file)) return file;
  }
  const std::vector<std::string> names = known_names(disk, folders);
  std::string advice = "write its name or its file";
  if (const auto near = closest(name, names)) advice = fmt::format("did you mean {}?", printable(*near, 60));
  std::vector<std::string> looked;
  for (const std::string& folder : folders) looked.push_back(printable(folder));
  looked.front() = "this folder";
  throw Problem(Fault::content, fmt::format("no yarn profile '{}'; {}", printable(name, 60), advice),
                {fmt::format("looked in {}", fmt::join(looked, ", "))});
}

Profile load_profile(std::string_view name, const Disk& disk, const Surroundings& around) {
  const std::string file = find_profile(name, disk, around);
  return read_profile(read_document(disk, file, Tree::kMostBytes), file);
}

}  // namespace ballchange
