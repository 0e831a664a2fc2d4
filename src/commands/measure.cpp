#include "commands/measure.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <utility>

#include "base/text.hpp"
#include "console/screen.hpp"
#include "files/append.hpp"
#include "files/learnt.hpp"
#include "files/source.hpp"
#include "files/yaml_values.hpp"
#include "project/measured_strands.hpp"
#include "project/record.hpp"
#include "show/measure.hpp"

namespace ballchange {
namespace {

constexpr std::size_t kMostStrands = 200;
constexpr std::size_t kMostEntries = 10'000;  // of all strands; a second or so

constexpr std::array<OptionRow, 7> kRows{{
    {"strand", "READING", "a measured strand, from its loose end inward: colours and lengths, @FILE or -", true},
    {"add", "PROFILE", "learn anew from this profile's strands and these, and write it"},
    {"repeat", "L", "how long one whole repeat is, where you know: 147st, 2.8m"},
    {"hank", "L", "dyed as a hank, across the loop: how long once round is"},
    {"name", "TEXT", "what the yarn is called"},
    {"out", "FILE", "writes a yarn profile"},
    {"dry-run", "", "writes nothing, tells what would be written"},
}};
constexpr OptionGroup kGroup{"What to learn from, and what becomes of it", kRows};

constexpr std::array<OptionRow, 3> kReadingRows{{
    {"sure", "95%", "how sure the repeat must be before it is written"},
    {"tape", "\"0.5 cm + 1 %\"", "how far off your measuring may be"},
    {"yarn-per-stitch", "L", "yarn one stitch takes"},
}};
constexpr OptionGroup kReadingGroup{"The strands", kReadingRows};

// A profile that is to be learnt anew.
struct Known {
  std::string path, text;
  Profile profile;
  KeptStrands strands;
};

std::optional<Known> known_profile(const Options& options, const Context& context) {
  const auto name = options.text("add");
  if (!name) return std::nullopt;
  const std::string path = find_profile(*name, context.disk, surroundings_of(context));
  if (!options.has("out") && is_shared_profile(path, surroundings_of(context))) {
    throw Problem(Fault::content,
                  fmt::format("--add: {} is shared by all who use this computer and stays as it is; write one of your "
                              "own: --out {}",
                              printable(path), printable(path.substr(path.rfind('/') + 1))));
  }
  std::string text = read_document(context.disk, path, Tree::kMostBytes);
  Profile profile = read_profile(text, path);
  for (const std::string& note : profile.notes) remark(context, note);
  KeptStrands strands = measured_strands(text, path);
  return Known{path, std::move(text), std::move(profile), std::move(strands)};
}

std::vector<std::string> told_strands(const Options& options, const Context& context) {
  std::vector<std::string> texts;
  for (const std::string& argument : options.texts("strand")) {
    texts.push_back(reading_text(argument, context.disk, context.in, "--strand"));
  }
  if (texts.size() > kMostStrands) {
    throw Problem(Fault::content,
                  fmt::format("--strand: {} strands are too many; {} at most", texts.size(), kMostStrands));
  }
  return texts;
}

// What is learnt from, and in what terms.
struct Lesson {
  MeasuredStrands strands;
  Measures measures;
  LearnOptions learn;
  std::optional<Known> known;
  std::optional<Yarn> yarn;        // that was known before, from a profile or a project
  std::vector<std::string> twice;  // told again
};

std::optional<ColourId> colour_named(const Palette& palette, const std::string& name) {
  const auto same = [&](const Colour& colour) { return fold_case(colour.name) == fold_case(name); };
  const auto found = std::find_if(palette.colours.begin(), palette.colours.end(), same);
  if (found == palette.colours.end()) return std::nullopt;
  return static_cast<ColourId>(found - palette.colours.begin());
}

void add_colours(Palette& palette, const Repeat& repeat) {
  for (const Colour& colour : repeat.colours()) {
    if (!colour_named(palette, colour.name)) palette.colours.push_back(colour);
  }
}

// Nothing where the strands it keeps are all it was learnt from: it must not count twice. Its colours by the palette.
std::optional<Repeat> believed_of(const Lesson& lesson) {
  if (!lesson.yarn) return std::nullopt;
  if (!lesson.known || lesson.known->strands.texts.empty()) return lesson.yarn->repeat;
  const auto& before = lesson.known->strands.before;
  if (!before) return std::nullopt;
  std::vector<Section> sections = before->sections();
  for (std::size_t k = 0; k < sections.size(); ++k) {
    sections[k].colour = *colour_named(lesson.strands.palette, before->name_of(k));
  }
  return Repeat(lesson.strands.palette.colours, std::move(sections));
}

void add_kept(Lesson& lesson, const Measures& measures, const MatchOptions& match) {
  const KeptStrands& kept = lesson.known->strands;
  lesson.strands.kept_in = kept.bare;
  Measures own = measures;
  if (!own.ruler.in_stitches) own.ruler.bare = kept.bare;
  for (std::size_t n = 0; n < kept.texts.size(); ++n) {
    add_kept_strand(lesson.strands, kept.texts[n], fmt::format("strand {} of the profile", n + 1), own, match);
  }
}

void add_told(Lesson& lesson, const std::vector<std::string>& told, const MatchOptions& match) {
  for (const std::string& text : told) {
    if (!add_strand(lesson.strands, text, "--strand", lesson.measures, match)) lesson.twice.push_back(text);
  }
}

void refuse_too_much(const MeasuredStrands& strands) {
  std::size_t entries = 0;
  for (const MeasuredStrand& strand : strands.all) entries += strand.reading.entries.size();
  if (entries <= kMostEntries) return;
  throw Problem(Fault::content,
                fmt::format("the strands have {} colours in all, which takes too long; {} at most: leave "
                            "some strands out, a dozen repeats tell enough",
                            entries, kMostEntries));
}

void tell_total(const Options& options, Lesson& lesson) {
  if (options.has("repeat") && options.has("hank")) {
    throw Problem(Fault::content, "--hank: once round is the repeat; leave out --repeat");
  }
  const std::string name = options.has("hank") ? "hank" : "repeat";
  lesson.learn.total = length_option(options, name, lesson.measures.ruler);
  lesson.learn.mirrored = options.has("hank");
  if (lesson.learn.total && *lesson.learn.total < 1_cm) {
    throw Problem(Fault::content, fmt::format("--{}: a whole repeat is longer than that", name));
  }
}

Lesson lesson_of(const Options& options, const Context& context, const Common& common) {
  Lesson lesson;
  const std::vector<std::string> told = told_strands(options, context);
  lesson.known = known_profile(options, context);
  std::optional<OpenProject> open;
  if (!options.words().empty()) open = open_project(options, context);
  if (open && lesson.known) {
    throw Problem(Fault::content, "a project sharpens its own yarn: leave out --add, or the project");
  }
  if (lesson.known) lesson.yarn = lesson.known->profile.yarn;
  if (lesson.known && lesson.yarn->reckoning == Reckoning::stitches && options.has("yarn-per-stitch")) {
    throw Problem(Fault::content,
                  "--yarn-per-stitch: this profile is counted in stitches, and so are its strands; leave it out");
  }
  if (open) lesson.yarn = open->state.yarn;
  const Yarn* yarn = lesson.yarn ? &*lesson.yarn : nullptr;
  lesson.measures =
      open ? measures_of(options, open->project, open->state) : strand_measures(told, options, common, yarn);
  lesson.learn.reckoning = lesson.measures.ruler.in_stitches ? Reckoning::stitches : Reckoning::centimetres;
  if (yarn != nullptr) {
    lesson.strands.palette.colours = yarn->repeat.colours();
    lesson.learn.ball_plus_minus = yarn->ball_plus_minus;
  }
  if (lesson.known && lesson.known->strands.before) add_colours(lesson.strands.palette, *lesson.known->strands.before);
  if (yarn != nullptr) lesson.learn.known_colours = lesson.strands.palette.colours.size();
  lesson.strands.palette.open = true;
  const MatchOptions match = placing_options(options, lesson.measures);
  lesson.learn.sure = match.sure;
  if (lesson.known) add_kept(lesson, lesson.measures, match);
  lesson.strands.palette.known = lesson.learn.known_colours;
  add_told(lesson, told, match);
  if (open) add_project_readings(lesson.strands, *open, match);
  refuse_too_much(lesson.strands);
  lesson.learn.believed = believed_of(lesson);
  tell_total(options, lesson);
  return lesson;
}

// Where `sections` have to begin to be like those known before.
std::size_t turn_like(const std::vector<Section>& sections, const Repeat& before) {
  const std::size_t size = sections.size();
  std::size_t best = 0;
  double least = -1;
  for (std::size_t turn = 0; before.size() == size && turn < size; ++turn) {
    double off = 0;
    for (std::size_t k = 0; k < size; ++k) {
      const Section& now = sections[(k + turn) % size];
      const Section& then = before.sections()[k];
      off += abs(now.length - then.length).cm() + (now.colour == then.colour ? 0 : before.total().cm());
    }
    if (least >= 0 && off >= least) continue;
    least = off;
    best = turn;
  }
  return best;
}

// In tenths, as it is told and written, beginning where the one before it began.
void tidy(LearntRepeat& learnt, const Yarn* before) {
  std::vector<Section> sections = learnt.repeat.sections();
  if (before != nullptr) {
    const auto turn = static_cast<std::ptrdiff_t>(turn_like(sections, before->repeat));
    std::rotate(sections.begin(), sections.begin() + turn, sections.end());
    std::rotate(learnt.times.begin(), learnt.times.begin() + turn, learnt.times.end());
  }
  const auto tenths = [](Length length) { return std::max(1.0, std::round(length.cm() * 10)) / 10; };
  for (Section& section : sections) {
    section.length = std::max(0.5_cm, Length::cm(tenths(section.length)));
    section.plus_minus = std::min(Length::cm(tenths(section.plus_minus)), section.length / 3);
  }
  learnt.repeat = Repeat(learnt.repeat.colours(), std::move(sections));
}

// Whether what was learnt runs the other way round than what was known before; colours of both by one palette.
bool runs_other_way(const Repeat& before, const Yarn& now) {
  if (mirror_axis(now.repeat)) return false;
  Reading whole;
  whole.bar_at_loose_end = whole.bar_at_open_end = true;
  for (const Section& section : before.sections()) {
    whole.entries.push_back({section.colour, section.length, 0, whole.entries.size() + 1});
  }
  const Placing placing = Matcher(now).match(whole, {});
  return placing.verdict != Verdict::no_fit && placing.best().direction == Direction::backward;
}

std::string name_for(const Options& options, const Lesson& lesson) {
  std::string name(trim(options.text("name").value_or(lesson.yarn ? lesson.yarn->name : "")));
  if (name.empty()) {
    throw Problem(Fault::content, "--out: a profile needs the yarn's name: --name \"Orchard\"");
  }
  if (const auto fault = line_fault(name, "--name", kMostNameBytes)) throw Problem(Fault::content, *fault);
  return name;
}

Yarn learnt_yarn(const Learnt& learnt, const Lesson& lesson) {
  const Yarn* before = lesson.yarn ? &*lesson.yarn : nullptr;
  const Repeat& repeat = learnt.best().repeat;
  if (before != nullptr) {
    Yarn yarn = *before;
    yarn.repeat = repeat;
    return yarn;
  }
  return Yarn{.name = {},
              .fibre = {},
              .ball_mass = {},
              .ball_length = {},
              .reckoning = lesson.learn.reckoning,
              .repeat = repeat};
}

// A section that is far from what it was before: more than three times its plus-minus, and a quarter of it. Judgement,
// no source.
void tell_far_off(const Repeat& before, const Repeat& now, Told told, const Context& context) {
  for (std::size_t k = 0; before.size() == now.size() && k < now.size(); ++k) {
    const Section& then = before.sections()[k];
    const Length off = abs(now.sections()[k].length - then.length);
    if (before.name_of(k) != now.name_of(k) || off <= std::max(3 * then.plus_minus, then.length / 4)) continue;
    remark(context,
           fmt::format("{} was {} before and is {} now: is it the same yarn, and was every stretch "
                       "measured and written down?",
                       printable(now.name_of(k), 60), tape(then.length, told), tape(now.sections()[k].length, told)));
  }
}

// What is to be written where; nothing where that wasn't asked for.
struct Writing {
  std::string path, text;
  bool replaces = false;
  bool left_out = false;  // of what stood in the profile
};

std::optional<Writing> writing_of(const Options& options, const Lesson& lesson, Yarn yarn) {
  const auto out = options.text("out");
  if (lesson.known) {
    Relearnt now =
        with_learnt(lesson.known->text, lesson.known->path, yarn.repeat, lesson.strands.texts, lesson.learn.believed);
    if (out) return Writing{new_file(*out, "--out"), std::move(now.text), false, now.left_out};
    return Writing{lesson.known->path, std::move(now.text), true, now.left_out};
  }
  if (!out) return std::nullopt;
  yarn.name = name_for(options, lesson);
  std::string text = write_profile(yarn);
  if (!lesson.strands.texts.empty()) {
    text += measured_text(lesson.strands.texts, lesson.learn.believed, lesson.learn.reckoning);
  }
  static_cast<void>(read_profile(text, *out));
  return Writing{new_file(*out, "--out"), std::move(text)};
}

// What is not in the new file is not lost: it stays in `old`.
void tell_left_out(const Writing& writing, const std::string& old, const Context& context) {
  if (!writing.left_out) return;
  remark(context, fmt::format("{}: its repeat or its strands had to be written anew, without the remarks and unknown "
                              "keys that stood among them; those are in {}",
                              printable(writing.path), printable(old)));
}

void write(const Writing& writing, const Lesson& lesson, Context& context, MeasureShown& shown) {
  if (writing.replaces && writing.text == lesson.known->text) {
    shown.unchanged = writing.path;
    return;
  }
  shown.written = writing.path;
  if (shown.dry) {
    if (!writing.replaces && context.disk.is_file(writing.path)) {
      throw Problem(Fault::file, fmt::format("{} is there already and was left as it is; choose another name",
                                             printable(writing.path)));
    }
    return;
  }
  if (writing.replaces) {
    Kept kept =
        replace_and_keep(context.disk, writing.path, patience(writing.path, context), lesson.known->text, writing.text);
    tell_left_out(writing, kept.path, context);
    shown.kept = std::move(kept.path);
    for (const std::string& remark : kept.remarks) complain(context, remark);
    stands_now(context, fmt::format("{} was written", printable(writing.path)));
    return;
  }
  for (const std::string& remark :
       start_file(context.disk, writing.path, patience(writing.path, context), writing.text)) {
    complain(context, remark);
  }
  if (lesson.known) tell_left_out(writing, lesson.known->path, context);
  stands_now(context, fmt::format("{} was written", printable(writing.path)));
}

}  // namespace

std::vector<OptionGroup> measure_options() { return {kGroup, kReadingGroup, common_options()}; }

// Long: what is refused stands first, before anything is learnt.
Outcome run_measure(const Options& options, Context& context) {
  const Common common = common_of(options, context);
  if (!options.has("strand") && !options.has("add") && options.words().empty()) {
    throw Problem(Fault::content,
                  "measure needs a strand: --strand \"plum 40, sand 11, rust 80, ...\", two or three repeats of it");
  }
  if (options.has("name") && options.has("add")) {
    throw Problem(Fault::content, "--name: the profile has its name already; leave it out");
  }
  if (options.has("out")) static_cast<void>(place_of_new(context.disk, new_file(*options.text("out"), "--out")));
  Lesson lesson = lesson_of(options, context, common);
  if (lesson.strands.all.empty()) {
    throw Problem(Fault::content, "there is nothing to learn from: no strand was told and none is on record");
  }
  Learnt learnt = learn(lesson.strands.all, lesson.strands.palette.colours, lesson.learn);
  for (LearntRepeat& one : learnt.repeats) tidy(one, lesson.yarn ? &*lesson.yarn : nullptr);
  MeasureShown shown{learnt,
                     lesson.strands.palette.colours,
                     lesson.strands.all.size(),
                     lesson.measures.ruler.in_stitches,
                     lesson.learn.believed.has_value(),
                     lesson.learn.sure,
                     lesson.learn.total,
                     lesson.learn.mirrored,
                     lesson.strands.names,
                     lesson.twice};
  if (tells_repeat(learnt.verdict)) {
    shown.yarn = learnt_yarn(learnt, lesson);
    shown.turned_about = lesson.yarn && runs_other_way(lesson.yarn->repeat, *shown.yarn);
    MatchOptions match = placing_options(options, lesson.measures);
    match.sure = MatchOptions().sure;
    shown.needed = reading_needed(*shown.yarn, match);
  }
  shown.dry = options.has("dry-run");
  if (learnt.verdict == LearnVerdict::found) {
    keep_project_readings(lesson.strands, lesson.measures.ruler, learnt.backward);
    if (const auto writing = writing_of(options, lesson, *shown.yarn)) write(*writing, lesson, context, shown);
    if (lesson.yarn) tell_far_off(lesson.yarn->repeat, shown.yarn->repeat, lesson.measures.told, context);
  }
  answer(
      context, common,
      common.format == Format::json ? measure_json(shown) : measure_screen(shown, common.screen, lesson.measures.told));
  return learnt.verdict == LearnVerdict::found ? Outcome::done : Outcome::settles_nothing;
}

}  // namespace ballchange
