#include <algorithm>
#include <cstddef>
#include <cstdint>
#include <string>
#include <string_view>

#include "base/problem.hpp"
#include "files/append_text.hpp"
#include "fuzz/require.hpp"

// Any text as a project: an entry is refused, or there is afterwards what was there before and the entry.
namespace {

using namespace ballchange;

const std::string kEntry = "{n: 2, did: row, row: 7}";

// Of "log: []" the brackets and the blanks around them.
bool is_empty_list(std::string_view cut) {
  return std::count(cut.begin(), cut.end(), '[') == 1 && std::count(cut.begin(), cut.end(), ']') == 1 &&
         cut.find_first_not_of(" \t[]") == std::string_view::npos;
}

void check_bytes_above(const std::string& text, const std::string& added) {
  const std::size_t entry = added.rfind("- " + kEntry);
  require(entry != std::string::npos, "the entry stands in the text");
  std::string_view above = std::string_view(added).substr(0, entry);
  while (above.ends_with(' ')) above.remove_suffix(1);
  std::string before = text;
  if (!before.ends_with('\n')) before += above.ends_with("\r\n") ? "\r\n" : "\n";
  if (above == before) return;
  const auto differs = std::mismatch(above.begin(), above.end(), before.begin(), before.end());
  const auto same = static_cast<std::size_t>(differs.first - above.begin());
  require(before.size() > above.size(), "nothing but brackets goes");
  const std::size_t gone = before.size() - above.size();
  require(is_empty_list(std::string_view(before).substr(same, gone)), "only an empty list is opened");
  require(std::string_view(before).substr(same + gone) == above.substr(same), "the rest stays");
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string text(reinterpret_cast<const char*>(data), size);
  std::string added;
  std::size_t items = 0;
  try {
    const Tree before(text, "wrap.yaml");
    added = add_entries(text, before, {kEntry});
    items = before.root().find("log")->size();
  } catch (const Problem& problem) {
    require(std::string_view(problem.what()).starts_with("wrap.yaml:"), "a refusal begins with the place");
    return 0;
  }
  check_bytes_above(text, added);
  const Tree after(added, "wrap.yaml");
  const auto log = after.root().find("log");
  require(log && log->size() == items + 1, "one entry more");
  require(add_entries(added, after, {kEntry}).starts_with(added), "the next entry finds its place");
  return 0;
}
