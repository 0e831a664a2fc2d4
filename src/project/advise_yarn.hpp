#pragma once
#include <optional>
#include <string_view>
#include <vector>

#include "console/common.hpp"
#include "console/context.hpp"
#include "console/options.hpp"
#include "show/check.hpp"

// A ball change without a project: on a yarn's profile, or with nothing but the lengths of whole sections.
namespace ballchange {

[[nodiscard]] const OptionGroup& without_project_options();  // yarn, whole, either-way

struct YarnAdvice {
  std::optional<Yarn> yarn;  // nothing: whole lengths alone
  Measures measures;
  Fabric fabric = {};
  JoinWish wish = {};
  std::vector<Colour> colours = {};
  Strand old_strand = {}, new_strand = {};
  Advice advice = {};

  // Looks into this.
  [[nodiscard]] CheckShown shown() const {
    return {yarn ? &*yarn : nullptr, colours, old_strand, new_strand, fabric, wish, advice};
  }
};

// `command` is how messages call it: "check". Throws Problem(content) for what is missing or can't be, Lacking.
[[nodiscard]] YarnAdvice advise_without_project(const Options& options, const Context& context, const Common& common,
                                                std::string_view command);
// Throws Problem(content) where --either-way is told beside a repeat.
void refuse_either_way(const Options& options);

}  // namespace ballchange
