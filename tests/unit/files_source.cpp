#include "files/source.hpp"

#include <doctest/doctest.h>
#include <sys/stat.h>

#include <cstdlib>
#include <filesystem>
#include <sstream>
#include <string>
#include <utility>

#include "base/problem.hpp"
#include "files/find_profile.hpp"
#include "reading/reading.hpp"
#include "unit/files_fake_disk.hpp"

using namespace ballchange;

namespace {

using Refusal = std::pair<Fault, std::string>;

template <typename Call>
Refusal refusal(Call call) {
  try {
    (void)call();
  } catch (const Problem& problem) {
    return {problem.fault(), problem.what()};
  }
  return {Fault::content, "accepted"};
}

const Surroundings kAround{.home = "/home/ann", .data_home = "", .data_dirs = "", .installed_share = "/opt/ballchange"};
const std::string kProfile =
    "format: ballchange yarn 1\nname: X\nrepeat: [{colour: a, length: 9}, {colour: b, length: 9}]\n";

}  // namespace

TEST_CASE("a file that can't be read is refused with its cause") {
  FakeDisk disk;
  disk.files["full"] = "0123456789";
  disk.files["fuller"] = std::string(2049, 'x');
  disk.folders.insert("folder");
  disk.locked.insert("locked");
  CHECK(read_file(disk, "full", 10) == "0123456789");
  const auto reading = [&](const std::string& path) { return refusal([&] { return read_file(disk, path, 9); }); };
  CHECK(reading("gone") == Refusal{Fault::file, "cannot open gone: No such file or directory"});
  CHECK(reading("folder") == Refusal{Fault::file, "cannot open folder: Is a directory"});
  CHECK(reading("locked") == Refusal{Fault::file, "cannot open locked: Permission denied"});
  CHECK(reading("a\x1B[1m") == Refusal{Fault::file, "cannot open a\\x1B[1m: No such file or directory"});
  CHECK(refusal([&] { return read_file(disk, "fuller", 2048); }) ==
        Refusal{Fault::content, "fuller: larger than 2 kB; is it the right file?"});
}

TEST_CASE("a pipe in the folder is no file to look into") {
  char made[] = "/tmp/ballchange-pipe-XXXXXX";
  REQUIRE(mkdtemp(made) != nullptr);
  const std::string pipe = std::string(made) + "/pipe.yaml";
  REQUIRE(mkfifo(pipe.c_str(), 0600) == 0);
  CHECK(RealDisk().names_in(made).empty());
  std::filesystem::remove_all(made);
}

TEST_CASE("the real disk reads files, refuses folders and lists names in order") {
  const RealDisk disk;
  const std::string here = BALLCHANGE_TESTS "/../profiles";
  CHECK(disk.read(here + "/orchard.yaml", 10) == "# Long sec");
  CHECK(disk.is_file(here + "/orchard.yaml"));
  CHECK_FALSE(disk.is_file(here));
  CHECK_FALSE(disk.is_file(here + "/gone"));
  CHECK(disk.names_in(here).front() == "deckplank.yaml");
  CHECK(disk.names_in(here + "/gone").empty());
  CHECK(refusal([&] { return read_file(disk, here, 10); }) ==
        Refusal{Fault::file, "cannot open " + here + ": Is a directory"});
  CHECK(refusal([&] { return read_file(disk, std::string("a\0b", 3), 10); }) ==
        Refusal{Fault::file, "cannot open a\\x00b: Invalid argument"});
}

TEST_CASE("a reading comes from the option, a file or standard input") {
  FakeDisk disk;
  disk.files["old.txt"] = "\xEF\xBB\xBFplum 15,\r\nsand 11\r\n";
  disk.files["big"] = std::string(kMostReadingBytes + 1, 'x');
  std::istringstream in("  rust 30, sand\n");
  CHECK(reading_text("plum 15, sand", disk, in, "--old") == "plum 15, sand");
  CHECK(reading_text("@old.txt", disk, in, "--old") == "plum 15, sand 11");
  CHECK(reading_text("-", disk, in, "--old") == "rust 30, sand");
  std::istringstream returns("rust 30,\rsand\r\n");
  CHECK(reading_text("-", disk, returns, "--old") == "rust 30, sand");
  CHECK(reading_text("-", disk, in, "--old").empty());
  CHECK(refusal([&] { return reading_text("@", disk, in, "--old"); }) ==
        Refusal{Fault::content, "--old: '@' without a file name; write @FILE"});
  CHECK(refusal([&] { return reading_text("@gone", disk, in, "--old"); }) ==
        Refusal{Fault::file, "cannot open gone: No such file or directory"});
  CHECK(refusal([&] { return reading_text("@big", disk, in, "--old"); }) ==
        Refusal{Fault::content, "big: larger than 256 kB; is it the right file?"});
  std::istringstream endless(disk.files["big"]);
  CHECK(refusal([&] { return reading_text("-", disk, endless, "--old"); }) ==
        Refusal{Fault::content, "standard input: larger than 256 kB; is it the right file?"});
  std::istringstream broken;
  broken.setstate(std::ios::badbit);
  CHECK(refusal([&] { return reading_text("-", disk, broken, "--old"); }) ==
        Refusal{Fault::file, "cannot read standard input"});
}

TEST_CASE("folders are searched in the order of the XDG Base Directory Specification") {
  // XDG Base Directory Specification 0.8: unset or empty variables take their defaults, relative folders are ignored.
  using Folders = std::vector<std::string>;
  CHECK(profile_folders(kAround) == Folders{".", "/home/ann/.local/share/ballchange/profiles",
                                            "/usr/local/share/ballchange/profiles", "/usr/share/ballchange/profiles",
                                            "/opt/ballchange/profiles"});
  CHECK(profile_folders({"/h", "/data/", "/x:rel::/y/", "/y/ballchange"}) ==
        Folders{".", "/data/ballchange/profiles", "/x/ballchange/profiles", "/y/ballchange/profiles"});
  CHECK(profile_folders({"", "rel", ":", ""}) == Folders{"."});
}

TEST_CASE("a profile of this folder or one's own is not shared, all others that are found by name are") {
  for (const char* file : {"elm.yaml", "some/elm.yaml", "/home/ann/.local/share/ballchange/profiles/elm.yaml",
                           "/usr/share/ballchange/profiles2/elm.yaml"}) {
    CAPTURE(file);
    CHECK_FALSE(is_shared_profile(file, kAround));
  }
  for (const char* folder : {"/usr/local/share/ballchange", "/usr/share/ballchange", "/opt/ballchange"}) {
    CAPTURE(folder);
    CHECK(is_shared_profile(std::string(folder) + "/profiles/elm.yaml", kAround));
  }
}

TEST_CASE("an example that comes with the program is one wherever it was installed, but not in one's own folder") {
  for (const char* file : {"/usr/share/ballchange/profiles/elm.yaml", "/opt/ballchange/profiles/orchard.yaml",
                           "/home/ann/.local/share/ballchange/profiles/orchard.yaml"}) {
    CAPTURE(file);
    CHECK(is_example_profile(file, kAround));
  }
  for (const char* file : {"orchard.yaml", "/home/ann/.local/share/ballchange/profiles/elm.yaml",
                           "/home/ann/yarns/orchard.yaml", "/home/ann/.local/share/ballchange/profiles/orchard.yml",
                           "/home/ann/.local/share/ballchange/profiles/more/orchard.yaml"}) {
    CAPTURE(file);
    CHECK_FALSE(is_example_profile(file, kAround));
  }
  const Surroundings elsewhere{.home = "/h", .data_home = "/data", .data_dirs = "", .installed_share = ""};
  CHECK(is_example_profile("/data/ballchange/profiles/thumbrope.yaml", elsewhere));
}

TEST_CASE("the examples are those of the folder that is installed") {
  std::vector<std::string> files;
  for (const std::string_view name : example_profiles()) files.push_back(std::string(name) + ".yaml");
  CHECK(RealDisk().names_in(BALLCHANGE_TESTS "/../profiles") == files);
}

TEST_CASE("the first folder that has the profile wins") {
  FakeDisk disk;
  for (const char* file : {"/opt/ballchange/profiles/elm.yaml", "/usr/share/ballchange/profiles/elm.yaml",
                           "/usr/local/share/ballchange/profiles/elm.yaml",
                           "/home/ann/.local/share/ballchange/profiles/elm.yaml", "elm.yaml"}) {
    disk.files[file] = kProfile;
    CHECK(find_profile("elm", disk, kAround) == file);
  }
  CHECK(load_profile("elm", disk, kAround).yarn.name == "X");
}

TEST_CASE("a path is taken as it is, a folder of the name is passed over") {
  FakeDisk disk;
  disk.folders.insert("elm.yaml");
  disk.files["/opt/ballchange/profiles/elm.yaml"] = kProfile;
  CHECK(find_profile("elm", disk, kAround) == "/opt/ballchange/profiles/elm.yaml");
  CHECK(find_profile("some/elm", disk, kAround) == "some/elm");
  CHECK(find_profile("oak.yaml", disk, kAround) == "oak.yaml");
  CHECK(refusal([&] { return load_profile("../elm", disk, kAround); }) ==
        Refusal{Fault::file, "cannot open ../elm: No such file or directory"});
}

TEST_CASE("an unknown name is refused with the nearest one and where it was looked for") {
  FakeDisk disk;
  disk.files["/opt/ballchange/profiles/orchard.yaml"] = kProfile;
  disk.files["/opt/ballchange/profiles/orchid.txt"] = kProfile;
  const auto finding = [&](const std::string& name) {
    return refusal([&] { return find_profile(name, disk, kAround); });
  };
  CHECK(finding("orchid") == Refusal{Fault::content, "no yarn profile 'orchid'; did you mean orchard?"});
  CHECK(finding("Orchard") == Refusal{Fault::content, "no yarn profile 'Orchard'; did you mean orchard?"});
  CHECK(finding("zebra") == Refusal{Fault::content, "no yarn profile 'zebra'; write its name or its file"});
  CHECK(finding("") == Refusal{Fault::content, "the yarn profile has no name; write its name or its file"});
  CHECK(finding("a\nb") ==
        Refusal{Fault::content, "yarn profile 'a\\x0Ab' holds a character that can't be seen; write it again"});
  CHECK(finding(std::string("a\0/b", 4)) ==
        Refusal{Fault::content, "yarn profile 'a\\x00/b' holds a character that can't be seen; write it again"});
  try {
    (void)find_profile("zebra", disk, kAround);
  } catch (const Problem& problem) {
    REQUIRE(problem.shown().size() == 1);
    CHECK(problem.shown()[0] ==
          "looked in this folder, /home/ann/.local/share/ballchange/profiles, /usr/local/share/ballchange/profiles, "
          "/usr/share/ballchange/profiles, /opt/ballchange/profiles");
  }
}
