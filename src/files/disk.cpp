#include "files/disk.hpp"

#include <fcntl.h>
#include <sys/file.h>
#include <sys/stat.h>
#include <sys/xattr.h>
#include <unistd.h>

#include <algorithm>
#include <cerrno>
#include <cstdio>
#include <filesystem>
#include <optional>
#include <string_view>
#include <system_error>
#include <vector>

namespace ballchange {
namespace {

[[noreturn]] void fail(int error) { throw std::system_error(error, std::generic_category()); }

void require(int result) {
  if (result != 0) fail(errno);
}

// A name with a NUL byte would silently open another file.
const char* name(const std::string& path) {
  if (path.find('\0') != std::string::npos) fail(EINVAL);
  return path.c_str();
}

class OpenFile {
 public:
  OpenFile(const std::string& path, int flags, mode_t mode = 0)
      : descriptor_(::open(name(path), flags | O_CLOEXEC, mode)) {
    if (descriptor_ < 0) fail(errno);
  }
  ~OpenFile() {
    if (descriptor_ >= 0) ::close(descriptor_);
  }
  OpenFile(const OpenFile&) = delete;
  OpenFile& operator=(const OpenFile&) = delete;

  [[nodiscard]] int descriptor() const { return descriptor_; }

  // 0 at the end of the file.
  std::size_t read(char* into, std::size_t size) const {
    for (;;) {
      const ssize_t got = ::read(descriptor_, into, size);
      if (got >= 0) return static_cast<std::size_t>(got);
      if (errno != EINTR) fail(errno);
    }
  }

  void write(std::string_view bytes) const {
    while (!bytes.empty()) {
      const ssize_t put = ::write(descriptor_, bytes.data(), bytes.size());
      if (put < 0 && errno != EINTR) fail(errno);
      if (put > 0) bytes.remove_prefix(static_cast<std::size_t>(put));
    }
  }

  // Some network disks tell of a failed write only here.
  void close() {
    const int closing = descriptor_;
    descriptor_ = -1;
    if (::close(closing) != 0 && errno != EINTR) fail(errno);
  }

 private:
  int descriptor_;
};

class FolderLock : public HeldLock {
 public:
  explicit FolderLock(const std::string& folder) : folder_(folder, O_RDONLY | O_DIRECTORY) {}
  // False while another holds it.
  [[nodiscard]] bool take() const {
    while (::flock(folder_.descriptor(), LOCK_EX | LOCK_NB) != 0) {
      if (errno == EWOULDBLOCK) return false;
      if (errno != EINTR) fail(errno);
    }
    return true;
  }
  [[nodiscard]] bool is(const std::string& folder) const {
    struct stat locked {};
    struct stat there {};
    require(::fstat(folder_.descriptor(), &locked));
    require(::stat(name(folder), &there));
    return locked.st_dev == there.st_dev && locked.st_ino == there.st_ino;
  }

 private:
  OpenFile folder_;
};

// Under this name Linux keeps who else may read and write a file (POSIX 1003.1e draft 17, acl(5)). The mode then shows
// for the group the most that any of them may, which is not what the group may.
constexpr const char* kAccessList = "system.posix_acl_access";

std::optional<std::string> attribute(const std::string& path, const std::string& name) {
  std::string value(65536, '\0');  // the most that Linux keeps
  const ssize_t size = ::getxattr(path.c_str(), name.c_str(), value.data(), value.size());
  if (size < 0) return std::nullopt;
  value.resize(static_cast<std::size_t>(size));
  return value;
}

// None where the system or the folder keeps none, or doesn't show them; of an access list that can't be read its name.
std::vector<FileAttribute> attributes_of(const std::string& path) {
  std::vector<char> names(65536);  // the most that Linux lists
  const ssize_t listed = ::listxattr(path.c_str(), names.data(), names.size());
  std::vector<FileAttribute> found;
  for (ssize_t at = 0; at < listed;) {
    const std::string name(names.data() + at);
    at += static_cast<ssize_t>(name.size()) + 1;
    const auto value = attribute(path, name);
    if (value || name == kAccessList) found.push_back({name, value.value_or("")});
  }
  // Where there are more than Linux lists, it lists none.
  if (listed < 0) {
    if (const auto list = attribute(path, kAccessList)) found.push_back({kAccessList, *list});
  }
  return found;
}

// Only the owner who may give files away can keep a foreign owner; the group goes over where it can, attributes as
// well. The mode comes last, since a change of owner takes bits from it.
void look_like(int descriptor, const FileFacts& like) {
  unsigned mode = like.mode;
  const bool group_kept = ::fchown(descriptor, like.owner, like.group) == 0 ||
                          ::fchown(descriptor, static_cast<uid_t>(-1), like.group) == 0;
  if (!group_kept) mode &= ~0070U | (mode & 0007U) << 3U;  // the other group may do what everybody may
  ::fremovexattr(descriptor, kAccessList);                 // a folder may give one to what is new in it
  for (const FileAttribute& one : like.attributes) {
    const bool access = one.name == kAccessList;
    const bool known = !access || (group_kept && !one.value.empty());
    const bool set = known && ::fsetxattr(descriptor, one.name.c_str(), one.value.data(), one.value.size(), 0) == 0;
    if (access && !set) mode &= ~0070U;
  }
  require(::fchmod(descriptor, mode));
}

bool not_offered(int error) { return error == EINVAL || error == ENOSYS || error == EOPNOTSUPP; }

}  // namespace

bool FileFacts::has_access_list() const {
  return std::any_of(attributes.begin(), attributes.end(),
                     [](const FileAttribute& one) { return one.name == kAccessList; });
}

std::string RealDisk::read(const std::string& path, std::size_t most) const {
  const OpenFile file(path, O_RDONLY);
  std::string bytes;
  std::vector<char> piece(65536);  // more than the smallest stacks have room for
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
  std::filesystem::directory_iterator entry(folder, error);
  if (error && error != std::errc::no_such_file_or_directory && error != std::errc::not_a_directory) {
    throw std::system_error(error);
  }
  for (const std::filesystem::directory_iterator end; !error && entry != end; entry.increment(error)) {
    std::error_code unknown;
    if (entry->is_regular_file(unknown)) names.push_back(entry->path().filename().string());
  }
  std::sort(names.begin(), names.end());
  return names;
}

std::string RealDisk::real_path(const std::string& path) const {
  std::error_code error;
  const auto real = std::filesystem::canonical(name(path), error);
  if (error) throw std::system_error(error);
  return real.string();
}

FileFacts RealDisk::facts(const std::string& path) const {
  struct stat found {};
  require(::stat(name(path), &found));
  FileFacts facts;
  facts.kind = S_ISREG(found.st_mode)   ? FileFacts::Kind::file
               : S_ISDIR(found.st_mode) ? FileFacts::Kind::folder
                                        : FileFacts::Kind::other;
  facts.size = static_cast<std::uint64_t>(found.st_size);
  facts.names = found.st_nlink;
  facts.mode = found.st_mode & 07777U;
  facts.owner = found.st_uid;
  facts.group = found.st_gid;
  if (facts.kind == FileFacts::Kind::file) facts.attributes = attributes_of(path);
  if (::faccessat(AT_FDCWD, path.c_str(), W_OK, AT_EACCESS) != 0) {
    facts.write_error = errno;
  } else if ((facts.mode & 0222U) == 0) {
    facts.write_error = EACCES;
  }
  return facts;
}

void RealDisk::create(const std::string& path, const std::string& bytes, const std::optional<FileFacts>& like) {
  // What only its owner may read is not shown to others for a moment either.
  OpenFile file(path, O_WRONLY | O_CREAT | O_EXCL, like ? 0600 : 0666);
  try {
    file.write(bytes);
    if (like) look_like(file.descriptor(), *like);
    require(::fsync(file.descriptor()));
    file.close();
  } catch (const std::system_error&) {
    ::unlink(path.c_str());
    throw;
  }
}

bool RealDisk::exchange(const std::string& a, const std::string& b) {
  if (::renameat2(AT_FDCWD, name(a), AT_FDCWD, name(b), RENAME_EXCHANGE) == 0) return true;
  if (not_offered(errno)) return false;
  fail(errno);
}

void RealDisk::rename(const std::string& from, const std::string& to) { require(std::rename(name(from), name(to))); }

void RealDisk::rename_to_new(const std::string& from, const std::string& to) {
  if (::renameat2(AT_FDCWD, name(from), AT_FDCWD, name(to), RENAME_NOREPLACE) == 0) return;
  if (!not_offered(errno)) fail(errno);
  require(::link(name(from), name(to)));
  require(::unlink(name(from)));
}

void RealDisk::remove(const std::string& path) { require(::unlink(name(path))); }

void RealDisk::set_mode(const std::string& path, unsigned mode) { require(::chmod(name(path), mode)); }

void RealDisk::sync_folder(const std::string& folder) {
  const OpenFile open(folder, O_RDONLY | O_DIRECTORY);
  require(::fsync(open.descriptor()));
}

// The folder is locked, not the file: each new version of the file is another file under the same name, so that a lock
// on it would guard a version already gone. The folder stays what it is through every renaming in it; links to the file
// are followed first, so all who write it meet at one folder. No lock file lies about, and the kernel frees the lock of
// a process that ends in whatever way. Only a folder moved away between opening and locking is the wrong one; hence the
// look at what now bears its name.
std::unique_ptr<HeldLock> RealDisk::try_lock(const std::string& folder) const {
  for (;;) {
    auto lock = std::make_unique<FolderLock>(folder);
    if (!lock->take()) return nullptr;
    if (lock->is(folder)) return lock;
  }
}

}  // namespace ballchange
