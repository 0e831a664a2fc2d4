#include "commands/words.hpp"

#include <algorithm>
#include <ostream>
#include <set>
#include <string_view>
#include <utility>

#include "commands/draw.hpp"
#include "commands/start.hpp"
#include "commands/table.hpp"

namespace ballchange {
namespace {

// One word of a usage line: "strands", "[PROJECT]", "[COMMAND | joins | yarn]".
struct Slot {
  std::vector<std::string_view> names;  // in capitals what it stands for, otherwise the word itself
  bool optional = false;

  [[nodiscard]] bool takes(std::string_view word) const {
    return std::any_of(names.begin(), names.end(),
                       [&](std::string_view name) { return stands_for_something(name) || name == word; });
  }
  static bool stands_for_something(std::string_view name) { return name.front() >= 'A' && name.front() <= 'Z'; }
};

std::string_view taken(std::string_view& text, std::string_view until) {
  const std::size_t stop = std::min(text.find(until), text.size());
  const std::string_view part = text.substr(0, stop);
  text.remove_prefix(std::min(stop + until.size(), text.size()));
  return part;
}

// Up to the first option, all of which go in any order, or another way to say the same.
std::vector<Slot> slots_of(std::string_view usage) {
  std::vector<Slot> slots;
  while (!usage.empty() && usage.front() != '-' && usage.front() != '|') {
    const bool optional = usage.front() == '[';
    std::string_view inside = taken(usage, optional ? "]" : " ");
    if (optional) {
      inside.remove_prefix(1);
      taken(usage, " ");
      if (inside == "options" || inside.starts_with("--")) break;
    }
    Slot slot{{}, optional};
    while (!inside.empty()) slot.names.push_back(taken(inside, " | "));
    slots.push_back(std::move(slot));
  }
  return slots;
}

// What may follow `words` in a line of usage, left to right; each once.
void add_names_after(const std::vector<Slot>& slots, std::size_t slot, const std::vector<std::string>& words,
                     std::size_t word, std::vector<std::string_view>& names) {
  if (slot == slots.size()) return;
  if (word == words.size()) {
    for (const std::string_view name : slots[slot].names) {
      if (std::find(names.begin(), names.end(), name) == names.end()) names.push_back(name);
    }
  } else if (slots[slot].takes(words[word])) {
    add_names_after(slots, slot + 1, words, word + 1, names);
  }
  if (slots[slot].optional) add_names_after(slots, slot + 1, words, word, names);
}

// What was typed before the word that is being typed.
struct Before {
  std::vector<std::string> words;
  std::set<std::string_view> given;     // options
  const OptionRow* value_of = nullptr;  // the option whose value comes next
  bool only_words = false;              // after --
};

const OptionRow* option_in(const std::vector<OptionGroup>& groups, std::string_view name) {
  if (name == "color") name = "colour";
  for (const OptionGroup& group : groups) {
    for (const OptionRow& row : group.rows) {
      if (row.name == name) return &row;
    }
  }
  return nullptr;
}

Before before_last(const std::vector<std::string>& typed, const std::vector<OptionGroup>& groups) {
  Before before;
  for (std::size_t i = 1; i + 1 < typed.size(); ++i) {
    const std::string_view word = typed[i];
    if (before.value_of != nullptr) {
      before.value_of = nullptr;
    } else if (before.only_words || !word.starts_with("--")) {
      before.words.emplace_back(word);
    } else if (word == "--") {
      before.only_words = true;
    } else if (const OptionRow* row = option_in(groups, word.substr(2, word.find('=') - 2))) {
      before.given.insert(row->name);
      if (!row->value.empty() && word.find('=') == std::string_view::npos) before.value_of = row;
    }
  }
  return before;
}

void add_options(const std::vector<OptionGroup>& groups, const Before& before, OfferedWords& offered) {
  std::set<std::string_view> offered_already;
  for (const OptionGroup& group : groups) {
    for (const OptionRow& row : group.rows) {
      if (before.given.count(row.name) > 0 && !row.repeats) continue;
      if (!offered_already.insert(row.name).second) continue;  // two pictures of draw may share one
      offered.words.push_back({"--" + std::string(row.name), std::string(row.help)});
    }
  }
}

// The first word that isn't one of the usage itself, "strands" of draw.
std::optional<std::string> project_word(const CommandRow& row, const std::vector<std::string>& words,
                                        const Context& context) {
  for (const std::string& word : words) {
    const bool of_usage = std::any_of(row.usage.begin(), row.usage.end(), [&](std::string_view usage) {
      return usage.starts_with(word) && usage.substr(word.size()).starts_with(' ');
    });
    if (of_usage) continue;
    const std::string home = context.environment("HOME");
    return word.starts_with("~/") && !home.empty() ? home + word.substr(1) : word;
  }
  return std::nullopt;
}

OfferedWords value_words(const OptionRow& option, const CommandRow& row, const Before& before, const Context& context) {
  return words_for(option.value, project_word(row, before.words, context), context);
}

// --yarn=or
OfferedWords words_behind_equals(std::string_view typed, const std::vector<OptionGroup>& groups, const CommandRow& row,
                                 const Before& before, const Context& context) {
  const std::string_view head = typed.substr(0, typed.find('=') + 1);
  const OptionRow* option = option_in(groups, head.substr(2, head.size() - 3));
  if (option == nullptr) return {};
  OfferedWords offered = value_words(*option, row, before, context);
  for (OfferedWord& word : offered.words) word.text.insert(0, head);
  return offered;
}

OfferedWords first_words(std::string_view typed, const Context& context) {
  if (typed.starts_with('-')) return {{{"--help", "this overview"}, {"--version", "which version this is"}}};
  return words_for("COMMAND", std::nullopt, context);
}

OfferedWords plain_words(const CommandRow& row, const Before& before, const Context& context) {
  std::vector<std::string_view> names;
  for (const std::string_view usage : row.usage) add_names_after(slots_of(usage), 0, before.words, 0, names);
  OfferedWords offered;
  for (const std::string_view name : names) {
    if (!Slot::stands_for_something(name)) {
      offered.words.push_back({std::string(name), {}});
      continue;
    }
    // What start opens must not be there yet.
    if (row.run == run_start && name == "PROJECT") continue;
    OfferedWords more = words_for(name, project_word(row, before.words, context), context);
    offered.words.insert(offered.words.end(), more.words.begin(), more.words.end());
    offered.files = offered.files || more.files;
  }
  return offered;
}

}  // namespace

OfferedWords next_words(const std::vector<std::string>& typed, const Context& context) {
  const std::string_view last = typed.empty() ? std::string_view() : std::string_view(typed.back());
  if (typed.size() <= 1) return first_words(last, context);
  const CommandRow* row = command_named(typed.front());
  if (row == nullptr) return {};
  std::vector<OptionGroup> groups = row->options();
  Before before = before_last(typed, groups);
  if (row->run == run_draw && !before.words.empty()) {
    groups = draw_options(before.words.front());
    before = before_last(typed, groups);
  }
  if (before.value_of != nullptr) return value_words(*before.value_of, *row, before, context);
  OfferedWords offered;
  if (!before.only_words && last.starts_with('-')) {
    if (last.find('=') != std::string_view::npos) return words_behind_equals(last, groups, *row, before, context);
    add_options(groups, before, offered);
    return offered;
  }
  if (before.words.size() < row->words) offered = plain_words(*row, before, context);
  if (offered.words.empty() && last.empty() && !before.only_words) add_options(groups, before, offered);
  return offered;
}

Outcome run_words(const std::vector<std::string>& arguments, Context& context) {
  auto typed = arguments.begin();
  if (typed != arguments.end() && *typed == "--") ++typed;
  const OfferedWords offered = next_words({typed, arguments.end()}, context);
  context.out << (offered.files ? "files\n" : "words\n");
  for (const OfferedWord& word : offered.words) context.out << word.text << '\t' << word.help << '\n';
  return Outcome::done;
}

}  // namespace ballchange
