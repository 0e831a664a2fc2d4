#pragma once
#include <functional>
#include <map>
#include <optional>
#include <sstream>
#include <string>
#include <string_view>
#include <vector>

#include "commands/run.hpp"
#include "files/profile.hpp"
#include "files_fake_disk.hpp"
#include "fixed_clock.hpp"
#include "orchard.hpp"

namespace ballchange {

// Time passes as fast as it is waited for.
struct FakeWatch : Stopwatch {
  double now = 0;
  [[nodiscard]] double seconds() const override { return now; }
  void pause(double seconds) override { now += seconds; }
};

struct Ran {
  int code = 0;
  std::string out, complaints;
};

// Command lines one after the other in one folder in memory, at 2026-03-02T19:20:00Z.
struct Session {
  FakeDisk disk;
  FakeWatch watch;
  FixedClock clock{1'772'479'200};
  std::map<std::string, std::string> environment;
  std::optional<std::vector<std::string>> answers;  // of somebody at the terminal; nothing: nobody sits there
  std::function<void()> while_asked;

  Session() { disk.files["orchard.yaml"] = write_profile(orchard()); }

  Ran run(const std::vector<std::string>& arguments, const std::string& input = {}) {
    std::ostringstream out;
    std::istringstream in(input);
    Ran ran;
    Context context{out,
                    in,
                    disk,
                    clock,
                    watch,
                    [this](const std::string& name) { return environment[name]; },
                    [&ran](std::string_view text) { ran.complaints += std::string(text) + "\n"; }};
    if (answers) context.ask = [&](std::string_view question) { return asked(out, question); };
    ran.code = run_command_line(arguments, context);
    ran.out = out.str();
    return ran;
  }

 private:
  std::optional<std::string> asked(std::ostream& out, std::string_view question) {
    out << question;
    if (while_asked) while_asked();
    if (answers->empty()) return std::nullopt;
    std::string answer = answers->front();
    answers->erase(answers->begin());
    return answer;
  }
};

}  // namespace ballchange
