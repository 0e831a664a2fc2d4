#include <fmt/format.h>

#include "base/text.hpp"
#include "paper/strands.hpp"
#include "show/join_words.hpp"
#include "show/trim_doubt.hpp"

namespace ballchange {
namespace {

std::string mark_words(const Mark& mark, Length trim, Told told) {
  if (mark.from == MarkFrom::loose_end) return fmt::format("cut {} from the loose end", tape(trim, told));
  const std::string colour = printable(mark.colour, 24);
  const bool start = mark.from == MarkFrom::start;
  if (is_nothing(mark.distance, told)) return fmt::format("cut where {} {}", colour, start ? "begins" : "ends");
  const std::string distance = tape(mark.distance, told);
  if (!start && !mark.next_colour.empty()) {
    return fmt::format("cut {} before {}", distance, printable(mark.next_colour, 24));
  }
  return fmt::format("cut {} {} {} {}", distance, start ? "after" : "before", colour, start ? "begins" : "ends");
}

// From the left, as far as it is drawn.
std::string colours_of(const StrandPicture& strand, const StrandsScene& scene) {
  std::vector<std::string> names;
  for (const StrandPart& piece : strand.pieces) {
    if (piece.to <= scene.left || piece.from >= scene.right) continue;
    if (names.empty() || piece.starts_here) names.push_back(printable(scene.colours[piece.colour].name, 24));
  }
  return fmt::format("{}", fmt::join(names, ", "));
}

std::string description_of(const StrandsOnPaper& words, const CheckShown& shown, const Join& join,
                           const StrandsScene& scene) {
  const auto part = [&](const std::string& name, const std::string& colours, const std::string& trim,
                        const std::string& mark) {
    return fmt::format(" {}: {}; {}.", name, colours,
                       mark.empty() ? std::string("nothing is cut off") : fmt::format("{}, {}", trim, mark));
  };
  std::string text = "Both strands side by side to scale, the work at the left, the new ball at the right.";
  text += part(words.old_name, colours_of(scene.old_strand, scene), words.old_trim, words.old_mark);
  text += part(words.new_name, colours_of(scene.new_strand, scene), words.new_trim, words.new_mark);
  const std::string shift = words.shift.empty() ? "" : " " + words.shift;
  if (join.leave_knot) return text + " The knot is left as it is." + shift;
  if (join.dry_fit) text += " To try before cutting, " + dry_fit_text(join, words.told);
  return text +
         fmt::format(" The join ({}) lands {}", method_row(shown.advice.method).name,
                     landing_text(join, shown.fabric, words.told)) +
         shift;
}

}  // namespace

StrandsOnPaper strands_words(const CheckShown& shown, const Join& join, const StrandsScene& scene, Told told) {
  StrandsOnPaper words;
  words.told = told;
  words.old_name = "Old strand, from the work";
  const std::string ball = shown.project != nullptr ? printable(shown.project->ball, 24) : std::string();
  words.new_name = ball.empty() || join.leave_knot ? "New strand" : fmt::format("New strand, ball {}", ball);
  const auto cut = [&](const std::optional<Length>& trim, const Mark& mark, End end, std::string& said,
                       std::string& length) {
    if (!trim || is_nothing(*trim, told)) return;
    said = mark_words(mark, *trim, told);
    length = amount(*trim, told, trim_doubt(shown, join, end)) + " cut off";
  };
  cut(join.trim_old, join.old_mark, End::old_end, words.old_mark, words.old_trim);
  cut(join.trim_new, join.new_mark, End::new_end, words.new_mark, words.new_trim);
  if (!join.leave_knot) {
    words.overlap = fmt::format("{}, {}", tape(join.allowance, told), method_row(shown.advice.method).name);
  }
  if (join.dry_fit && !join.leave_knot) {
    const Length length = join.dry_fit->length;
    words.fit = is_nothing(length, told) ? "dry fit: these two meet" : "dry fit " + tape(length, told);
  }
  if (scene.left_out) {
    const Length out = scene.left_out->to - scene.left_out->from;
    words.left_out = fmt::format("{} left out", amount(out, told, trim_doubt(shown, join, End::new_end)));
  }
  words.shift = shift_text(join.shift, shown.fabric, told);
  words.title =
      join.leave_knot ? "A knot that is left" : fmt::format("A ball change in {}", printable(join.colour, 24));
  words.description = description_of(words, shown, join, scene);
  return words;
}

}  // namespace ballchange
