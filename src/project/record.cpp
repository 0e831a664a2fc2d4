#include "project/record.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <array>
#include <iterator>
#include <optional>
#include <utility>

#include "base/text.hpp"
#include "console/screen.hpp"
#include "files/append.hpp"
#include "files/append_text.hpp"
#include "files/entry.hpp"
#include "files/source.hpp"
#include "ledger/fold.hpp"
#include "project/stock.hpp"
#include "reading/name.hpp"
#include "show/entry_text.hpp"
#include "show/entry_values.hpp"

namespace ballchange {
namespace {

constexpr std::array<OptionRow, 2> kWriting{{
    {"dry-run", "", "say what would be recorded, and write nothing"},
    {"at", "TIME", "when it was done, like 2026-03-02T19:20Z (now)"},
}};
constexpr OptionGroup kWritingGroup{"Recording", kWriting};

// The ball that an entry was the first to tell of.
std::optional<std::string> added_by(const Project& project, int entry) {
  const auto told = project.entries.begin() + entry - 1;
  const auto* ball = std::get_if<did::Ball>(&told->what);
  if (ball == nullptr) return std::nullopt;
  const bool before = std::any_of(project.entries.begin(), told, [&](const LogEntry& other) {
    const auto* also = std::get_if<did::Ball>(&other.what);
    return also != nullptr && also->ball == ball->ball;
  });
  return before ? std::nullopt : std::optional(ball->ball);
}

// The entry that counts again once that one is cancelled: what a cancel cancelled.
std::optional<int> counts_again(const Project& project, const Did& next) {
  const auto* cancel = std::get_if<did::Cancel>(&next);
  if (cancel == nullptr) return std::nullopt;
  const auto* undone = std::get_if<did::Cancel>(&project.entries[std::size_t(cancel->entry - 1)].what);
  return undone != nullptr ? std::optional(undone->entry) : std::nullopt;
}

bool is_refused(const Project& project, const State& before, const Did& next) {
  const auto troubles = check_next(project, before, next).troubles;
  return std::any_of(troubles.begin(), troubles.end(), [](const Trouble& trouble) { return trouble.skipped; });
}

constexpr int kMostTried = 20;  // each folds the whole log

// Of the other cancels, the last one that must go first for `next` to fit.
std::optional<int> cancel_before(const Project& project, const State& before, const Did& next) {
  const int own = std::get<did::Cancel>(next).entry;
  int tried = 0;
  for (int n = static_cast<int>(project.entries.size()); n > 0 && tried < kMostTried; --n) {
    const LogEntry& entry = project.entries[std::size_t(n - 1)];
    if (n == own || !std::holds_alternative<did::Cancel>(entry.what)) continue;
    ++tried;
    const did::Cancel first{n};
    const Checked then = check_next(project, before, first);
    if (std::any_of(then.troubles.begin(), then.troubles.end(), [](const Trouble& t) { return t.skipped; })) continue;
    Project longer = project;
    longer.entries.push_back({static_cast<int>(project.entries.size()) + 1, entry.at, first});
    if (!is_refused(longer, then.after, next)) return n;
  }
  return std::nullopt;
}

// The entry that would count again lacks what was cancelled since.
Problem lacks(const std::string& path, const Trouble& trouble, const std::optional<int>& first) {
  return {Fault::content,
          fmt::format("{}: entry {} would count again and would not fit ({}){}", printable(path), trouble.entry,
                      trouble.message, first ? fmt::format("; cancel entry {} first", *first) : std::string())};
}

// Others that an entry leaves unfit: from the last one back they can be cancelled.
Problem in_the_way(const std::string& path, const Project& project, const Did& next,
                   const std::vector<Trouble>& others) {
  const Trouble& last = others.back();
  const bool one = others.size() == 1;
  std::string which = fmt::format("entry {}", last.entry);
  if (!one) which += others.size() == 2 ? " and one more" : fmt::format(" and {} more", others.size() - 1);
  std::string why = fmt::format("after this {} {} would not fit any more ({})", kind_name(next), which, last.message);
  if (const auto* cancel = std::get_if<did::Cancel>(&next)) {
    const auto ball = added_by(project, cancel->entry);
    why = ball ? fmt::format("without ball {} {} would not fit any more", printable(*ball, 60), which)
               : fmt::format("without entry {} {} would not fit any more ({})", cancel->entry, which, last.message);
  }
  return {Fault::content, fmt::format("{}: {}; cancel entry {} first", printable(path), why, last.entry)};
}

std::string were_recorded(std::span<const LogEntry> entries) {
  if (entries.size() == 1) return fmt::format("entry {} was recorded", entries.front().n);
  return fmt::format("entries {} {} {} were recorded", entries.front().n, entries.size() == 2 ? "and" : "to",
                     entries.back().n);
}

// Throws where it doesn't fit; tells what is worth knowing.
State fitting(const std::string& path, const Project& project, const State& before, const Did& next,
              std::vector<std::string>& remarks) {
  const int own = static_cast<int>(project.entries.size()) + 1;
  std::vector<Trouble> others;
  Checked checked = check_next(project, before, next);
  for (const Trouble& trouble : checked.troubles) {
    if (!trouble.skipped) {
      remarks.push_back(trouble.message);
    } else if (trouble.entry == own) {
      throw Problem(Fault::content, fmt::format("{}: {}", printable(path), trouble.message));
    } else {
      others.push_back(trouble);
    }
  }
  if (others.empty()) return std::move(checked.after);
  const auto again = counts_again(project, next);
  if (others.back().entry == again) throw lacks(path, others.back(), cancel_before(project, before, next));
  throw in_the_way(path, project, next, others);
}

// The work of one recording, done with the lock held.
class Recording {
 public:
  Recording(const std::string& path, Moment at, const MakeDids& make) : path_(path), at_(at), make_(make) {}

  std::vector<std::string> operator()(const Tree& tree) {
    ProjectRead read = read_project(tree);
    State before = fold(read.project);
    State after = before;
    notes_ = project_notes(read, tree, before);
    Project project = std::move(read.project);
    std::vector<std::string> texts;
    std::vector<std::string> remarks;
    for (Did& did : make_(project, before)) {
      const int n = static_cast<int>(project.entries.size()) + 1;
      EntryWritten written = written_entry({n, at_, std::move(did)}, project.units);
      after = fitting(path_, project, after, written.entry.what, remarks);
      project.entries.push_back(std::move(written.entry));
      texts.push_back(std::move(written.text));
    }
    recorded_.emplace(
        Recorded{std::move(project), std::move(before), std::move(after), texts.size(), true, std::move(remarks), {}});
    return texts;
  }
  [[nodiscard]] Recorded take() { return std::move(*recorded_); }
  [[nodiscard]] const std::vector<std::string>& notes() const { return notes_; }

 private:
  const std::string& path_;
  Moment at_;
  const MakeDids& make_;
  std::vector<std::string> notes_;
  std::optional<Recorded> recorded_;
};

Recorded record(const std::string& path, bool told_before, const Options& options, const Context& context,
                const MakeDids& make) {
  Recording recording(path, moment_of(options, context), make);
  std::vector<std::string> remarks;
  const bool dry = options.has("dry-run");
  if (dry) {
    const std::string text = read_document(context.disk, path, Tree::kMostBytes);
    const Tree tree(text, path);
    static_cast<void>(add_entries(text, tree, recording(tree)));
  } else {
    const MakeEntries make_entries = [&](const std::string&, const Tree& tree) { return recording(tree); };
    remarks = append(context.disk, path, patience(path, context), make_entries).remarks;
  }
  Recorded recorded = recording.take();
  recorded.written = !dry;
  if (recorded.written && recorded.count > 0) stands_now(context, were_recorded(recorded.entries()));
  if (!told_before) {
    for (const std::string& note : recording.notes()) remark(context, note);
  }
  for (const std::string& remark : remarks) complain(context, remark);
  return recorded;
}

std::string recorded_json(const Recorded& recorded, const MoreTold& more) {
  Json json;
  const Ruler& ruler = recorded.after.ruler;
  json.object().member("format", "ballchange entry 1");
  json.key("entry").object();
  entry_members(json, recorded.entries().front(), ruler);
  json.end().key("entries").array();
  for (const LogEntry& entry : recorded.entries()) {
    json.object();
    entry_members(json, entry, ruler);
    json.end();
  }
  json.end().key("totals");
  totals_json(json, recorded.after.totals);
  json.member("recorded", recorded.written).key("remarks").array();
  for (const std::string& mind : recorded.minds) json.text(mind);
  for (const std::string& remark : recorded.remarks) json.text(remark);
  unit_member(json.end(), ruler.in_stitches);
  if (more.members) more.members(json);
  json.end();
  return json.take();
}

void refuse_date_alone(std::string_view at) {
  if (!parse_day(at)) return;
  const std::string date(trim(at));
  throw Problem(Fault::content, fmt::format("--at: '{0}' is a date alone; add a time, like {0}T20:00Z", date));
}

std::string left_lines(const Recorded& recorded, Told told, std::size_t columns) {
  const State& state = recorded.after;
  const stock::Stock stock = stock::stock_of(state, stock::doubts_of(state));
  return work_lines({state, stock, chance_of_enough(recorded.project, state, stock)}, told, columns);
}

}  // namespace

const OptionGroup& writing_options() { return kWritingGroup; }

Patience patience(const std::string& path, const Context& context) {
  return {context.watch,
          [&] { complain(context, fmt::format("waiting for another program to be done with {}", printable(path))); }};
}

Moment moment_of(const Options& options, const Context& context) {
  if (const auto at = options.text("at")) {
    refuse_date_alone(*at);
    return parse_moment(*at, "--at");
  }
  return {context.clock.now()};
}

Recorded record(const std::string& path, const Options& options, const Context& context, const MakeDids& make) {
  return record(path, false, options, context, make);
}

Recorded record(const OpenProject& open, const Options& options, const Context& context, const MakeDids& make) {
  return record(open.path, true, options, context, make);
}

void tell_recorded(const Recorded& recorded, std::string_view lines, const Options& options, const Context& context,
                   const Common& common, const MoreTold& more) {
  if (common.format == Format::json) {
    answer(context, common, recorded_json(recorded, more));
    return;
  }
  const Told told = measures_of(options, recorded.project, recorded.after).told;
  const std::size_t columns = common.screen.text_columns();
  std::string text;
  for (const LogEntry& entry : recorded.entries()) {
    const std::string_view start = recorded.written ? "Recorded as entry" : "Would be entry";
    const std::string words = entry_words(entry.what, recorded.after.fabric.working);
    text += wrapped(fmt::format("{} {}: {}{}", start, entry.n, words, words.ends_with('.') ? "" : "."), columns);
  }
  text += lines;
  for (const std::string& remark : recorded.remarks)
    text += labelled("Note", remark + (remark.ends_with('?') ? "" : "."), columns);
  text += more.yarn ? stands_line(recorded.after, told, columns) : left_lines(recorded, told, columns);
  if (!recorded.written) {
    text += wrapped("Nothing was written. It would be:", columns);
    for (const LogEntry& entry : recorded.entries()) text += fmt::format("  - {}\n", entry_text(entry));
  }
  answer(context, common, text);
}

void tell_nothing_recorded(const State& state, std::string_view lines, const Context& context, const Common& common) {
  if (common.format == Format::text) {
    answer(context, common, wrapped("Nothing was recorded.", common.screen.text_columns()) + std::string(lines));
    return;
  }
  Json json;
  json.object().member("format", "ballchange entry 1").key("entry").null();
  json.key("entries").array().end().key("totals");
  totals_json(json, state.totals);
  std::string one_line(lines);
  std::replace(one_line.begin(), one_line.end(), '\n', ' ');
  json.member("recorded", false).key("remarks").array().text(single_spaced(one_line)).end();
  unit_member(json, state.ruler.in_stitches).end();
  answer(context, common, json.take());
}

}  // namespace ballchange
