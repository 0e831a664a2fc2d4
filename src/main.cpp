#include <spdlog/sinks/stdout_sinks.h>
#include <spdlog/spdlog.h>
#include <sys/ioctl.h>
#include <unistd.h>

#include <algorithm>
#include <cerrno>
#include <csignal>
#include <cstdio>
#include <cstdlib>
#include <iostream>
#include <memory>
#include <optional>
#include <sstream>
#include <string>
#include <system_error>
#include <utility>
#include <vector>

#include "commands/run.hpp"

namespace {

using namespace ballchange;

// The library's ready-made logger would write to standard output.
void log_to_standard_error() {
  auto logger = std::make_shared<spdlog::logger>("ballchange", std::make_shared<spdlog::sinks::stderr_sink_st>());
  logger->set_pattern("ballchange: %v");
  spdlog::set_default_logger(std::move(logger));
}

// Columns of the bar on the terminal's last line. A signal may come at any time, so nothing but this is looked at then.
volatile std::sig_atomic_t bar_columns = 0;

void say_last(const char* text, std::size_t size) {
  if (isatty(STDERR_FILENO) == 1 && ::write(STDERR_FILENO, text, size) < 0) return;
}

// A bar is taken away; a question is left there.
void leave_last_line(const char* otherwise, std::size_t size) {
  constexpr std::size_t widest = 80;
  char line[widest + 2];
  const auto columns = std::min(static_cast<std::size_t>(bar_columns), widest);
  if (columns == 0) return say_last(otherwise, size);
  line[0] = line[columns + 1] = '\r';
  for (std::size_t k = 1; k <= columns; ++k) line[k] = ' ';
  say_last(line, columns + 2);
}

extern "C" void interrupted(int /*signal*/) {
  leave_last_line("\n", 1);
  _exit(Exit::interrupted);
}

// Ends as it would without a handler, for whoever waits for it.
extern "C" void ended(int signal) {
  leave_last_line("", 0);
  std::signal(signal, SIG_DFL);
  std::raise(signal);
}

std::string environment(const std::string& name) {
  const char* value = std::getenv(name.c_str());
  return value == nullptr ? std::string() : value;
}

std::size_t terminal_columns() {
  winsize size{};
  return ioctl(STDOUT_FILENO, TIOCGWINSZ, &size) == 0 ? size.ws_col : 0;
}

// The answer goes out at once, so that the cause of a failure is still known.
int delivered(const std::string& text, int code, const std::string& stands) {
  errno = 0;
  std::cout << text << std::flush;
  if (std::cout) return code;
  const std::string cause = errno == 0 ? "" : ": " + std::generic_category().message(errno);
  const std::string done = stands.empty() ? "" : "; " + stands + ", so don't give the command again";
  spdlog::error("cannot write the answer to standard output{}{}", cause, done);
  return Exit::file;
}

// What was answered so far goes out, then the question.
std::optional<std::string> asked(std::ostringstream& out, std::string_view question) {
  std::cout << out.str() << question << std::flush;
  out.str({});
  std::string line;
  if (std::cout && std::getline(std::cin, line)) return line;
  std::cout << '\n';
  return std::nullopt;
}

}  // namespace

int main(int argc, char** argv) {
  log_to_standard_error();
  std::signal(SIGINT, interrupted);
  std::signal(SIGTERM, ended);
  std::signal(SIGXFSZ, SIG_IGN);  // a limit on file sizes is then an error like a full disk
  std::signal(SIGPIPE, SIG_DFL);  // a reader that goes away ends us silently, even where that was switched off
  std::ios::sync_with_stdio(false);
  const std::vector<std::string> arguments(argv + (argc > 0 ? 1 : 0), argv + argc);
  RealDisk disk;
  const SystemClock clock;
  SystemStopwatch watch;
  std::ostringstream out;
  Context context{
      out, std::cin, disk, clock, watch, environment, [](std::string_view text) { spdlog::error("{}", text); }};
  if (isatty(STDIN_FILENO) == 1 && isatty(STDOUT_FILENO) == 1) {
    context.ask = [&out](std::string_view question) { return asked(out, question); };
  }
  context.error_is_terminal = isatty(STDERR_FILENO) == 1;
  if (context.error_is_terminal) {
    context.draw_over = [](std::string_view text) {
      // "\r", the bar; blanks over it end in another.
      bar_columns = text.ends_with('\r') ? 0 : static_cast<std::sig_atomic_t>(text.size()) - 1;
      std::fwrite(text.data(), 1, text.size(), stderr);
      std::fflush(stderr);
    };
  }
  context.out_is_terminal = isatty(STDOUT_FILENO) == 1;
  context.terminal_columns = context.out_is_terminal ? terminal_columns() : 0;
  std::string stands;
  context.stands = [&stands](std::string_view text) { stands = text; };
  const int code = run_command_line(arguments, context);
  return delivered(out.str(), code, stands);
}
