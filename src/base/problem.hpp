#pragma once
#include <stdexcept>
#include <string>
#include <utility>
#include <vector>

// What went wrong with something a person typed or a file they own. The first line is complete: what,
// where, what would be right. At most two more lines show the text and a caret. Broken preconditions of
// our own functions are assertions, not Problems.
namespace ballchange {

enum class Fault {
  content,  // a reading, profile, project or command line that does not hold: exit 2
  file      // opening, reading, writing or locking failed: exit 1
};

class Problem : public std::runtime_error {
 public:
  Problem(Fault fault, const std::string& message, std::vector<std::string> shown = {})
      : std::runtime_error(message), fault_(fault), shown_(std::move(shown)) {}
  [[nodiscard]] Fault fault() const { return fault_; }
  [[nodiscard]] const std::vector<std::string>& shown() const { return shown_; }  // the text, then the caret line

 private:
  Fault fault_;
  std::vector<std::string> shown_;
};

// Throws Problem(content).
[[noreturn]] inline void refuse(const std::string& why) { throw Problem(Fault::content, why); }

}  // namespace ballchange
