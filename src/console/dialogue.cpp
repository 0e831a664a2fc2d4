#include "console/dialogue.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <utility>

#include "base/problem.hpp"
#include "base/text.hpp"
#include "console/answered.hpp"
#include "files/source.hpp"

namespace ballchange {
namespace {

constexpr int kRounds = 3;

std::string paragraphs(std::string_view text, std::size_t columns) {
  std::string out;
  for (std::size_t at = 0; at < text.size();) {
    const std::size_t stop = std::min(text.find('\n', at), text.size());
    out += wrapped(text.substr(at, stop - at), columns);
    at = stop + 1;
  }
  return out;
}

// Nobody at a question has typed an option: of "--method: '1.9' is not one of ..." or "--old, entry 2: ..." the rest.
std::string_view without_option(std::string_view message) {
  const std::size_t end = message.find_first_of(" ,:");
  const bool option = message.starts_with("--") && end != std::string_view::npos && message[end] != ' ';
  return option ? trim(message.substr(end + 1)) : message;
}

std::string told_again(const Problem& problem) {
  std::string text = printable(without_option(problem.what()), 1000) + "\n";
  for (const std::string& line : problem.shown()) text += printable(line, 1000) + "\n";
  return text;
}

void refuse_no_fit(const PlaceShown& shown, Told told) {
  if (shown.placing.verdict != Verdict::no_fit) return;
  throw Problem(Fault::content, "this fits nowhere on the repeat: " + misfit_text(shown, told));
}

}  // namespace

bool can_ask(const Context& context, const Common& common) {
  return context.ask && common.ask && common.format == Format::text;
}

void leave_unasked(const std::vector<SaidNo>& said_no, End end, Placing& placing) {
  const auto asks = [&](const SaidNo& said) {
    const Question& asked = said.question;
    const bool small = asked.kind == Question::Kind::overlooked || asked.kind == Question::Kind::look_alike;
    return said.end == end && small && placing.ask->kind == asked.kind && placing.ask->entry == asked.entry &&
           placing.ask->other == asked.other;
  };
  if (placing.ask && std::any_of(said_no.begin(), said_no.end(), asks)) placing.ask.reset();
}

std::optional<std::string> Dialogue::answer_to(const ToAsk& question, const std::string& above) const {
  const std::string text = above + question.text.prompt + ": ";
  const auto line = context_.ask(common_.screen.utf8 ? text : plain_ascii(text));
  if (!line) {
    throw Problem(Fault::content, fmt::format("no answer, so nothing was recorded: give {}{}", question.typed,
                                              question.enter == Enter::skips ? ", or --no-ask" : ""));
  }
  const std::string_view answer = trim(*line);
  if (!answer.empty()) return std::string(answer);
  if (question.otherwise) return question.otherwise;
  if (question.enter == Enter::skips) return std::nullopt;
  throw Problem(Fault::content, fmt::format("no answer, so nothing was recorded: give {}", question.typed));
}

bool Dialogue::ask_for(const ToAsk& question, const std::function<void(const std::string& answer)>& take) const {
  std::string above = paragraphs(question.text.lines, common_.screen.text_columns());
  while (const auto answer = answer_to(question, above)) {
    try {
      take(*answer);
      return true;
    } catch (const Problem& wrong) {
      above = told_again(wrong);
    }
  }
  return false;
}

bool Dialogue::ask(const ToAsk& question, const Takes& takes) {
  return ask_for(question, [&](const std::string& answer) {
    Options with = options_;
    with.add(std::string(question.option), {answer});
    takes(with);
    options_ = std::move(with);
  });
}

std::string Dialogue::typed_reading(const std::string& answer, std::string_view option) const {
  if (answer == "-") throw Problem(Fault::content, "- reads from standard input: type the reading itself, or @FILE");
  return reading_text(answer, context_.disk, context_.in, fmt::format("--{}", option));
}

bool Dialogue::ask_reading(const ToAsk& question, const Takes& takes) {
  return ask_for(question, [&](const std::string& answer) {
    Options with = options_;
    with.add(std::string(question.option), {typed_reading(answer, question.option)});
    takes(with);
    options_ = std::move(with);
  });
}

void Dialogue::ask_end(const ToAsk& question, const Yarn& yarn, Told told, const Places& places) {
  const bool told_it = ask_reading(question, [&](const Options& with) {
    const Strand placed = places(with);
    refuse_no_fit({yarn, placed.reading, placed.placing}, told);
  });
  if (told_it) settle(question.option, *options_.text(question.option), yarn, told, places);
}

void Dialogue::settle(std::string_view option, std::string text, const Yarn& yarn, Told told, const Places& places) {
  const std::string typed = fmt::format("--{} READING", option);
  Options with = options_;
  with.add(std::string(option), {text});
  Strand strand = places(with);
  for (int round = 0; round < kRounds; ++round) {
    if (strand.placing.verdict != Verdict::unsettled || !strand.placing.ask) return;
    const ToAsk question{option, typed, settling_asked({yarn, strand.reading, strand.placing}, told), Enter::skips};
    bool more = false;
    const bool told_it = ask_for(question, [&](const std::string& answer) {
      const auto amended = answered(text, strand.reading, *strand.placing.ask, answer, yarn.repeat.colours());
      if (!amended) return said_no_.push_back({strand.reading.end, *strand.placing.ask});
      with.add(std::string(option), {*amended});
      Strand placed = places(with);
      refuse_no_fit({yarn, placed.reading, placed.placing}, told);
      strand = std::move(placed);
      text = *amended;
      options_ = with;
      more = true;
    });
    if (!told_it || !more) return;
  }
}

}  // namespace ballchange
