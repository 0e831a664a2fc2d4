#include "commands/words_for.hpp"

#include <algorithm>
#include <array>
#include <system_error>
#include <utility>

#include "base/problem.hpp"
#include "base/text.hpp"
#include "commands/table.hpp"
#include "console/common.hpp"
#include "fabric/yarn_class.hpp"
#include "join/method.hpp"
#include "project/project.hpp"
#include "show/entry_text.hpp"

namespace ballchange {
namespace {

constexpr std::size_t kHelpColumns = 60;
constexpr std::size_t kMostEntries = 20;

struct Where {
  const std::optional<std::string>& project;
  const Context& context;
};

OfferedWords choices(std::string_view listed) {
  OfferedWords offered;
  while (!listed.empty()) {
    const std::size_t bar = std::min(listed.find('|'), listed.size());
    offered.words.push_back({std::string(listed.substr(0, bar)), {}});
    listed.remove_prefix(std::min(bar + 1, listed.size()));
  }
  return offered;
}

OfferedWords projects(const Where& where) {
  OfferedWords offered{{}, true};
  for (std::string& file : project_files(where.context)) offered.words.push_back({std::move(file), {}});
  return offered;
}

OfferedWords profiles(const Where& where) {
  OfferedWords offered{{}, true};
  for (std::string& name : profile_names(where.context.disk, surroundings_of(where.context))) {
    offered.words.push_back({std::move(name), {}});
  }
  return offered;
}

OpenProject opened(const Where& where) {
  return open_project(project_path(where.project, where.context), where.context);
}

std::string_view offered_as(BallUse use) {
  switch (use) {
    case BallUse::fresh:
      return "fresh";
    case BallUse::working:
      return "in work";
    case BallUse::joined_ahead:
      return "joined on";
    case BallUse::used_up:
      return "used up";
  }
  return {};
}

OfferedWords balls(const Where& where) {
  OfferedWords offered;
  for (const BallState& ball : opened(where).state.balls) {
    offered.words.push_back({ball.id, std::string(offered_as(ball.use))});
  }
  return offered;
}

// The last ones, newest first: what was recorded by mistake is cancelled soon.
OfferedWords entries(const Where& where) {
  OfferedWords offered;
  const OpenProject open = opened(where);
  for (auto entry = open.project.entries.rbegin(); entry != open.project.entries.rend(); ++entry) {
    if (offered.words.size() == kMostEntries) break;
    if (!open.state.counts(entry->n)) continue;
    offered.words.push_back(
        {std::to_string(entry->n), printable(entry_words(entry->what, open.project.piece.working), kHelpColumns)});
  }
  return offered;
}

OfferedWords methods_offered(const Where& /*where*/) {
  OfferedWords offered;
  for (const MethodRow& row : methods()) offered.words.push_back({std::string(row.name), std::string(row.made)});
  return offered;
}

OfferedWords classes(const Where& /*where*/) {
  OfferedWords offered;
  for (const YarnClass& one : yarn_classes()) offered.words.push_back({std::string(one.name), {}});
  return offered;
}

OfferedWords command_words(const Where& /*where*/) {
  OfferedWords offered;
  for (const CommandRow& row : commands()) offered.words.push_back({std::string(row.name), std::string(row.help)});
  return offered;
}

// @FILE, of the files that may well hold one: no project or profile, no page or picture.
OfferedWords readings(const Where& where) {
  OfferedWords offered;
  for (const std::string& name : where.context.disk.names_in(".")) {
    const bool other = is_project_name(name) || name.ends_with(".svg") || name.ends_with(".html");
    if (name.starts_with('.') || other || !where.context.disk.is_file(name)) continue;
    offered.words.push_back({"@" + name, {}});
  }
  std::sort(offered.words.begin(), offered.words.end(),
            [](const OfferedWord& a, const OfferedWord& b) { return a.text < b.text; });
  return offered;
}

using Offer = OfferedWords (*)(const Where& where);
constexpr std::array<std::pair<std::string_view, Offer>, 8> kOffers{{
    {"PROJECT", projects},
    {"PROFILE", profiles},
    {"ID", balls},
    {"ENTRY", entries},
    {"METHOD", methods_offered},
    {"READING", readings},
    {"CLASS", classes},
    {"COMMAND", command_words},
}};

// One that begins with a dash would be taken for an option.
bool can_be_typed(const OfferedWord& word) {
  if (word.text.empty() || word.text.front() == '-' || !valid_utf8(word.text)) return false;
  for (std::size_t at = 0; at < word.text.size();) {
    if (is_unprintable(next_code_point(word.text, at))) return false;
  }
  return true;
}

}  // namespace

OfferedWords words_for(std::string_view stands_for, const std::optional<std::string>& project, const Context& context) {
  if (stands_for.find('|') != std::string_view::npos) return choices(stands_for);
  if (stands_for.starts_with("FILE")) return {{}, true};
  const auto* const offer =
      std::find_if(kOffers.begin(), kOffers.end(), [&](const auto& row) { return row.first == stands_for; });
  if (offer == kOffers.end()) return {};
  OfferedWords offered;
  try {
    offered = offer->second({project, context.muted()});
  } catch (const Problem&) {
    return {};
  } catch (const std::system_error&) {
    return {};
  }
  std::erase_if(offered.words, [](const OfferedWord& word) { return !can_be_typed(word); });
  return offered;
}

}  // namespace ballchange
