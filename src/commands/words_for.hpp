#pragma once
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "console/context.hpp"

// What may be put for a word that stands for something in the table of commands: PROJECT, METHOD, text|json.
namespace ballchange {

struct OfferedWord {
  std::string text;
  std::string help;  // a few words, or empty
};
struct OfferedWords {
  std::vector<OfferedWord> words;
  bool files = false;  // any file's name does as well
};

// `project` is the word that names one, where one does: balls and entries are its own, or else of the only project in
// the folder. Nothing for what only its user can know. Reads what the folder holds, says nothing of what is wrong
// there, and leaves out names with characters that can't be seen.
[[nodiscard]] OfferedWords words_for(std::string_view stands_for, const std::optional<std::string>& project,
                                     const Context& context);

}  // namespace ballchange
