#include <fmt/format.h>

#include <array>

#include "base/text.hpp"
#include "commands/drawn.hpp"
#include "commands/pictures.hpp"
#include "commands/place.hpp"
#include "measure/needed.hpp"
#include "paper/repeat.hpp"
#include "show/profile_notes.hpp"
#include "show/repeat_terminal.hpp"

namespace ballchange {
namespace {

constexpr std::array<OptionRow, 1> kRows{{
    {"bar", "", "as a bar from left to right instead of a ring"},
}};
constexpr OptionGroup kGroup{"The picture of a repeat", kRows};

std::vector<AlikePair> alike_pairs(const Repeat& repeat) {
  std::vector<AlikePair> pairs;
  for (const LookAlike& one : look_alikes(repeat)) pairs.push_back({one.first, one.second, one.sections});
  return pairs;
}

// A reading and where it lies.
struct Read {
  Reading reading;
  Placing placing;
};

std::optional<Read> read_end(const Options& options, const Placeable& on, const Context& context) {
  if (options.has("old") && options.has("new")) {
    throw Problem(Fault::content, "draw repeat shows one reading: --old or --new, not both");
  }
  const MatchOptions match = match_options(options, on.measures);
  if (!options.has("old") && !options.has("new")) return std::nullopt;
  Palette palette{on.yarn.repeat.colours(), false};
  const End end = options.has("old") ? End::old_end : End::new_end;
  Reading reading = reading_option(options, end, palette, on.measures.ruler, context);
  Placing placing = place_reading(on.yarn, reading, match);
  return Read{std::move(reading), std::move(placing)};
}

// The narrow ones have no room for their names in the picture.
std::string sections_text(const RepeatScene& scene, Told told) {
  constexpr std::size_t most = 40;
  std::vector<std::string> sections;
  for (const RepeatPart& part : scene.parts) {
    if (sections.size() == most) break;
    sections.push_back(
        fmt::format("{} {}", printable(scene.colours[part.colour].name, 60), section_length(part.length, told)));
  }
  const std::size_t more = scene.parts.size() - sections.size();
  return fmt::format("{}{}.", fmt::join(sections, ", "), more > 0 ? fmt::format(", and {} more", more) : std::string());
}

std::string screen_of(const RepeatScene& scene, const RepeatOnPaper& words, const PlaceShown* shown,
                      const Common& common) {
  const std::size_t columns = common.screen.text_columns();
  std::string text = repeat_text(scene, common.screen, words.told);
  text += labelled("Sections", sections_text(scene, words.told), columns);
  if (shown != nullptr) text += place_screen(*shown, common.screen, words.told, common.verbose);
  for (const std::string& alike : words.alike) text += labelled("Alike", alike + ".", columns);
  return text;
}

void scene_members(Json& json, const RepeatScene& scene, const std::vector<AlikePair>& pairs) {
  json.member("total", scene.total);
  json.key("sections").array();
  for (const RepeatPart& part : scene.parts) {
    json.object().member("colour", scene.colours[part.colour].name).member("from", part.from);
    json.member("length", part.length).end();
  }
  json.end().key("look_alikes").array();
  for (const AlikePair& pair : pairs) {
    json.object().member("first", pair.first).member("second", pair.second).member("sections", pair.sections).end();
  }
  json.end().key("candidates").array();
  for (const RepeatPointer& pointer : scene.pointers) {
    json.object().member("place", pointer.place).member("low", pointer.within.from).member("high", pointer.within.to);
    json.member("probability", pointer.probability);
    json.member("direction", pointer.direction == Direction::forward ? "forward" : "backward").end();
  }
  json.end();
}

}  // namespace

std::vector<OptionGroup> repeat_picture_options() { return {placing_group(), reading_options(), kGroup}; }

Outcome run_draw_repeat(const Options& options, Context& context, const Common& common) {
  const Placeable on = what_to_place_on(options, context, common, "draw repeat needs a project or a yarn");
  const std::optional<Read> read = read_end(options, on, context);
  const std::vector<AlikePair> pairs = alike_pairs(on.yarn.repeat);
  const RepeatScene scene = repeat_scene(on.yarn.repeat, pairs, read ? &read->placing : nullptr);
  std::optional<PlaceShown> shown;
  if (read) shown.emplace(PlaceShown{on.yarn, read->reading, read->placing});
  const RepeatOnPaper words = repeat_words(on.yarn, scene, shown ? &*shown : nullptr, on.measures.told);

  Drawn drawn{"repeat", ".svg", words.title, words.description, {}, {}, {}, {}};
  drawn.file = [&] {
    Drawing drawing("repeat", words.title, words.description);
    const auto draw = options.has("bar") ? draw_repeat_bar : draw_repeat_ring;
    const Sheet sheet = draw(drawing, scene, words, 2, 2, kMostPaper);
    return drawing.file({sheet.width + 4, sheet.height + 4});
  };
  drawn.text = screen_of(scene, words, shown ? &*shown : nullptr, common);
  drawn.members = [&](Json& json) {
    scene_members(json, scene, pairs);
    json.member("settled", read ? std::optional(read->placing.verdict == Verdict::settled) : std::nullopt);
  };
  drawn.unshaded = unshaded_note(on.yarn.repeat.colours());
  if (hidden_repeats(on.yarn.repeat) > 1) {
    drawn.notes.push_back("the repeat comes round several times over within what is drawn: all of it reads alike");
  }
  deliver(drawn, options, context, common);
  return read && read->placing.verdict != Verdict::settled ? Outcome::settles_nothing : Outcome::done;
}

}  // namespace ballchange
