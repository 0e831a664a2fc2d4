#pragma once
#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "console/common.hpp"
#include "console/context.hpp"
#include "console/options.hpp"
#include "join/advice.hpp"
#include "show/asking.hpp"

// Asking at a terminal for what a command line leaves out, one question at a time. It must be over before anything is
// locked: whoever sits there may take all evening.
namespace ballchange {

[[nodiscard]] bool can_ask(const Context& context, const Common& common);

// What Enter alone means.
enum class Enter { ends, skips };

struct ToAsk {
  std::string_view option;  // that tells the same
  std::string typed;        // as it could have been given: --old "rust 30, sand 11, plum"
  AskedText text;
  Enter enter = Enter::ends;
  std::optional<std::string> otherwise = {};  // what Enter takes
};

// A question about an end that was answered with no: its reading stays as it is, and it need not be asked again.
struct SaidNo {
  End end = End::old_end;
  Question question;
};
// Where what was asked is all that would settle that end, measuring on is what is left.
void leave_unasked(const std::vector<SaidNo>& said_no, End end, Placing& placing);

// Options with the answers among them, as if they had been given.
class Dialogue {
 public:
  // Throws Problem for a wrong answer: it is shown, and the question asked again.
  using Takes = std::function<void(const Options& with)>;
  // The same for a reading, which `with` holds; where it lies.
  using Places = std::function<Strand(const Options& with)>;

  Dialogue(Options options, const Context& context, const Common& common)
      : options_(std::move(options)), context_(context), common_(common) {}

  // False where Enter skipped it. Throws Problem(content) that names the option where nobody answers.
  bool ask(const ToAsk& question, const Takes& takes);
  // The same where the answer is more than the option's text; `take` ends with take() below.
  bool ask_for(const ToAsk& question, const std::function<void(const std::string& answer)>& take) const;
  // A reading, which may be @FILE; `with` holds what stands in it.
  bool ask_reading(const ToAsk& question, const Takes& takes);
  // An end's reading, and where it doesn't settle the place what would, a few times over.
  void ask_end(const ToAsk& question, const Yarn& yarn, Told told, const Places& places);
  // Only what would settle a reading that is there already.
  void settle(std::string_view option, std::string text, const Yarn& yarn, Told told, const Places& places);
  void tell(const std::string& name, std::string value) { options_.add(name, {std::move(value)}); }
  void take(Options with) { options_ = std::move(with); }

  [[nodiscard]] const Options& options() const { return options_; }
  [[nodiscard]] const std::vector<SaidNo>& said_no() const { return said_no_; }

 private:
  [[nodiscard]] std::optional<std::string> answer_to(const ToAsk& question, const std::string& above) const;
  [[nodiscard]] std::string typed_reading(const std::string& answer, std::string_view option) const;

  Options options_;
  std::vector<SaidNo> said_no_;
  const Context& context_;
  const Common& common_;
};

}  // namespace ballchange
