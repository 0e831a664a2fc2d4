#include "files/disk.hpp"

#include <fcntl.h>
#include <unistd.h>

#include <algorithm>
#include <array>
#include <cerrno>
#include <filesystem>
#include <system_error>

namespace ballchange {
namespace {

class OpenFile {
 public:
  explicit OpenFile(const std::string& path) : descriptor_(::open(path.c_str(), O_RDONLY | O_CLOEXEC)) {
    if (descriptor_ < 0) throw std::system_error(errno, std::generic_category());
  }
  ~OpenFile() { ::close(descriptor_); }
  OpenFile(const OpenFile&) = delete;
  OpenFile& operator=(const OpenFile&) = delete;

  // 0 at the end of the file.
  std::size_t read(char* into, std::size_t size) const {
    for (;;) {
      const ssize_t got = ::read(descriptor_, into, size);
      if (got >= 0) return static_cast<std::size_t>(got);
      if (errno != EINTR) throw std::system_error(errno, std::generic_category());
    }
  }

 private:
  int descriptor_;
};

}  // namespace

std::string RealDisk::read(const std::string& path, std::size_t most) const {
  // A name with a NUL byte would silently open another file.
  if (path.find('\0') != std::string::npos) throw std::system_error(EINVAL, std::generic_category());
  const OpenFile file(path);
  std::string bytes;
  std::array<char, 65536> piece{};
  while (bytes.size() < most) {
    const std::size_t got = file.read(piece.data(), std::min(piece.size(), most - bytes.size()));
    if (got == 0) break;
    bytes.append(piece.data(), got);
  }
  return bytes;
}

bool RealDisk::is_file(const std::string& path) const {
  std::error_code error;
  const auto status = std::filesystem::status(path, error);
  return !error && std::filesystem::exists(status) && !std::filesystem::is_directory(status);
}

std::vector<std::string> RealDisk::names_in(const std::string& folder) const {
  std::vector<std::string> names;
  std::error_code error;
  for (std::filesystem::directory_iterator entry(folder, error), end; !error && entry != end; entry.increment(error)) {
    names.push_back(entry->path().filename().string());
  }
  std::sort(names.begin(), names.end());
  return names;
}

}  // namespace ballchange
