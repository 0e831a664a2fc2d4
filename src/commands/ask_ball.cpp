#include <fmt/core.h>

#include <algorithm>
#include <array>
#include <cstddef>
#include <string>
#include <utility>
#include <vector>

#include "base/text.hpp"
#include "commands/ask.hpp"
#include "show/entry_values.hpp"

namespace ballchange {
namespace {

constexpr std::array<const char*, 9> kTold{"mass",  "dye-lot", "outside", "inside", "from",
                                           "wound", "plain",   "length",  "begin"};

const BallState* ball_there(const State& state, const Options& options) {
  return state.find_ball(trim(options.text("ball").value_or("")));
}

bool tells_of_it(const Options& options) {
  return std::any_of(kTold.begin(), kTold.end(), [&](const char* name) { return options.has(name); });
}

void ask_name(Dialogue& dialogue, const State& state, const std::string& next, const Dialogue::Takes& takes) {
  const ToAsk question{
      "ball", "--ball " + next, {"", fmt::format("Name of the ball (Enter: {})", printable(next))}, Enter::skips};
  dialogue.ask(question, [&](const Options& with) {
    if (const BallState* there = ball_there(state, with)) {
      throw Problem(Fault::content, fmt::format("ball {0} is there already: give another name, or end with Ctrl-D and "
                                                "tell more of it with --ball {0}",
                                                printable(there->id, 60)));
    }
    takes(with);
  });
}

// The end it is worked `from`, and then the other.
void ask_end_of(Dialogue& dialogue, const OpenProject& open, BallEnd end, BallEnd from) {
  const std::string name(end_name(end));
  const Measures measures = measures_of(dialogue.options(), open.project, open.state);
  const MatchOptions match = placing_options(dialogue.options(), measures);
  const Yarn& yarn = open.state.yarn;
  const ToAsk question{name, "--" + name + " \"plum 15, sand 11, rust 30\"",
                       end == from ? ball_end_asked(end, yarn.repeat, measures.told) : other_end_asked(end),
                       Enter::skips};
  dialogue.ask_end(question, yarn, measures.told, [&](const Options& with) {
    Palette palette{yarn.repeat.colours(), false};
    Reading reading = parse_reading(*with.text(name), End::new_end, palette, measures.ruler, "--" + name);
    const BallState* there = ball_there(open.state, with);
    BallState ball = there == nullptr ? BallState() : *there;
    ball.from = from;
    const bool by_hand = with.text("wound") == "hand";
    if (with.has("wound")) ball.wound = by_hand ? Winding::hand : Winding::mill;
    Placing placing = place_reading(yarn, reading, expected(match, ball, end));
    return Strand{std::move(reading), std::move(placing)};
  });
}

// Those that are still loose and were not read yet, the one it is worked from first. False where there is none.
bool ask_ends(Dialogue& dialogue, const OpenProject& open, const BallState* there, BallAsked& asked) {
  const BallEnd otherwise = there == nullptr ? BallEnd::outside : there->from;
  const BallEnd from =
      choice(dialogue.options(), "from", otherwise, {{"outside", BallEnd::outside}, {"inside", BallEnd::inside}});
  const BallEnd other = from == BallEnd::outside ? BallEnd::inside : BallEnd::outside;
  const auto is_open = [&](BallEnd end) {
    if (there == nullptr) return true;
    if (there->use == BallUse::used_up || (there->use != BallUse::fresh && end == from)) return false;
    const bool cut = end == BallEnd::outside ? there->outside_as_cut : there->inside_as_cut;
    return !cut && !(end == BallEnd::outside ? there->outside : there->inside);
  };
  bool any = false;
  for (const BallEnd end : {from, other}) {
    if (!is_open(end)) continue;
    any = true;
    const auto before = static_cast<std::ptrdiff_t>(dialogue.said_no().size());
    ask_end_of(dialogue, open, end, from);
    (end == BallEnd::outside ? asked.outside : asked.inside)
        .assign(dialogue.said_no().begin() + before, dialogue.said_no().end());
  }
  return any;
}

}  // namespace

BallAsked with_ball(const OpenProject& open, const Options& options, const Context& context, const Common& common,
                    const std::string& next, const Dialogue::Takes& takes) {
  if (!can_ask(context, common) || reads_standard_input(options)) return {options};
  if (options.has("offcut")) return {options};  // its ends and its yarn are known
  const BallState* there = ball_there(open.state, options);
  if (there != nullptr && tells_of_it(options)) return {options};
  if (there == nullptr || options.has("begin")) takes(options);
  Dialogue dialogue(options, context, common);
  if (!options.has("ball")) ask_name(dialogue, open.state, next, takes);
  const bool fresh = there == nullptr || there->use == BallUse::fresh;
  const bool weighed = options.has("mass") || options.has("length") || (there != nullptr && there->mass);
  bool any = fresh && !weighed;
  if (any) {
    dialogue.ask(
        {"mass", "--mass 50.2g", {"", "Its mass on the scale, like 50.2 g (Enter: not weighed)"}, Enter::skips}, takes);
  }
  BallAsked asked{dialogue.options()};
  const bool plain = options.has("plain") || (there != nullptr && there->plain);
  if (!plain && !options.has("outside") && !options.has("inside")) {
    any = ask_ends(dialogue, open, there, asked) || any;
    asked.options = dialogue.options();
  }
  asked.nothing_new = any && there != nullptr && !tells_of_it(asked.options);
  return asked;
}

}  // namespace ballchange
