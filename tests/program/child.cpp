#include "program/child.h"

#include <fcntl.h>
#include <stdlib.h>
#include <sys/wait.h>
#include <unistd.h>

#include "unit/temporary_folder.h"

namespace dryfit {

namespace {

void redirect(int to, const std::string& path, int flags) {
  const int fd = ::open(path.c_str(), flags, 0600);
  if (fd < 0 || ::dup2(fd, to) < 0) ::_exit(126);
  ::close(fd);
}

[[noreturn]] void become(const std::vector<std::string>& words, const ChildOptions& options) {
  if (!options.folder.empty() && ::chdir(options.folder.c_str()) != 0) ::_exit(126);
  std::vector<char*> argv;
  for (const std::string& word : words) argv.push_back(const_cast<char*>(word.c_str()));
  argv.push_back(nullptr);
  for (const std::string& variable : options.environment) ::putenv(const_cast<char*>(variable.c_str()));
  if (options.first) options.first();
  ::execv(argv[0], argv.data());
  ::_exit(127);
}

}  // namespace

Said runChild(const std::vector<std::string>& words, const ChildOptions& options) {
  const TemporaryFolder folder;
  const std::string out = options.outTo.empty() ? folder.file("out") : options.outTo;
  const pid_t child = ::fork();
  if (child == 0) {
    redirect(0, "/dev/null", O_RDONLY);
    redirect(1, out, O_WRONLY | O_CREAT);
    redirect(2, folder.file("err"), O_WRONLY | O_CREAT);
    become(words, options);
  }
  int status = 0;
  ::waitpid(child, &status, 0);
  return {WIFEXITED(status) ? WEXITSTATUS(status) : 128 + WTERMSIG(status),
          options.outTo.empty() ? contentOf(out) : "", contentOf(folder.file("err"))};
}

Said dryfit(std::vector<std::string> words, const ChildOptions& options) {
  words.insert(words.begin(), DRYFIT_PROGRAM);
  return runChild(words, options);
}

}  // namespace dryfit
