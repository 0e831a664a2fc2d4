#include "files/own_file.hpp"

#include <doctest/doctest.h>

#include <string>
#include <utility>

#include "base/problem.hpp"
#include "files_fake_disk.hpp"
#include "session.hpp"

namespace ballchange {
namespace {

const std::string kPicture = "<?xml version=\"1.0\"?>\n<svg>one</svg>\n";

struct Shelf {
  FakeDisk disk;
  FakeWatch watch;

  std::string write(const std::string& bytes) {
    try {
      static_cast<void>(write_own(disk, "wrap.svg", {watch, {}}, bytes));
      return {};
    } catch (const Problem& problem) {
      return problem.what();
    }
  }
  std::string& file() { return disk.files["./wrap.svg"].empty() ? disk.files["wrap.svg"] : disk.files["./wrap.svg"]; }
};

const std::string kRefused =
    "wrap.svg is there already, is not as ballchange made it, and was left as it is; choose another name";

}  // namespace

TEST_CASE("a picture as it was made is made anew") {
  Shelf shelf;
  CHECK(shelf.write(kPicture).empty());
  CHECK(shelf.write("<?xml version=\"1.0\"?>\n<svg>two</svg>\n").empty());
  CHECK(shelf.file().ends_with("-->\n<svg>two</svg>\n"));
}

TEST_CASE("whatever was changed in a picture since, or only speaks of the program, stays as it is") {
  const std::string cases[] = {
      "",
      "made by ballchange",
      "<!doctype html>\n<!-- made by ballchange -->\n<p>mine</p>\n",
      "<!doctype html>\n<!-- made by ballchange 0123456789abcdef -->\n<p>mine</p>\n",
      "format: ballchange project 1\nname: made by ballchange\n",
  };
  for (const std::string& mine : cases) {
    CAPTURE(mine);
    Shelf shelf;
    shelf.disk.files["wrap.svg"] = mine;
    CHECK(shelf.write(kPicture) == kRefused);
    CHECK(shelf.disk.files["wrap.svg"] == mine);
  }
  Shelf shelf;
  REQUIRE(shelf.write(kPicture).empty());
  std::string& file = shelf.file();
  file.insert(file.find("one"), "by hand: ");
  const std::string changed = file;
  CHECK(shelf.write(kPicture) == kRefused);
  CHECK(shelf.file() == changed);
}

TEST_CASE("a picture that another has made while this one waited for the folder is made anew") {
  Shelf other;
  REQUIRE(other.write("<?xml version=\"1.0\"?>\n<svg>theirs</svg>\n").empty());
  for (const bool own : {true, false}) {
    CAPTURE(own);
    const std::string theirs = own ? other.file() : "by hand";
    Shelf shelf;
    bool busy = true;
    shelf.disk.taken = [&] {
      shelf.disk.files["wrap.svg"] = theirs;
      return std::exchange(busy, false);
    };
    CHECK(shelf.write(kPicture) == (own ? "" : kRefused));
    if (own) CHECK(shelf.disk.files["wrap.svg"].ends_with("-->\n<svg>one</svg>\n"));
    if (!own) CHECK(shelf.disk.files["wrap.svg"] == theirs);
  }
}

TEST_CASE("a picture that can't be written is not said to be recorded") {
  Shelf shelf;
  REQUIRE(shelf.write(kPicture).empty());
  shelf.disk.attributes["wrap.svg"].names = 2;
  CHECK(shelf.write(kPicture) ==
        "cannot write wrap.svg: the file has 2 names (hard links), and the others would not see what is new; go on "
        "with a copy");
}

}  // namespace ballchange
