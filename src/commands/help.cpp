#include "commands/help.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <ostream>

#include "base/text.hpp"
#include "commands/help_topics.hpp"
#include "console/screen.hpp"
#include "show/text.hpp"

namespace ballchange {
namespace {

constexpr std::size_t kOptionWidth = 28;

std::string option_line(const OptionRow& row, std::size_t columns) {
  std::string head = fmt::format("  --{}", row.name);
  if (!row.value.empty()) head += fmt::format(" {}", row.value);
  std::string out;
  if (head.size() + 2 > kOptionWidth) {
    out = head + "\n";
    head.clear();
  }
  head.resize(kOptionWidth - 1, ' ');
  const std::string text = row.repeats ? fmt::format("{}; may be repeated", row.help) : std::string(row.help);
  return out + labelled(head, text, columns);
}

std::string command_help(const CommandRow& row, std::size_t columns) {
  std::string out = wrapped(fmt::format("ballchange {}: {}", row.name, row.help), columns) + "\n";
  for (std::size_t i = 0; i < row.usage.size(); ++i) {
    out += labelled(i == 0 ? "Usage:" : "", fmt::format("ballchange {} {}", row.name, row.usage[i]), columns);
  }
  for (const OptionGroup& group : row.options()) {
    out += fmt::format("\n{}:\n", group.caption);
    for (const OptionRow& option : group.rows) out += option_line(option, columns);
  }
  if (!row.notes.empty()) out += fmt::format("\n{}", row.notes);
  return out;
}

std::string topics() {
  std::string out;
  for (const HelpTopic& topic : help_topics())
    out += fmt::format("  ballchange help {:<11}{}\n", topic.name, topic.about);
  return out;
}

const HelpTopic* topic_named(std::string_view name) {
  const auto all = help_topics();
  const auto found = std::find_if(all.begin(), all.end(), [&](const HelpTopic& topic) { return topic.name == name; });
  return found == all.end() ? nullptr : &*found;
}

// "help draw fabric" is that of draw.
void refuse_second_word(const std::vector<std::string>& words) {
  if (words.size() < 2) return;
  const CommandRow* row = command_named(words[0]);
  const bool of_usage =
      row != nullptr && std::any_of(row->usage.begin(), row->usage.end(),
                                    [&](std::string_view usage) { return usage.starts_with(words[1] + " "); });
  if (of_usage) return;
  throw Problem(Fault::content,
                fmt::format("help: one command or word at a time; leave out '{}'", printable(words[1], 40)));
}

}  // namespace

std::string overview() {
  std::string out =
      "At a ball change, tells where to cut both yarn ends so that a long colour\n"
      "repeat runs on unbroken.\n\n"
      "Usage: ballchange COMMAND [options]\n\n";
  for (const CommandRow& row : commands()) out += fmt::format("  {:<9} {}\n", row.name, row.help);
  return out +
         "\nTo begin, with nothing set up: a whole plum is 84 cm, 31 cm of it are used, the\n"
         "fresh ball starts with 73 cm of it. Put your own colours and lengths in:\n"
         "  ballchange check --whole \"plum 84\" --old \"plum 31, fern\" --new \"plum 73, oat\"\n\n"
         "With a yarn whose repeat is measured: orchard is there once the program is\n"
         "installed, your own goes into a file (man 5 ballchange):\n"
         "  ballchange check --yarn orchard --old \"rust 30, sand 11, plum\" \\\n"
         "    --new \"plum 15, sand 11, rust 30\"\n\n"
         "More: ballchange help check, man ballchange; of the craft:\n" +
         topics();
}

void refuse_command_name(const std::string& name) {
  std::vector<std::string> names = command_names();
  for (const HelpTopic& topic : help_topics()) names.emplace_back(topic.name);
  const auto near = closest(name, names);
  std::string advice = "; see ballchange help";
  if (near)
    advice = fmt::format(", did you mean {}{}?", topic_named(*near) != nullptr ? "ballchange help " : "", *near);
  throw Problem(Fault::content, fmt::format("there is no command '{}'{}", printable(name, 40), advice));
}

std::vector<OptionGroup> help_options() { return {}; }

Outcome run_help(const Options& options, Context& context) {
  if (options.words().empty()) {
    context.out << overview();
    return Outcome::done;
  }
  const std::string& name = options.words().front();
  refuse_second_word(options.words());
  if (const HelpTopic* topic = topic_named(name)) {
    context.out << topic->text;
    return Outcome::done;
  }
  const CommandRow* row = command_named(name);
  if (row == nullptr) refuse_command_name(name);
  context.out << command_help(*row, screen_of(context, ColourWish::never).columns);
  return Outcome::done;
}

}  // namespace ballchange
