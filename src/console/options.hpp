#pragma once
#include <initializer_list>
#include <map>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "base/problem.hpp"

// Options of a command: one row each, from which parsing, help and the check of the manual all come.
namespace ballchange {

struct OptionRow {
  std::string_view name;   // without the dashes
  std::string_view value;  // "READING"; empty for a flag
  std::string_view help;
  bool repeats = false;
};

struct OptionGroup {
  std::string_view caption;
  std::span<const OptionRow> rows;
};

// The options as given, all still text.
class Options {
 public:
  [[nodiscard]] bool has(std::string_view name) const { return values_.count(std::string(name)) > 0; }
  [[nodiscard]] std::optional<std::string> text(std::string_view name) const;
  [[nodiscard]] std::vector<std::string> texts(std::string_view name) const;
  [[nodiscard]] const std::vector<std::string>& words() const { return words_; }  // not belonging to an option

  // For a command whose first word says what it is to do.
  [[nodiscard]] Options without_first_word() const {
    Options rest = *this;
    if (!rest.words_.empty()) rest.words_.erase(rest.words_.begin());
    return rest;
  }

  void add(const std::string& name, std::vector<std::string> values) { values_[name] = std::move(values); }
  void add_word(std::string word) { words_.push_back(std::move(word)); }

 private:
  std::map<std::string, std::vector<std::string>> values_;
  std::vector<std::string> words_;
};

// Throws Problem(content): an unknown option (with the nearest one), a value missing or that is an option itself, an
// option given twice. `--color` is `--colour`.
// `command` is the one whose help a message points to.
[[nodiscard]] Options parse_options(const std::vector<std::string>& arguments, std::span<const OptionGroup> groups,
                                    std::string_view command);

// Throws Problem(content): there is no option as `said`, and the one that may be meant by `name`, "--xyz".
[[noreturn]] void refuse_option(std::string_view name, std::string_view said, std::span<const OptionGroup> groups,
                                std::string_view command);

// --help or -h, where no option's value should stand.
[[nodiscard]] bool asks_for_help(const std::vector<std::string>& arguments, std::span<const OptionGroup> groups);

// ", did you mean NAME?" or nothing; the one name that goes on from the word comes before any that looks like it.
[[nodiscard]] std::string did_you_mean(std::string_view word, const std::vector<std::string>& names);

// Throws Problem(content), "--edge: 'avod' is not one of avoid, seek, any, did you mean avoid?"
[[noreturn]] void refuse_choice(std::string_view name, std::string_view word, const std::vector<std::string>& names);

// One of a few words; `otherwise` when the option was not given.
template <class Value>
[[nodiscard]] Value choice(const Options& options, std::string_view name, Value otherwise,
                           std::initializer_list<std::pair<std::string_view, Value>> rows) {
  const auto word = options.text(name);
  if (!word) return otherwise;
  std::vector<std::string> names;
  for (const auto& row : rows) {
    if (row.first == *word) return row.second;
    names.emplace_back(row.first);
  }
  refuse_choice(name, *word, names);
}

// A whole number from `least` to 1,000,000; nothing when not given.
[[nodiscard]] std::optional<int> count_option(const Options& options, std::string_view name, int least);

}  // namespace ballchange
