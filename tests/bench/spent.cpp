#include <fcntl.h>
#include <spawn.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

#include <chrono>
#include <cstdio>
#include <cstdlib>

// spent COMMAND WORD...: runs it, its input and output nowhere, and prints its milliseconds and the KiB it held at
// most. Small, and so not Python: a process starts with the peak of the one that started it.
int main(int argc, char** argv) {
  if (argc < 2) return 2;
  posix_spawn_file_actions_t quiet;
  posix_spawn_file_actions_init(&quiet);
  posix_spawn_file_actions_addopen(&quiet, STDIN_FILENO, "/dev/null", O_RDONLY, 0);
  posix_spawn_file_actions_addopen(&quiet, STDOUT_FILENO, "/dev/null", O_WRONLY, 0);
  const auto start = std::chrono::steady_clock::now();
  pid_t child = 0;
  if (posix_spawn(&child, argv[1], &quiet, nullptr, argv + 1, environ) != 0) return 1;
  int status = 0;
  rusage used{};
  if (wait4(child, &status, 0, &used) != child) return 1;
  const std::chrono::duration<double, std::milli> spent = std::chrono::steady_clock::now() - start;
  std::printf("%.4f %ld\n", spent.count(), used.ru_maxrss);
  return WIFEXITED(status) ? WEXITSTATUS(status) : 1;
}
