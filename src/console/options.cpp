#include "console/options.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <boost/program_options.hpp>
#include <iterator>

#include "base/limits.hpp"
#include "base/number.hpp"
#include "base/text.hpp"

namespace ballchange {
namespace {

namespace po = boost::program_options;

Problem refusal(const std::string& message) { return {Fault::content, message}; }

std::vector<std::string> option_names(std::span<const OptionGroup> groups) {
  std::vector<std::string> names;
  for (const OptionGroup& group : groups) {
    for (const OptionRow& row : group.rows) names.push_back("--" + std::string(row.name));
  }
  return names;
}

const OptionRow* row_named(std::span<const OptionGroup> groups, std::string_view name) {
  for (const OptionGroup& group : groups) {
    for (const OptionRow& row : group.rows) {
      if (row.name == name) return &row;
    }
  }
  return nullptr;
}

po::options_description description_of(std::span<const OptionGroup> groups) {
  po::options_description all;
  for (const OptionGroup& group : groups) {
    for (const OptionRow& row : group.rows) {
      const std::string name(row.name);
      if (all.find_nothrow(name, false) != nullptr) continue;  // stands in several groups
      if (row.value.empty()) {
        all.add_options()(name.c_str(), po::bool_switch());
      } else if (row.repeats) {
        all.add_options()(name.c_str(), po::value<std::vector<std::string>>()->composing());
      } else {
        all.add_options()(name.c_str(), po::value<std::string>());
      }
    }
  }
  return all;
}

std::string spelled_our_way(const std::string& argument) {
  static const std::string other = "--color";
  if (argument == other || argument.rfind(other + "=", 0) == 0) return "--colour" + argument.substr(other.size());
  return argument;
}

// The library would take the next option for a value that is missing.
void refuse_missing_values(const std::vector<std::string>& arguments, std::span<const OptionGroup> groups) {
  for (std::size_t i = 0; i < arguments.size(); ++i) {
    if (arguments[i].rfind("--", 0) != 0) continue;
    const OptionRow* row = row_named(groups, std::string_view(arguments[i]).substr(2));
    if (row == nullptr || row->value.empty()) continue;
    const std::string wanted = fmt::format("--{} needs a value: --{} {}", row->name, row->name, row->value);
    if (i + 1 == arguments.size()) throw refusal(wanted);
    if (arguments[i + 1].rfind("--", 0) == 0 || arguments[i + 1] == "-h") {
      throw refusal(fmt::format("{}, but the option {} follows it", wanted, printable(arguments[i + 1], 40)));
    }
    ++i;
  }
}

[[noreturn]] void refuse_unknown(const std::string& name, std::span<const OptionGroup> groups,
                                 std::string_view command) {
  std::string said = name.rfind("--", 0) == 0 ? name : "--" + name;
  said = said.substr(0, said.find('='));
  refuse_option(said, said, groups, command);
}

void collect(const po::parsed_options& parsed, std::span<const OptionGroup> groups, Options& options) {
  for (const OptionGroup& group : groups) {
    for (const OptionRow& row : group.rows) {
      std::vector<std::string> values;
      bool given = false;
      for (const auto& option : parsed.options) {
        if (option.position_key != -1 || option.string_key != row.name) continue;
        if (given && !row.repeats) throw refusal(fmt::format("--{} is given twice: give it once", row.name));
        given = true;
        values.insert(values.end(), option.value.begin(), option.value.end());
      }
      // What is shown as the next thing to type has this word in it: typed as it stands, it would be a colour.
      if (row.value == "READING" && std::find(values.begin(), values.end(), row.value) != values.end()) {
        throw refusal(
            fmt::format("--{}: READING stands for what you read, like \"plum 40, sand 11, rust 82\"; see ballchange "
                        "help readings",
                        row.name));
      }
      if (given) options.add(std::string(row.name), std::move(values));
    }
  }
  for (const auto& option : parsed.options) {
    if (option.position_key == -1) continue;
    for (const std::string& word : option.value) options.add_word(word);
  }
}

}  // namespace

std::optional<std::string> Options::text(std::string_view name) const {
  const auto found = values_.find(std::string(name));
  if (found == values_.end() || found->second.empty()) return std::nullopt;
  return found->second.front();
}

std::vector<std::string> Options::texts(std::string_view name) const {
  const auto found = values_.find(std::string(name));
  return found == values_.end() ? std::vector<std::string>() : found->second;
}

bool asks_for_help(const std::vector<std::string>& arguments, std::span<const OptionGroup> groups) {
  for (std::size_t i = 0; i < arguments.size(); ++i) {
    const std::string& word = arguments[i];
    if (word == "--help" || word == "-h") return true;
    const OptionRow* row = word.rfind("--", 0) == 0 ? row_named(groups, std::string_view(word).substr(2)) : nullptr;
    if (row != nullptr && !row->value.empty()) ++i;
  }
  return false;
}

Options parse_options(const std::vector<std::string>& arguments, std::span<const OptionGroup> groups,
                      std::string_view command) {
  std::vector<std::string> spelled;
  std::transform(arguments.begin(), arguments.end(), std::back_inserter(spelled), spelled_our_way);
  refuse_missing_values(spelled, groups);
  namespace style = po::command_line_style;
  Options options;
  try {
    const po::options_description all = description_of(groups);
    const po::positional_options_description words;
    const po::parsed_options parsed =
        po::command_line_parser(spelled)
            .options(all)
            .style(style::allow_long | style::long_allow_next | style::long_allow_adjacent)
            .run();
    collect(parsed, groups, options);
  } catch (const po::unknown_option& unknown) {
    refuse_unknown(unknown.get_option_name(), groups, command);
  } catch (const po::invalid_command_line_syntax& wrong) {
    const std::string name = wrong.get_option_name();
    if (name.find_first_not_of('-') == std::string::npos) refuse_unknown("--=", groups, command);
    throw refusal(wrong.kind() == po::invalid_syntax::extra_parameter
                      ? fmt::format("{} takes no value: give it alone", printable(name, 40))
                      : fmt::format("{} needs a value after the =", printable(name, 40)));
  } catch (const po::error& other) {
    throw refusal(printable(other.what()));
  }
  return options;
}

void refuse_option(std::string_view name, std::string_view said, std::span<const OptionGroup> groups,
                   std::string_view command) {
  const std::string near = did_you_mean(name, option_names(groups));
  throw refusal(fmt::format("there is no option {}{}", printable(said, 40),
                            near.empty() ? fmt::format("; see ballchange help {}", command) : near));
}

std::string did_you_mean(std::string_view word, const std::vector<std::string>& names) {
  const auto begins = [&](const std::string& name) { return !word.empty() && name.rfind(word, 0) == 0; };
  auto near = closest(word, names);
  if (std::count_if(names.begin(), names.end(), begins) == 1) near = *std::find_if(names.begin(), names.end(), begins);
  return near ? fmt::format(", did you mean {}?", *near) : std::string();
}

void refuse_choice(std::string_view name, std::string_view word, const std::vector<std::string>& names) {
  throw refusal(fmt::format("--{}: '{}' is not one of {}{}", name, printable(word, 40), fmt::join(names, ", "),
                            did_you_mean(word, names)));
}

std::optional<int> count_option(const Options& options, std::string_view name, int least) {
  const auto text = options.text(name);
  if (!text) return std::nullopt;
  const std::string_view word = trim(*text);
  const auto value = whole_number(word, least, kMostCounted);
  if (!value) {
    throw refusal(
        fmt::format("--{}: '{}' is not a whole number from {} to {}", name, printable(word, 40), least, kMostCounted));
  }
  return value;
}

}  // namespace ballchange
