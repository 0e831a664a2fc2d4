#include "commands/run.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <exception>
#include <new>
#include <ostream>

#include "base/text.hpp"
#include "commands/help.hpp"
#include "commands/next.hpp"
#include "commands/table.hpp"
#include "commands/words.hpp"
#include "console/join_options.hpp"
#include "console/screen.hpp"
#include "join/advice.hpp"

namespace ballchange {
namespace {

[[noreturn]] void refuse_command(const std::string& name) {
  const std::string said = printable(name, 40);
  if (name.rfind('-', 0) != 0) refuse_command_name(name);
  throw Problem(Fault::content, fmt::format("{} comes before any command: begin with one of {}", said,
                                            fmt::join(command_names(), ", ")));
}

[[noreturn]] void refuse_surplus(const std::string& word) {
  throw Problem(Fault::content,
                fmt::format("'{}' belongs to no option: quote a reading as one word", printable(word, 40)));
}

// A word that begins with a dash; somebody may have meant an option by "-v".
[[noreturn]] void refuse_dashed(const std::string& word, std::span<const OptionGroup> groups, const CommandRow& row) {
  const std::string said = printable(word, 40);
  if ((word[1] >= 'a' && word[1] <= 'z') || word[1] == '?') refuse_option("-" + word, said, groups, row.name);
  if (row.words == 0) refuse_surplus(word);
  throw Problem(Fault::content, fmt::format("'{0}' begins with a dash: if it is no option, write -- before it, as -- "
                                            "\"{0}\"",
                                            said));
}

// What stands after "--" is a word, however it begins.
Options options_of(const std::vector<std::string>& arguments, std::span<const OptionGroup> groups,
                   const CommandRow& row) {
  const auto words = std::find(arguments.begin(), arguments.end(), "--");
  Options options = parse_options({arguments.begin(), words}, groups, row.name);
  for (const std::string& word : options.words()) {
    if (word.size() > 1 && word.front() == '-') refuse_dashed(word, groups, row);
  }
  if (words != arguments.end()) std::for_each(words + 1, arguments.end(), [&](auto& word) { options.add_word(word); });
  if (options.words().size() > row.words) refuse_surplus(options.words()[row.words]);
  return options;
}

Outcome dispatch(const std::vector<std::string>& arguments, Context& context) {
  if (arguments.empty()) return tell_next(context);
  if (arguments.front() == "--help" || arguments.front() == "-h") return run_help({}, context);
  const std::string& name = arguments.front();
  if (name == "--version") {
    context.out << "ballchange " << BALLCHANGE_VERSION << "\n";
    return Outcome::done;
  }
  const std::vector<std::string> rest(arguments.begin() + 1, arguments.end());
  if (name == "words") return run_words(rest, context);
  const CommandRow* row = command_named(name);
  if (row == nullptr) refuse_command(name);
  const std::vector<OptionGroup> groups = row->options();
  if (asks_for_help({rest.begin(), std::find(rest.begin(), rest.end(), "--")}, groups)) {
    Options wanted;
    wanted.add_word(name);
    return run_help(wanted, context);
  }
  const Options options = options_of(rest, groups, *row);
  try {
    return row->run(options, context);
  } catch (const Lacking& lacking) {
    throw Problem(lacking.fault(), with_what_to_type(lacking, options));
  }
}

void complain_of(const Problem& problem, const Context& context) {
  std::string text = problem.what();
  for (const std::string& line : problem.shown()) text += "\n" + line;
  complain(context, text);
}

int run_and_complain(const std::vector<std::string>& arguments, Context& context) {
  try {
    return dispatch(arguments, context) == Outcome::done ? Exit::done : Exit::settles_nothing;
  } catch (const Problem& problem) {
    complain_of(problem, context);
    return problem.fault() == Fault::file ? Exit::file : Exit::content;
  } catch (const std::bad_alloc&) {
    complain(context, "out of memory");
    return Exit::file;
  } catch (const std::exception& unforeseen) {
    complain(context, fmt::format("this should not have happened: {}", printable(unforeseen.what())));
    return Exit::file;
  }
}

}  // namespace

int run_command_line(const std::vector<std::string>& arguments, Context& context) {
  std::vector<std::string> remarks;
  context.hold = [&remarks](std::string_view text) { remarks.emplace_back(text); };
  const int code = run_and_complain(arguments, context);
  context.hold = nullptr;
  const bool failed = code == Exit::content || code == Exit::file;
  for (const std::string& text : remarks) complain(context, failed ? "Note: " + text : text);
  return code;
}

}  // namespace ballchange
