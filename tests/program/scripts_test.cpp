// src/run.sh with made-up tools in its path: what it installs, when it builds, what it passes on. The scripts
// are copied into a folder with spaces in its name.
#include <gtest/gtest.h>
#include <sys/stat.h>

#include <sstream>

#include "program/child.h"
#include "unit/temporary_folder.h"

namespace dryfit {
namespace {

namespace fs = std::filesystem;

class Scripts : public testing::Test {
 protected:
  Scripts() {
    fs::create_directories(folder_.file("my checkout/src"));
    fs::create_directories(folder_.file("bin"));
    for (const char* name : {"run.sh", "packages.sh", "packages.txt"})
      fs::copy(std::string(DRYFIT_ROOT) + "/src/" + name,
               folder_.file("my checkout/src/" + std::string(name)));
    for (const char* name : {"sh", "dirname", "grep", "cat", "mkdir", "rm", "sed", "env", "flock", "true"})
      for (const char* home : {"/usr/bin/", "/bin/"})
        if (fs::exists(std::string(home) + name) && !fs::exists(folder_.file("bin/" + std::string(name))))
          fs::create_symlink(std::string(home) + name, folder_.file("bin/" + std::string(name)));
    // cmake leaves a configured folder, ninja a program that tells its arguments and fails with 7.
    tool("cmake", "while [ \"$1\" != -B ]; do shift; done; : >\"$2/build.ninja\"");
    tool("ninja",
         "while [ \"$1\" != -C ]; do shift; done\n"
         "printf '#!/bin/sh\\nfor w; do echo \"[$w]\"; done\\nexit 7\\n' >\"$2/dryfit\"; chmod +x "
         "\"$2/dryfit\"");
    fs::create_symlink("/bin/chmod", folder_.file("bin/chmod"));
    user("0");
    installed("cmake");
  }

  /// A tool that notes its call in "calls" and then does `body`.
  void tool(const std::string& name, const std::string& body) {
    const std::string path = folder_.file("bin/" + name);
    put(path, "#!/bin/sh\necho \"" + name + " $*\" >>\"" + folder_.file("calls") + "\"\n" + body + "\n");
    ::chmod(path.c_str(), 0755);
  }
  void user(const std::string& id) { tool("id", "echo " + id); }
  /// dpkg-query knows these; "all" is everything.
  void installed(const std::string& names) {
    const std::string list = names == "all" ? "\"$@\"" : names;
    tool("dpkg-query", "shift 3; for p in " + list + "; do echo \"installed $p\"; done; " +
                           (names == "all" ? "exit 0" : "exit 1"));
  }
  Said run(const std::vector<std::string>& words) {
    std::vector<std::string> all = {"/bin/sh", folder_.file("my checkout/src/run.sh")};
    all.insert(all.end(), words.begin(), words.end());
    return runChild(all, {"/", "", {"PATH=" + folder_.file("bin")}, {}});
  }
  size_t calls(const std::string& beginning) {
    std::istringstream in(contentOf(folder_.file("calls")));
    size_t count = 0;
    for (std::string line; std::getline(in, line);) count += line.rfind(beginning, 0) == 0;
    return count;
  }

  TemporaryFolder folder_;
};

bool has(const std::string& text, const std::string& part) {
  return text.find(part) != std::string::npos;
}

TEST_F(Scripts, ArgumentsAndStatusPassThrough) {
  installed("all");
  const Said said = run({"pieces", "a file.toml", "--json"});
  EXPECT_EQ(said.out, "[pieces]\n[a file.toml]\n[--json]\n") << said.err;
  EXPECT_EQ(said.status, 7);
  EXPECT_EQ(calls("apt-get"), 0u);
}

TEST_F(Scripts, TheSecondStartDoesNotConfigureAgain) {
  installed("all");
  run({"--help"});
  const Said again = run({"--help"});
  EXPECT_EQ(calls("cmake"), 1u);
  EXPECT_EQ(again.err, "");
}

TEST_F(Scripts, AMovedCheckoutIsConfiguredAgain) {
  installed("all");
  run({"--help"});
  fs::rename(folder_.file("my checkout"), folder_.file("elsewhere"));
  fs::create_symlink("elsewhere", folder_.file("my checkout"));
  EXPECT_EQ(run({"--help"}).status, 7);
  EXPECT_EQ(calls("cmake"), 2u);
}

TEST_F(Scripts, RootInstallsWhatIsMissingAndOnlyThat) {
  tool("apt-get", "");
  const Said said = run({"--help"});
  EXPECT_EQ(said.status, 7) << said.err;
  EXPECT_EQ(calls("apt-get install -y --no-install-recommends ninja-build g++ "), 1u);
  EXPECT_FALSE(has(contentOf(folder_.file("calls")), "libgtest-dev"))
      << "the program does not need the tests' packages";
}

TEST_F(Scripts, PackageListsAreFetchedWhenTheFirstTryFails) {
  tool("apt-get", "case $1 in update) : >\"$0.updated\" ;; install) [ -e \"$0.updated\" ] ;; esac");
  EXPECT_EQ(run({"--help"}).status, 7);
  EXPECT_EQ(calls("apt-get install"), 2u);
  EXPECT_EQ(calls("apt-get update"), 1u);
}

TEST_F(Scripts, SudoIsUsedWhenItAsksNothing) {
  user("1000");
  tool("apt-get", "");
  tool("sudo", "shift; exec \"$@\"");
  EXPECT_EQ(run({"--help"}).status, 7);
  EXPECT_EQ(calls("sudo -n env DEBIAN_FRONTEND=noninteractive apt-get install"), 1u);
  EXPECT_EQ(calls("apt-get install"), 1u);
}

TEST_F(Scripts, WithoutRootOrSudoItSaysWhatToInstall) {
  user("1000");
  tool("apt-get", "");
  const Said none = run({"--help"});
  EXPECT_EQ(none.status, 3);
  EXPECT_TRUE(has(none.err, "apt-get install ninja-build g++ ")) << none.err;
  tool("sudo", "exit 1");  // wants a password, and there is no terminal
  EXPECT_EQ(run({"--help"}).status, 3);
  EXPECT_EQ(calls("apt-get"), 0u);
  EXPECT_EQ(calls("cmake"), 0u);
}

TEST_F(Scripts, AFailedBuildIsStatusThree) {
  installed("all");
  tool("ninja", "echo broken; exit 1");
  const Said said = run({"--help"});
  EXPECT_EQ(said.status, 3);
  EXPECT_EQ(said.out, "");
  EXPECT_TRUE(has(said.err, "broken\n")) << said.err;
}

}  // namespace
}  // namespace dryfit
