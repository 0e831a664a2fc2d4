#pragma once
#include <string_view>

#include "console/common.hpp"
#include "console/context.hpp"
#include "console/options.hpp"
#include "project/advise_project.hpp"
#include "project/advise_yarn.hpp"

// A ball change as a command line tells it, or whoever sits at the terminal: for `check`, and its picture. Both ask for
// what is missing and throw Problem.
namespace ballchange {

// Whether it is one in a project: one is named, or no yarn is and the folder holds one.
[[nodiscard]] bool means_project(const Options& options, const Context& context);

struct ChangeInProject {
  OpenProject open;
  Options options;  // with what was answered
  EndTexts texts;
  ProjectAdvice advised;
};
// Remarks on what is worth it.
[[nodiscard]] ChangeInProject change_in_project(const Options& given, const Context& context, const Common& common);
// On a yarn, or with whole lengths alone; `command` is how messages call it: "check".
[[nodiscard]] YarnAdvice change_on_yarn(const Options& given, const Context& context, const Common& common,
                                        std::string_view command);

}  // namespace ballchange
