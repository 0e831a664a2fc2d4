#pragma once
#include <string>
#include <vector>

#include "commands/words_for.hpp"
#include "console/context.hpp"

// What may stand next on a command line, from the table of commands, for a shell that completes what is typed.
namespace ballchange {

// `typed`: the words after the program's name, unquoted; the last is the one being typed and may be empty. Whether what
// is offered goes on from it is for the shell to look at.
[[nodiscard]] OfferedWords next_words(const std::vector<std::string>& typed, const Context& context);

// The command `words`, which no list of commands tells: `ballchange words -- TYPED...`. Prints a line `words`, or
// `files` where any file's name does as well, then a line for each word: the word, a tab, what it is.
[[nodiscard]] Outcome run_words(const std::vector<std::string>& arguments, Context& context);

}  // namespace ballchange
