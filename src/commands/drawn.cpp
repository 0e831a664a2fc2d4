#include "commands/drawn.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <system_error>

#include "base/problem.hpp"
#include "base/text.hpp"
#include "console/screen.hpp"
#include "files/own_file.hpp"
#include "project/advise_project.hpp"
#include "project/record.hpp"
#include "show/paint.hpp"

namespace ballchange {
namespace {

// A folder or a device of that very name: what was meant can't be done.
bool is_no_file(const Disk& disk, const std::string& word) {
  try {
    return disk.facts(word).kind != FileFacts::Kind::file;
  } catch (const std::system_error&) {
    return false;
  }
}

std::string path_for(const std::string& word, std::string_view ending, const Disk& disk) {
  const std::size_t name = word.rfind('/') == std::string::npos ? 0 : word.rfind('/') + 1;
  if (word.size() == name || word == "-" || word.starts_with("/dev/") || word.substr(name) == ending ||
      is_no_file(disk, word)) {
    throw Problem(Fault::content, fmt::format("--out: name a file, like picture{}", ending));
  }
  const std::size_t dot = word.find('.', name);
  if (dot == std::string::npos) return word + std::string(ending);
  if (!word.ends_with(ending)) {
    throw Problem(Fault::content, fmt::format("--out: '{}' should end in {}", printable(word, 60), ending));
  }
  return word;
}

// Somebody who looks for the picture that was asked for finds an older one, or none.
std::string not_written(const std::string& word, std::string_view ending, const Disk& disk) {
  const std::string path = path_for(word, ending, disk);
  if (!disk.is_file(path)) return "No picture was written.";
  return fmt::format("No picture was written; {} is of an earlier change.", printable(path));
}

// A picture for the screen, with words for all who can read them.
std::string on_screen(const Drawn& drawn, const Common& common) {
  const std::size_t columns = common.screen.columns;
  if (!drawn.file || drawn.ending != ".svg" || columns >= kLeastColumns) return drawn.text;
  return wrapped(fmt::format("This window is too narrow for a picture: it needs {} columns, or --out FILE.svg.",
                             kLeastColumns),
                 columns) +
         drawn.text;
}

std::string one_line(const std::string& lines) {
  std::string line;
  for (const char c : lines) {
    const bool blank = c == ' ' || c == '\n';
    if (!blank) {
      line += c;
    } else if (!line.empty() && line.back() != ' ') {
      line += ' ';
    }
  }
  return std::string(trim(line));
}

}  // namespace

void deliver(const Drawn& drawn, const Options& options, Context& context, const Common& common) {
  std::string lines = on_screen(drawn, common);
  std::string path;
  if (const auto out = options.text("out"); out && drawn.file) {
    path = path_for(*out, drawn.ending, context.disk);
    const auto remarks = write_own(context.disk, path, patience(path, context), drawn.file());
    for (const std::string& said : remarks) complain(context, said);
    stands_now(context, fmt::format("{} was written", printable(path)));
    lines = fmt::format("Written to {}. {}\n", printable(path), drawn.description);
  }
  std::vector<std::string> notes = drawn.notes;
  const bool in_colour = !path.empty() || (common.format == Format::text && common.screen.depth != Depth::none);
  if (drawn.unshaded && in_colour) notes.push_back(*drawn.unshaded);
  if (common.format == Format::json) {
    Json json;
    json.object().member("format", drawn.format);
    if (!drawn.what.empty()) json.member("what", drawn.what);
    json.member("title", drawn.title).member("description", drawn.description);
    json.key("out");
    path.empty() ? json.null() : json.text(path);
    if (drawn.members) drawn.members(json);
    json.key("notes").array();
    for (const std::string& note : notes) json.text(note);
    json.end().end();
    answer(context, common, json.take());
    return;
  }
  for (const std::string& note : notes) lines += labelled("Mind", note + ".", common.screen.text_columns());
  answer(context, common, lines);
}

Outcome no_picture(std::string_view what, const CheckShown& shown, std::string text, const Options& options,
                   Context& context, const Common& common) {
  if (way_to_take(options) > std::max<std::size_t>(1, shown.advice.joins.size())) {
    throw Problem(Fault::content, "--take: no way to cut is known yet; leave it out");
  }
  Drawn drawn{what, ".svg", "No picture yet", "", {}, std::move(text), {}, {}};
  if (const auto out = options.text("out")) {
    drawn.text += wrapped(not_written(*out, drawn.ending, context.disk), common.screen.text_columns());
  }
  drawn.description = one_line(drawn.text);
  drawn.members = [&shown](Json& json) { json.member("verdict", verdict_name(shown.advice.verdict)); };
  deliver(drawn, options, context, common);
  return Outcome::settles_nothing;
}

}  // namespace ballchange
