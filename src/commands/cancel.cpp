#include "commands/cancel.hpp"

#include <fmt/core.h>

#include <limits>
#include <optional>

#include "base/number.hpp"
#include "base/text.hpp"
#include "project/record.hpp"
#include "show/entry_text.hpp"

namespace ballchange {
namespace {

std::optional<int> number_in(std::string_view text) {
  return whole_number(trim(text), 1, std::numeric_limits<int>::max());
}

bool number_comes_first(const std::vector<std::string>& words) {
  return words.size() > 1 && number_in(words.front()) && !number_in(words.back());
}

// As it would have to be typed: with the project where one was named.
std::string typed_log(const Options& options, std::string_view command, const Context& context) {
  const std::vector<std::string>& words = options.words();
  const bool named =
      words.size() > 1 ||
      (words.size() == 1 && (is_project_name(words.front()) || find_project(words.front(), context).has_value()));
  if (!named) return fmt::format("ballchange {}", command);
  return fmt::format("ballchange {} {}", command, typed_path(number_comes_first(words) ? words.back() : words.front()));
}

int entry_number(const Options& options, const Context& context) {
  const std::vector<std::string>& words = options.words();
  if (number_comes_first(words)) {
    throw Problem(Fault::content, fmt::format("the number of the entry comes last: {} {}",
                                              typed_log(options, "cancel", context), *number_in(words.front())));
  }
  const std::string how =
      fmt::format("{} 5; {} shows them", typed_log(options, "cancel", context), typed_log(options, "log", context));
  const auto number = words.empty() ? std::nullopt : number_in(words.back());
  if (number) return *number;
  if (words.empty() || (words.size() == 1 && is_project_name(words.front()))) {
    throw Problem(Fault::content, "cancel needs the number of an entry: " + how);
  }
  throw Problem(Fault::content, fmt::format("'{}' is no entry's number; the number comes last: {}",
                                            printable(trim(words.back()), 40), how));
}

did::Cancel cancel_of(int number, const Project& project, const State& state) {
  const int last = static_cast<int>(project.entries.size());
  if (last == 0) throw Problem(Fault::content, "nothing is recorded yet, so there is nothing to cancel");
  if (number > last) {
    throw Problem(Fault::content, fmt::format("there is no entry {}: the last one is {}", number, last));
  }
  if (state.cancelled[static_cast<std::size_t>(number) - 1]) {
    throw Problem(Fault::content, fmt::format("entry {} is cancelled already", number));
  }
  return {number};
}

}  // namespace

std::vector<OptionGroup> cancel_options() { return {writing_options(), common_options()}; }

Outcome run_cancel(const Options& options, Context& context) {
  const Common common = common_of(options, context);
  const int number = entry_number(options, context);
  const std::vector<std::string>& words = options.words();
  const std::string path = project_path(words.size() > 1 ? std::optional(words.front()) : std::nullopt, context);
  const Recorded recorded = record(path, options, context, [&](const Project& project, const State& state) {
    return std::vector<Did>{cancel_of(number, project, state)};
  });
  const Did& was = recorded.project.entries[static_cast<std::size_t>(number) - 1].what;
  std::string lines =
      labelled("Was", entry_words(was, recorded.after.fabric.working) + ".", common.screen.text_columns());
  if (const auto* cancel = std::get_if<did::Cancel>(&was)) {
    lines += labelled("So", fmt::format("entry {} counts again.", cancel->entry), common.screen.text_columns());
  }
  tell_recorded(recorded, lines, options, context, common);
  return Outcome::done;
}

}  // namespace ballchange
