#pragma once
#include <optional>
#include <string>
#include <vector>

#include "match/place.hpp"
#include "show/json.hpp"
#include "show/paint.hpp"
#include "show/text.hpp"

// Where one strand lies, as text for people and as JSON for tools.
namespace ballchange {

// One placed strand and what is needed to tell of it.
struct PlaceShown {
  const Yarn& yarn;
  const Reading& reading;
  const Placing& placing;
  std::string_view called = {};  // "inner end"; as strand_name() has it unless told
};

// "old strand", "new strand".
[[nodiscard]] std::string_view strand_name(End end);
// The same, or as that strand is called.
[[nodiscard]] std::string_view strand_name(const PlaceShown& shown);
// "--old", "--new".
[[nodiscard]] std::string_view strand_option(End end);
// "which colour follows sand on the new strand?"
[[nodiscard]] std::string question_text(const Question& question, const PlaceShown& shown);
// "how far is it from the loose end to the end of plum on the new strand?", which needs no yarn.
[[nodiscard]] std::string first_length_text(const Reading& reading, const std::vector<Colour>& colours,
                                            std::string_view called = {});
// How the first line of an unsettled end goes on: the question, or how much further to measure, or both.
[[nodiscard]] std::string what_would_settle(const PlaceShown& shown, Told told);
// For an end whose reading fits nowhere: the worst entry and what would be right.
[[nodiscard]] std::string misfit_text(const PlaceShown& shown, Told told);
// A line to type, the words before it, "if so, type it again with the length for each ?:", and what to do where it is
// not so; may be empty.
struct ToType {
  std::string how, line;
  std::string otherwise = {};
};
// How the question asked is answered; nothing where no line to type can be told. `from_option` is the one that says
// which end this ball is worked from.
[[nodiscard]] std::optional<ToType> how_to_answer(const PlaceShown& shown, Told told,
                                                  std::string_view from_option = "--from");
// "--from other", for the way the strand runs.
[[nodiscard]] std::string expecting(const Placing& placing, std::string_view from_option);
// It is asked whether this end was written down from the wrong side.
[[nodiscard]] bool seems_turned(const Placing& placing);
// The option with the reading turned round, for one that was written towards the loose end; nothing where turning it
// round would not make a reading (the hook stands within it).
[[nodiscard]] std::optional<ToType> turned_reading(const Reading& reading, const std::vector<Colour>& colours,
                                                   Told told);
// "27 cm into plum"; "at the start of plum"; "5 cm into the cream after soot" where the colour comes more than once in
// the repeat. No more digits than the doubt allows.
[[nodiscard]] std::string place_text(const Repeat& repeat, Length place, Told told, Length doubt);
// The same of the best candidate; where the give or take has it lie outside the colour that the loose end was seen to
// show, "at the very start of plum".
[[nodiscard]] std::string best_place_text(const PlaceShown& shown, Told told);
// "27 cm into plum, running the other way"; "somewhere in plum" where the reading cannot tell how far.
[[nodiscard]] std::string best_candidate_text(const PlaceShown& shown, Told told);
// "plum"; "the cream after soot" where the colour comes more than once in the repeat.
[[nodiscard]] std::string section_name(const Repeat& repeat, std::size_t section);
// Half the width of the interval.
[[nodiscard]] inline Length doubt_of(const Placing& placing) { return (placing.high - placing.low) / 2; }
// "On the new strand what was written as navy seems to be sand; moss seems passed over in or beside rust: look again.";
// empty where everything was read as it stands.
[[nodiscard]] std::string misread_text(const PlaceShown& shown);
// The candidates as they are told, best first: those that read the same, as in a repeat within the repeat, are one.
struct ToldCandidate {
  std::string text;
  double probability = 0;  // of all places that read so, together
  std::size_t places = 1;

  [[nodiscard]] std::string chance() const;  // "85 %"; "98 %, in 2 places alike"
};
[[nodiscard]] std::vector<ToldCandidate> told_candidates(const PlaceShown& shown, Told told);
// All but the best, and for an unsettled end how the best one reads the entries that it takes for something else: for
// --verbose, below what has been said.
[[nodiscard]] std::string reasons_text(const PlaceShown& shown, const Screen& screen, Told told);

[[nodiscard]] std::string place_screen(const PlaceShown& shown, const Screen& screen, Told told, bool verbose);
// Writes the object into a larger text.
void place_json(Json& json, const PlaceShown& shown);

}  // namespace ballchange
