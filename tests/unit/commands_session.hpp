#pragma once
#include <sstream>
#include <string>
#include <string_view>
#include <vector>

#include "commands/run.hpp"
#include "files/profile.hpp"
#include "files_fake_disk.hpp"
#include "orchard.hpp"

// Command lines run inside the process, with the orchard yarn in the folder.
namespace ballchange {

struct Ran {
  int code = 0;
  std::string out, complaints;
};

inline Ran run(const std::vector<std::string>& arguments, const std::string& input = {}) {
  std::ostringstream out;
  std::istringstream in(input);
  FakeDisk disk;
  const FixedClock clock(0);
  SystemStopwatch watch;
  disk.files["orchard.yaml"] = write_profile(orchard());
  Ran ran;
  Context context {
    out, in, disk, clock, watch, [](const std::string&) { return std::string(); },
        [&ran](std::string_view text) {
          ran.complaints += std::string(text) +
                            "
                            "; }};
                            ran.code = run_command_line(arguments, context);
          ran.out = out.str();
          return ran;
        }

    inline std::vector<std::string>
    check(const std::string& old_text, const std::string& new_text, std::vector<std::string> more = {}) {
      std::vector<std::string> arguments{"check", "--yarn", "orchard.yaml", "--old", old_text, "--new", new_text};
      arguments.insert(arguments.end(), more.begin(), more.end());
      return arguments;
    }

    inline const char* const kOld = "rust 30, sand 11, plum";
    inline const char* const kNew = "plum 15, sand 11, rust 30";

  }  // namespace ballchange
