#pragma once
#include <cstddef>
#include <string>
#include <vector>

// What the program asks of a disk; the tests put one in memory behind it.
namespace ballchange {

class Disk {
 public:
  virtual ~Disk() = default;
  // The bytes of a file or pipe, at most `most` of them. Throws std::system_error with the cause.
  [[nodiscard]] virtual std::string read(const std::string& path, std::size_t most) const = 0;
  // Whether there is something to read at `path` that is no folder.
  [[nodiscard]] virtual bool is_file(const std::string& path) const = 0;
  // Names of what lies in a folder, sorted; none where it cannot be listed.
  [[nodiscard]] virtual std::vector<std::string> names_in(const std::string& folder) const = 0;
};

class RealDisk : public Disk {
 public:
  [[nodiscard]] std::string read(const std::string& path, std::size_t most) const override;
  [[nodiscard]] bool is_file(const std::string& path) const override;
  [[nodiscard]] std::vector<std::string> names_in(const std::string& folder) const override;
};

}  // namespace ballchange
