#pragma once
#include <algorithm>
#include <cerrno>
#include <functional>
#include <map>
#include <memory>
#include <optional>
#include <set>
#include <string>
#include <string_view>
#include <system_error>
#include <utility>
#include <vector>

#include "files/disk.hpp"

namespace ballchange {

// A disk in memory.
struct FakeDisk : Disk {
  std::map<std::string, std::string> files;
  std::map<std::string, FileFacts> attributes;  // of a file that is not an ordinary one
  std::map<std::string, std::string> links;     // symbolic ones, one level
  std::set<std::string> folders;
  std::set<std::string> locked;  // there, but not to be read
  bool can_exchange = true;
  std::optional<FileFacts> writes_as;  // owner and group of what is created, where it can't be that of another file
  std::function<void(std::string_view)> before;  // each step of reading and writing; what it throws fails that step
  std::function<bool()> taken;                   // whether another holds the lock
  mutable std::vector<std::string> asked;
  mutable int locks_held = 0;

  [[nodiscard]] std::string read(const std::string& path, std::size_t most) const override {
    step("read");
    if (folders.count(path) > 0) fail(EISDIR);
    if (locked.count(path) > 0) fail(EACCES);
    return found(path)->second.substr(0, most);
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

  [[nodiscard]] std::string real_path(const std::string& path) const override {
    step("real_path");
    const auto link = links.find(path);
    const std::string real = link == links.end() ? path : link->second;
    if (real != "." && folders.count(real) == 0) static_cast<void>(found(real));
    return real;
  }
  [[nodiscard]] FileFacts facts(const std::string& path) const override {
    step("facts");
    FileFacts facts;
    if (folders.count(path) > 0) {
      facts.kind = FileFacts::Kind::folder;
      return facts;
    }
    const std::size_t size = found(path)->second.size();
    const auto own = attributes.find(path);
    if (own != attributes.end()) facts = own->second;
    if (facts.size == 0) facts.size = size;
    return facts;
  }
  // In steps, as a real disk has it: empty, half of it, nearly all of it, all of it.
  void create(const std::string& name, const std::string& bytes, const std::optional<FileFacts>& like) override {
    step("create");
    const std::string path = plain(name);
    if (files.count(path) > 0) fail(EEXIST);
    files[path] = "";
    try {
      step("write");
      files[path] = bytes.substr(0, bytes.size() / 2);
      step("write more");
      files[path] = bytes.substr(0, bytes.size() - std::min<std::size_t>(bytes.size(), 2));
      step("write the rest");
      files[path] = bytes;
      if (like) attributes[path] = *like;
      if (like && writes_as) {
        attributes[path].owner = writes_as->owner;
        attributes[path].group = writes_as->group;
      }
      step("sync");
    } catch (const std::system_error&) {
      files.erase(path);
      throw;
    }
  }
  [[nodiscard]] bool exchange(const std::string& a, const std::string& b) override {
    step("exchange");
    if (!can_exchange) return false;
    std::swap(found(a)->second, found(b)->second);
    std::swap(attributes[a], attributes[b]);
    return true;
  }
  void rename(const std::string& from, const std::string& to) override {
    step("rename");
    files[plain(to)] = found(from)->second;
    attributes[plain(to)] = attributes[plain(from)];
    files.erase(plain(from));
  }
  void rename_to_new(const std::string& from, const std::string& name) override {
    step("rename_to_new");
    const std::string to = plain(name);
    if (files.count(to) > 0 || folders.count(to) > 0 || links.count(to) > 0) fail(EEXIST);
    files[to] = found(from)->second;
    files.erase(found(from));
  }
  void remove(const std::string& path) override {
    step("remove");
    files.erase(found(path));
  }
  void set_mode(const std::string& path, unsigned mode) override {
    step("set_mode");
    static_cast<void>(found(path));
    attributes[path].mode = mode;
  }
  void sync_folder(const std::string&) override { step("sync_folder"); }
  [[nodiscard]] std::unique_ptr<HeldLock> try_lock(const std::string&) const override {
    step("lock");
    if (locks_held > 0 || (taken && taken())) return nullptr;
    return std::make_unique<Lock>(locks_held);
  }

 private:
  struct Lock : HeldLock {
    explicit Lock(int& count) : held(count) { ++held; }
    ~Lock() override { --held; }
    int& held;
  };
  [[noreturn]] static void fail(int error) { throw std::system_error(error, std::generic_category()); }
  // The current folder is ".".
  static std::string plain(const std::string& path) { return path.starts_with("./") ? path.substr(2) : path; }
  void step(std::string_view what) const {
    if (before) before(what);
  }
  [[nodiscard]] std::map<std::string, std::string>::iterator found(const std::string& path) {
    const auto at = files.find(plain(path));
    if (at == files.end()) fail(ENOENT);
    return at;
  }
  [[nodiscard]] std::map<std::string, std::string>::const_iterator found(const std::string& path) const {
    const auto at = files.find(plain(path));
    if (at == files.end()) fail(ENOENT);
    return at;
  }
};

}  // namespace ballchange
