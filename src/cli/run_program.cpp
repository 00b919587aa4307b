#include <cerrno>
#include <cstdio>
#include <cstring>
#include <exception>
#include <new>

#include "cli/command_line.h"
#include "cli/exit_status.h"

namespace dryfit::cli {

namespace {

void tell(const Diagnostic& fault) {
  // Faults of a file begin with its name; all others say who speaks.
  const std::string text = (fault.where.file.empty() ? "dryfit: " : "") + toText(fault) + "\n";
  std::fputs(text.c_str(), stderr);
}

/// Standard output may be a full disk.
bool print(const std::string& text) {
  if (std::fwrite(text.data(), 1, text.size(), stdout) == text.size() && std::fflush(stdout) == 0)
    return true;
  tell({Fault::SystemFault,
        "",
        std::string("cannot write to standard output: ") + std::strerror(errno),
        "",
        {}});
  return false;
}

int stopped(const std::string& message) {
  tell({Fault::SystemFault, "", message, "", {}});
  return exitStatus(Fault::SystemFault);
}

}  // namespace

int runProgram(const std::vector<std::string>& arguments) {
  try {
    const Outcome outcome = runCommandLine(arguments);
    for (const Diagnostic& fault : outcome.faults) tell(fault);
    if (!print(outcome.out)) return exitStatus(Fault::SystemFault);
    return outcome.status;
  } catch (const std::bad_alloc&) {
    return stopped("out of memory");
  } catch (const std::exception& error) {
    return stopped(std::string("a fault in dryfit itself, please tell its makers: ") + error.what());
  } catch (...) {
    return stopped("a fault in dryfit itself, please tell its makers");
  }
}

}  // namespace dryfit::cli
