#include <cstddef>
#include <cstdint>
#include <string>
#include <string_view>

#include "base/problem.hpp"
#include "files/profile.hpp"
#include "fuzz/require.hpp"
#include "show/profile_notes.hpp"

// Any text as a yarn profile: refused with its place, or a yarn that is written down and read back.
extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  using namespace ballchange;
  std::string written;
  try {
    const Profile profile = read_profile(std::string(reinterpret_cast<const char*>(data), size), "orchard.yaml");
    for (const std::string& note : profile.notes) require(note.starts_with("orchard.yaml:"), "a note has its place");
    for (const std::string& note : profile_notes(profile.yarn)) require(!note.empty(), "a note says something");
    written = write_profile(profile.yarn);
  } catch (const Problem& problem) {
    require(std::string_view(problem.what()).starts_with("orchard.yaml:"), "a refusal begins with the place");
    return 0;
  }
  const Profile again = read_profile(written, "written.yaml");
  require(again.notes.empty(), "what is written is all known");
  require(write_profile(again.yarn) == written, "what is written reads back as the same yarn");
  return 0;
}
