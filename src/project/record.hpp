#pragma once
#include <cstddef>
#include <functional>
#include <span>
#include <string>
#include <vector>

#include "console/common.hpp"
#include "console/context.hpp"
#include "console/options.hpp"
#include "files/lock.hpp"
#include "project/project.hpp"
#include "show/json.hpp"

// Recording in a project's log.
namespace ballchange {

[[nodiscard]] const OptionGroup& writing_options();  // dry-run, at

// What is to be recorded, one entry or a few that belong together, from the project as it stands with the lock held;
// what it throws leaves the file as it was. Must not ask anything.
using MakeDids = std::function<std::vector<Did>(const Project& project, const State& state)>;

struct Recorded {
  Project project;  // with the new entries
  State before, after;
  std::size_t count = 0;             // of new entries
  bool written = true;               // false for a dry run
  std::vector<std::string> remarks;  // what is worth knowing of them
  std::vector<std::string> minds;    // what speaks against them: JSON only, whoever records tells it
  [[nodiscard]] std::span<const LogEntry> entries() const { return std::span(project.entries).last(count); }
};

// Locks, reads again, checks each entry against the fold as it stands then, and appends. With --dry-run nothing is
// locked or written, but all is checked. --at is the entries' time. Remarks of the disk are complained of. Throws
// Problem(file) when locking, opening or writing failed, Problem(content) for an entry that doesn't fit.
[[nodiscard]] Recorded record(const std::string& path, const Options& options, const Context& context,
                              const MakeDids& make);
// The same for a project that was opened before, so that what opening complains of is not told twice.
[[nodiscard]] Recorded record(const OpenProject& open, const Options& options, const Context& context,
                              const MakeDids& make);

// How long others are waited for, and that it is told.
[[nodiscard]] Patience patience(const std::string& path, const Context& context);
// "now" as entries hold it: --at, or the clock.
[[nodiscard]] Moment moment_of(const Options& options, const Context& context);

// What else an answer tells.
struct MoreTold {
  std::function<void(Json&)> members = nullptr;  // of the JSON object
  bool yarn = false;                             // the lines tell of the yarn left
};
// The answer: as JSON, or what was recorded, `lines` (whole lines of a screen), the remarks and what follows for the
// work. As JSON `more` adds members of its own.
void tell_recorded(const Recorded& recorded, std::string_view lines, const Options& options, const Context& context,
                   const Common& common, const MoreTold& more = {});

// The answer where nothing was recorded because more must be told first.
void tell_nothing_recorded(const State& state, std::string_view lines, const Context& context, const Common& common);

}  // namespace ballchange
