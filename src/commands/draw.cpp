#include "commands/draw.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <array>

#include "base/problem.hpp"
#include "base/text.hpp"
#include "commands/pictures.hpp"
#include "show/text.hpp"

namespace ballchange {
namespace {

constexpr std::array<OptionRow, 1> kRows{{
    {"out", "FILE.svg", "the picture as a file; otherwise it is drawn on the screen"},
}};
constexpr OptionGroup kGroup{"The picture (records nothing)", kRows};

struct PictureRow {
  std::string_view name;
  std::vector<OptionGroup> (*options)();
  Outcome (*run)(const Options& options, Context& context, const Common& common);
};
constexpr std::array<PictureRow, 3> kPictures{{
    {"strands", strands_picture_options, run_draw_strands},
    {"fabric", fabric_picture_options, run_draw_fabric},
    {"repeat", repeat_picture_options, run_draw_repeat},
}};

bool takes(const PictureRow& picture, std::string_view option) {
  const std::vector<OptionGroup> groups = picture.options();
  return std::any_of(groups.begin(), groups.end(), [option](const OptionGroup& group) {
    return std::any_of(group.rows.begin(), group.rows.end(),
                       [option](const OptionRow& row) { return row.name == option; });
  });
}

std::string pictures_with(std::string_view option) {
  std::vector<std::string> names;
  for (const PictureRow& picture : kPictures) {
    if (takes(picture, option)) names.push_back(fmt::format("draw {}", picture.name));
  }
  return and_list(names);
}

void refuse_options_of_others(const PictureRow& picture, const Options& options) {
  for (const PictureRow& other : kPictures) {
    for (const OptionGroup& group : other.options()) {
      for (const OptionRow& row : group.rows) {
        if (!options.has(row.name) || takes(picture, row.name)) continue;
        throw Problem(Fault::content, fmt::format("--{} is for {}: leave it out of draw {}", row.name,
                                                  pictures_with(row.name), picture.name));
      }
    }
  }
}

}  // namespace

std::vector<OptionGroup> all_draw_options() { return draw_options({}); }

std::vector<OptionGroup> draw_options(std::string_view wanted) {
  const bool one = std::any_of(kPictures.begin(), kPictures.end(),
                               [&](const PictureRow& picture) { return picture.name == wanted; });
  std::vector<OptionGroup> all{kGroup};
  const auto add = [&](const OptionGroup& group) {
    const auto same = [&](const OptionGroup& other) { return other.caption == group.caption; };
    if (std::none_of(all.begin(), all.end(), same)) all.push_back(group);
  };
  for (const PictureRow& picture : kPictures) {
    if (one && picture.name != wanted) continue;
    for (const OptionGroup& group : picture.options()) add(group);
  }
  add(common_options());
  return all;
}

Outcome run_draw(const Options& options, Context& context) {
  const Common common = common_of(options, context);
  if (options.words().empty()) throw Problem(Fault::content, "draw needs to know what: strands, fabric or repeat");
  const std::string& word = options.words().front();
  const auto* picture =
      std::find_if(kPictures.begin(), kPictures.end(), [&](const PictureRow& row) { return row.name == word; });
  if (picture == kPictures.end()) {
    throw Problem(Fault::content, fmt::format("draw: '{}' is not one of strands, fabric, repeat", printable(word, 40)));
  }
  refuse_options_of_others(*picture, options);
  return picture->run(options.without_first_word(), context, common);
}

}  // namespace ballchange
