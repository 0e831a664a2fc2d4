#include "commands/next.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <optional>
#include <ostream>
#include <string>
#include <utility>
#include <vector>

#include "base/text.hpp"
#include "console/common.hpp"
#include "console/screen.hpp"
#include "files/find_profile.hpp"
#include "project/next_step.hpp"
#include "project/project.hpp"
#include "project/stock.hpp"
#include "show/entry_text.hpp"
#include "show/page.hpp"

namespace ballchange {
namespace {

constexpr std::size_t kMostListed = 12;
constexpr std::size_t kMostYarns = 8;

Told told_in(const OpenProject& open) { return measures_of(Options(), open.project, open.state).told; }

void tell_more(Page& page) {
  page.say("More",
           "ballchange help lists all commands; of the craft: ballchange help joins, readings, tolerance, yarn.");
}

struct Yarns {
  std::vector<std::string> own;       // this folder's or the person's
  std::vector<std::string> wrong;     // of those, what is wrong with one that can't be read
  std::vector<std::string> examples;  // come with the program, or are for everybody
};

Yarns yarns_here(const Context& context) {
  const Surroundings around = surroundings_of(context);
  Yarns yarns;
  for (std::string& name : profile_names(context.disk, around)) {
    if (is_example_profile(find_profile(name, context.disk, around), around)) {
      yarns.examples.push_back(std::move(name));
      continue;
    }
    try {
      static_cast<void>(load_profile(name, context.disk, around));
      yarns.own.push_back(std::move(name));
    } catch (const Problem& problem) {
      yarns.wrong.emplace_back(problem.what());
    }
  }
  return yarns;
}

std::string yarns_known(const std::vector<std::string>& names) {
  std::vector<std::string> shown;
  for (const std::string& name : names) {
    if (shown.size() == kMostYarns) return fmt::format("{} and others", fmt::join(shown, ", "));
    shown.push_back(printable(name, 40));
  }
  return and_list(shown);
}

void tell_without_project(Page& page, const Context& context) {
  const auto [own, wrong, examples] = yarns_here(context);
  page.say("There is no project in this folder yet.");
  for (const std::string& text : wrong) page.say("Mind", fmt::format("a yarn can't be read: {}", text));
  if (!own.empty()) {
    page.say("Next", fmt::format("with a yarn of yours whose repeat is known ({}), open a project; you are asked for "
                                 "the rest:",
                                 yarns_known(own)));
    page.typed(fmt::format("ballchange start --yarn {}", typed_path(own.front())));
  }
  page.say(own.empty() ? "Next" : "Or", own.empty() ? "measure your yarn, a strand of two or three repeats:"
                                                    : "measure another yarn, a strand of two or three repeats:");
  page.typed("ballchange measure --name \"My yarn\" --out my-yarn --strand READING");
  page.say("Or",
           "for this one ball change, with nothing set up: how long a whole plum is, how much of it is used, how "
           "much the fresh ball starts with. Put your own colours and lengths in:");
  page.typed("ballchange check --whole \"plum 84\" --old \"plum 31, fern\" --new \"plum 73, oat\"");
  if (examples.empty()) return;
  const auto usual = std::find(examples.begin(), examples.end(), "orchard");
  page.say("Or", fmt::format("try a project with an example, an invented yarn that comes with the program ({}):",
                             yarns_known(examples)));
  page.typed(
      fmt::format("ballchange start --yarn {}", typed_path(usual == examples.end() ? examples.front() : *usual)));
}

void tell_steps(const OpenProject& open, const stock::Stock& stock, const Context& context, Page& page) {
  std::string_view label = "Next";
  for (const NextStep& step : next_steps(open, stock, told_in(open), context)) {
    page.say(label, step.text);
    page.typed(step.command);
    label = "Then";
  }
}

void tell_one(const OpenProject& open, const Context& context, Page& page) {
  const std::string name = open.project.name.empty() ? std::string() : printable(open.project.name, 60) + ", ";
  page.say(fmt::format("{}{}: {}.", name, printable(open.path, 60), where_it_stands(open)));
  const stock::Stock stock = stock::stock_of(open.state, stock::doubts_of(open.state));
  const LeftShown left{open.state, stock, chance_of_enough(open.project, open.state, stock)};
  page.add(work_lines(left, page.told(), page.screen().text_columns()));
  tell_steps(open, stock, context, page);
}

struct Listed {
  std::string file;
  std::optional<OpenProject> open;  // nothing: it can't be read
  std::string wrong;

  [[nodiscard]] std::optional<Moment> newest() const {
    if (!open || open->project.entries.empty()) return std::nullopt;
    return open->project.entries.back().at;
  }
};

Listed listed(const std::string& file, const Context& context) {
  try {
    return {file, open_project(file, context.muted()), {}};
  } catch (const Problem& problem) {
    return {file, std::nullopt, problem.what()};
  }
}

std::string line_of(const Listed& one) {
  const std::string file = printable(one.file, 60);
  if (!one.open) return fmt::format("{} can't be read: {}", file, one.wrong);
  const OpenProject& open = *one.open;
  std::string text = file + ": ";
  if (!open.project.name.empty()) text += printable(open.project.name, 60) + ", ";
  text += where_it_stands(open);
  constexpr std::size_t day = 10;
  if (const auto newest = one.newest()) text += fmt::format(", last on {}", format_moment(*newest).substr(0, day));
  if (const std::size_t odd = open.state.troubles.size(); odd > 0) {
    text += fmt::format("; {} {} not fit (ballchange log {})", odd, odd == 1 ? "entry does" : "entries do",
                        typed_path(one.file));
  }
  return text + ".";
}

void tell_several(const std::vector<std::string>& files, const Context& context, Page& page) {
  std::vector<Listed> all;
  all.reserve(files.size());
  for (const std::string& file : files) all.push_back(listed(file, context));
  // Those without an entry after the others, those that can't be read last.
  std::stable_sort(all.begin(), all.end(), [](const Listed& a, const Listed& b) {
    return std::pair(a.open.has_value(), a.newest()) > std::pair(b.open.has_value(), b.newest());
  });
  page.say(fmt::format("{} projects in this folder, the one worked on last first:", all.size()));
  for (std::size_t k = 0; k < std::min(all.size(), kMostListed); ++k) page.say("", line_of(all[k]));
  if (all.size() > kMostListed) page.say("", fmt::format("and {} more.", all.size() - kMostListed));
  if (!all.front().open) return page.say("Next", "mend the line that is told in an editor.");
  const auto unfinished =
      std::find_if(all.begin(), all.end(), [](const Listed& one) { return one.open && !all_rows_done(*one.open); });
  const OpenProject& first = unfinished == all.end() ? *all.front().open : *unfinished->open;
  page.say(fmt::format("In {}:", printable(first.path, 60)));
  tell_steps(first, stock::stock_of(first.state, stock::doubts_of(first.state)), context, page);
}

}  // namespace

Outcome tell_next(Context& context) {
  const Common common = common_of(Options(), context);
  const std::vector<std::string> files = project_files(context);
  std::string text;
  if (files.size() == 1) {
    const OpenProject open = [&] {
      try {
        return open_project(files.front(), context);
      } catch (const Problem& problem) {
        // What would be right stands in it.
        if (problem.fault() == Fault::content) remark(context, "nothing in the file was changed");
        throw;
      }
    }();
    Page page(common.screen, told_in(open));
    tell_one(open, context, page);
    tell_more(page);
    text = page.take();
  } else {
    Page page(common.screen, Told::centimetres);
    if (files.empty()) {
      tell_without_project(page, context);
    } else {
      tell_several(files, context, page);
    }
    tell_more(page);
    text = page.take();
  }
  answer(context, common, text);
  return Outcome::done;
}

}  // namespace ballchange
