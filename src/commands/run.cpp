#include "commands/run.hpp"

#include <fmt/format.h>

#include <exception>
#include <new>
#include <ostream>

#include "base/text.hpp"
#include "commands/help.hpp"
#include "commands/screen.hpp"
#include "commands/table.hpp"

namespace ballchange {
namespace {

Outcome dispatch(const std::vector<std::string>& arguments, Context& context) {
  if (arguments.empty() || arguments.front() == "--help" || arguments.front() == "-h") return run_help({}, context);
  const std::string& name = arguments.front();
  if (name == "--version") {
    context.out << "ballchange " << BALLCHANGE_VERSION << "\n";
    return Outcome::done;
  }
  const CommandRow* row = command_named(name);
  if (row == nullptr) {
    const std::string said = printable(name, 40);
    throw Problem(
        Fault::content,
        name.rfind('-', 0) == 0
            ? fmt::format("{} comes before any command: begin with one of {}", said, fmt::join(command_names(), ", "))
            : fmt::format("there is no command {}{}; see ballchange help", said, did_you_mean(name, command_names())));
  }
  const std::vector<std::string> rest(arguments.begin() + 1, arguments.end());
  const std::vector<OptionGroup> groups = row->options();
  if (asks_for_help(rest, groups)) {
    Options wanted;
    wanted.add_word(name);
    return run_help(wanted, context);
  }
  const Options options = parse_options(rest, groups);
  if (options.words().size() > row->words) {
    throw Problem(Fault::content, fmt::format("'{}' belongs to no option: quote a reading as one word",
                                              printable(options.words()[row->words], 40)));
  }
  return row->run(options, context);
}

void complain_of(const Problem& problem, const Context& context) {
  std::string text = problem.what();
  for (const std::string& line : problem.shown()) text += "\n" + line;
  complain(context, text);
}

}  // namespace

int run_command_line(const std::vector<std::string>& arguments, Context& context) {
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

}  // namespace ballchange
