#include <csignal>

#include "cli/command_line.h"

int main(int argc, char** argv) {
  // A file grown past the system's limit is then a failed write with a reason, not a kill.
  std::signal(SIGXFSZ, SIG_IGN);
  return dryfit::cli::runProgram({argv + (argc > 0), argv + argc});
}
