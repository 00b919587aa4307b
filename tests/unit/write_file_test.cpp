// Writing whole or not at all, held against the operating system's own refusals (POSIX errno values).
#include "cli/write_file.h"

#include <gtest/gtest.h>
#include <signal.h>
#include <sys/resource.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

#include <cstring>

#include "unit/temporary_folder.h"

namespace dryfit::cli {
namespace {

namespace fs = std::filesystem;

void expectRefused(const std::string& path, int error) {
  const auto fault = writeFile(path, "new");
  ASSERT_TRUE(fault.has_value()) << path;
  EXPECT_EQ(fault->fault, Fault::SystemFault);
  EXPECT_NE(fault->message.find(path), std::string::npos) << fault->message;
  EXPECT_NE(fault->message.find(std::strerror(error)), std::string::npos) << fault->message;
}

TEST(WriteFile, WritesAndReplaces) {
  const TemporaryFolder folder;
  const std::string all = std::string("a\0b\r\n", 5) + std::string(200000, 'x');
  for (const std::string& text : {std::string(), all, std::string("short")}) {
    ASSERT_FALSE(writeFile(folder.file("out.step"), text));
    EXPECT_EQ(contentOf(folder.file("out.step")), text);
    EXPECT_EQ(readFile(folder.file("out.step")).value(), text);
  }
  EXPECT_EQ(folder.names().size(), 1u);
}

TEST(WriteFile, ANewFileFollowsTheUmaskAndAnOldOneKeepsItsMode) {
  const TemporaryFolder folder;
  const mode_t before = ::umask(027);
  ASSERT_FALSE(writeFile(folder.file("new"), "x"));
  ::umask(before);
  struct stat s {};
  ASSERT_EQ(::stat(folder.file("new").c_str(), &s), 0);
  EXPECT_EQ(s.st_mode & 07777, 0640u);  // 0666 without 027
  ASSERT_EQ(::chmod(folder.file("new").c_str(), 0604), 0);
  ASSERT_FALSE(writeFile(folder.file("new"), "y"));
  ASSERT_EQ(::stat(folder.file("new").c_str(), &s), 0);
  EXPECT_EQ(s.st_mode & 07777, 0604u);
}

TEST(WriteFile, FollowsLinksToTheirTarget) {
  const TemporaryFolder folder;
  fs::create_directory(folder.file("sub"));
  put(folder.file("sub/real"), "old");
  fs::create_symlink("sub/real", folder.file("link"));
  fs::create_symlink("link", folder.file("link to link"));
  fs::create_symlink("sub/later", folder.file("dangling"));
  ASSERT_FALSE(writeFile(folder.file("link to link"), "new"));
  EXPECT_TRUE(fs::is_symlink(folder.file("link to link")));
  EXPECT_TRUE(fs::is_symlink(folder.file("link")));
  EXPECT_EQ(contentOf(folder.file("sub/real")), "new");
  ASSERT_FALSE(writeFile(folder.file("dangling"), "made"));
  EXPECT_EQ(contentOf(folder.file("sub/later")), "made");
}

TEST(WriteFile, RefusalsNameThePathAndTheReason) {
  const TemporaryFolder folder;
  put(folder.file("file"), "");
  fs::create_symlink("ring", folder.file("ring"));
  expectRefused(folder.file("missing/out"), ENOENT);
  expectRefused(folder.file("file/out"), ENOTDIR);
  expectRefused(folder.path().string(), EISDIR);
  expectRefused(folder.path().string() + "/", EISDIR);
  expectRefused(folder.file("ring"), ELOOP);
  expectRefused(folder.file(std::string(300, 'n')), ENAMETOOLONG);  // NAME_MAX is 255 on Linux
  EXPECT_EQ(folder.names().size(), 2u);
}

TEST(WriteFile, ALongNameThatFitsIsWritten) {
  const TemporaryFolder folder;
  EXPECT_FALSE(writeFile(folder.file(std::string(255, 'n')), "x"));
}

TEST(WriteFile, AFullDeviceIsTold) {
  // /dev/full answers every write with ENOSPC (full(4)).
  expectRefused("/dev/full", ENOSPC);
  EXPECT_FALSE(writeFile("/dev/null", "x"));
  EXPECT_TRUE(fs::is_character_file("/dev/null"));
}

TEST(WriteFile, AReadOnlyFileStays) {
  if (::geteuid() == 0) {
    // Root may write it; then it must be written.
    const TemporaryFolder folder;
    put(folder.file("kept"), "old");
    ::chmod(folder.file("kept").c_str(), 0444);
    EXPECT_FALSE(writeFile(folder.file("kept"), "new"));
    EXPECT_EQ(contentOf(folder.file("kept")), "new");
    return;
  }
  const TemporaryFolder folder;
  put(folder.file("kept"), "old");
  ::chmod(folder.file("kept").c_str(), 0444);
  expectRefused(folder.file("kept"), EACCES);
  EXPECT_EQ(contentOf(folder.file("kept")), "old");
}

/// Runs `work` in a child; its wait status.
template <class Work>
int inChild(Work work) {
  const pid_t child = ::fork();
  if (child == 0) ::_exit(work());
  int status = 0;
  ::waitpid(child, &status, 0);
  return status;
}

TEST(WriteFile, AFileThatGrowsTooLargeLeavesTheOldOne) {
  const TemporaryFolder folder;
  put(folder.file("out"), "old");
  const int status = inChild([&] {
    ::signal(SIGXFSZ, SIG_IGN);
    const rlimit limit{4096, 4096};
    ::setrlimit(RLIMIT_FSIZE, &limit);
    const auto fault = writeFile(folder.file("out"), std::string(100000, 'x'));
    return fault && fault->message.find(std::strerror(EFBIG)) != std::string::npos ? 0 : 1;
  });
  EXPECT_EQ(status, 0);
  EXPECT_EQ(contentOf(folder.file("out")), "old");
  EXPECT_EQ(folder.names(), std::vector<std::string>{"out"});
}

/// The file being written beside "out", once some of it is there; empty when the child has ended.
fs::path partOf(const TemporaryFolder& folder, pid_t child) {
  for (;;) {
    for (const std::string& name : folder.names()) {
      std::error_code gone;
      if (name != "out" && fs::file_size(folder.file(name), gone) > 0 && !gone) return folder.file(name);
    }
    if (::waitpid(child, nullptr, WNOHANG) == child) return {};
  }
}

TEST(WriteFile, AWriterKilledInTheMiddleLeavesTheOldOneWhole) {
  const std::string old(1000, 'o'), fresh(256 << 20, 'n');
  int inTheMiddle = 0;
  for (int round = 0; round < 3; ++round) {
    const TemporaryFolder folder;
    put(folder.file("out"), old);
    const pid_t child = ::fork();
    if (child == 0) ::_exit(writeFile(folder.file("out"), fresh) ? 1 : 0);
    const fs::path part = partOf(folder, child);
    ::kill(child, SIGKILL);
    int status = 0;
    ::waitpid(child, &status, 0);
    std::error_code gone;
    if (!part.empty() && fs::exists(part, gone)) ++inTheMiddle;
    const std::string now = contentOf(folder.file("out"));
    EXPECT_TRUE(now == old || now == fresh) << "neither the old file nor the new one";
    if (!part.empty() && fs::exists(part, gone)) {
      EXPECT_EQ(now, old);
    }
  }
  EXPECT_GE(inTheMiddle, 1) << "no round caught the writer at work";
}

TEST(ReadFile, TellsWhoseFaultItIs) {
  const TemporaryFolder folder;
  const auto missing = readFile(folder.file("no.toml"));
  ASSERT_FALSE(missing.ok());
  EXPECT_EQ(missing.faults()[0].fault, Fault::BadInput);
  EXPECT_EQ(toText(missing.faults()[0]),
            "cannot read " + folder.file("no.toml") + ": " + std::strerror(ENOENT));
  ASSERT_FALSE(readFile(folder.path().string()).ok());
  EXPECT_EQ(readFile(folder.path().string()).faults()[0].fault, Fault::BadInput);
}

}  // namespace
}  // namespace dryfit::cli
