#pragma once
#include <cstddef>
#include <cstdint>
#include <memory>
#include <optional>
#include <string>
#include <vector>

// What the program asks of a disk; the tests put one in memory behind it. Whatever fails throws std::system_error with
// the cause, unless said otherwise.
namespace ballchange {

// What some systems keep with a file besides its mode: access for further people, notes of other programs.
struct FileAttribute {
  std::string name, value;
};

struct FileFacts {
  enum class Kind : std::uint8_t { file, folder, other };
  Kind kind = Kind::file;
  std::uint64_t size = 0;
  std::uint64_t names = 1;  // hard links
  unsigned mode = 0644;
  unsigned owner = 0, group = 0;
  std::vector<FileAttribute> attributes;
  // Whether further people have rights of their own; the mode's group bits then say the most that any of them may.
  [[nodiscard]] bool has_access_list() const;
  int write_error = 0;  // why this process may not write it; EACCES as well for root, where it is read-only for all
};

// A lock on a folder, held while this lives.
class HeldLock {
 public:
  HeldLock() = default;
  virtual ~HeldLock() = default;
  HeldLock(const HeldLock&) = delete;
  HeldLock& operator=(const HeldLock&) = delete;
};

class Disk {
 public:
  virtual ~Disk() = default;
  // The bytes of a file or pipe, at most `most` of them.
  [[nodiscard]] virtual std::string read(const std::string& path, std::size_t most) const = 0;
  // Whether there is something to read at `path` that is no folder. Never throws.
  [[nodiscard]] virtual bool is_file(const std::string& path) const = 0;
  // Names of the files in a folder, pipes and devices left out, sorted; none where it cannot be listed.
  [[nodiscard]] virtual std::vector<std::string> names_in(const std::string& folder) const = 0;

  // From the root down, with every symbolic link followed.
  [[nodiscard]] virtual std::string real_path(const std::string& path) const = 0;
  [[nodiscard]] virtual FileFacts facts(const std::string& path) const = 0;
  // A new file, synced, with mode and, where possible, owner and attributes of `like`; grants nobody more than `like`
  // does. Throws EEXIST for any name taken; removes what it began where it fails.
  virtual void create(const std::string& path, const std::string& bytes, const std::optional<FileFacts>& like) = 0;
  // Two files change names in one step; false, and nothing done, where the system can't.
  [[nodiscard]] virtual bool exchange(const std::string& a, const std::string& b) = 0;
  virtual void rename(const std::string& from, const std::string& to) = 0;
  // The same, but throws EEXIST for any name taken.
  virtual void rename_to_new(const std::string& from, const std::string& to) = 0;
  virtual void remove(const std::string& path) = 0;
  // The permissions of a file, as in FileFacts::mode.
  virtual void set_mode(const std::string& path, unsigned mode) = 0;
  virtual void sync_folder(const std::string& folder) = 0;
  // Null while another process or another HeldLock holds it.
  [[nodiscard]] virtual std::unique_ptr<HeldLock> try_lock(const std::string& folder) const = 0;
};

class RealDisk : public Disk {
 public:
  [[nodiscard]] std::string read(const std::string& path, std::size_t most) const override;
  [[nodiscard]] bool is_file(const std::string& path) const override;
  [[nodiscard]] std::vector<std::string> names_in(const std::string& folder) const override;
  [[nodiscard]] std::string real_path(const std::string& path) const override;
  [[nodiscard]] FileFacts facts(const std::string& path) const override;
  void create(const std::string& path, const std::string& bytes, const std::optional<FileFacts>& like) override;
  [[nodiscard]] bool exchange(const std::string& a, const std::string& b) override;
  void rename(const std::string& from, const std::string& to) override;
  void rename_to_new(const std::string& from, const std::string& to) override;
  void remove(const std::string& path) override;
  void set_mode(const std::string& path, unsigned mode) override;
  void sync_folder(const std::string& folder) override;
  [[nodiscard]] std::unique_ptr<HeldLock> try_lock(const std::string& folder) const override;
};

}  // namespace ballchange
