#pragma once
#include <cerrno>
#include <map>
#include <set>
#include <string>
#include <system_error>
#include <vector>

#include "files/disk.hpp"

namespace ballchange {

// A disk in memory.
struct FakeDisk : Disk {
  std::map<std::string, std::string> files;
  std::set<std::string> folders;
  std::set<std::string> locked;  // there, but not to be read
  mutable std::vector<std::string> asked;

  [[nodiscard]] std::string read(const std::string& path, std::size_t most) const override {
    if (folders.count(path) > 0) throw std::system_error(EISDIR, std::generic_category());
    if (locked.count(path) > 0) throw std::system_error(EACCES, std::generic_category());
    const auto found = files.find(path);
    if (found == files.end()) throw std::system_error(ENOENT, std::generic_category());
    return found->second.substr(0, most);
  }
  [[nodiscard]] bool is_file(const std::string& path) const override {
    asked.push_back(path);
    return files.count(path) > 0 || locked.count(path) > 0;
  }
  [[nodiscard]] std::vector<std::string> names_in(const std::string& folder) const override {
    std::vector<std::string> names;
    const std::string start = folder == "." ? "" : folder + "/";
    for (const auto& [path, text] : files) {
      if (path.starts_with(start) && path.find('/', start.size()) == std::string::npos) {
        names.push_back(path.substr(start.size()));
      }
    }
    return names;
  }
};

}  // namespace ballchange
