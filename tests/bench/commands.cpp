#include "bench/commands.h"

#include <fcntl.h>
#include <fmt/format.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

#include <algorithm>
#include <chrono>
#include <filesystem>
#include <fstream>
#include <set>
#include <vector>

#include "support/works.h"

namespace dryfit::tests {

namespace {

struct Cost {
  double ms = 0, peakMb = 0;
};

/// One fresh process, its output thrown away.
Cost runOnce(const std::vector<std::string>& words) {
  const auto begin = std::chrono::steady_clock::now();
  const pid_t child = fork();
  if (child == 0) {
    const int nowhere = open("/dev/null", O_WRONLY);
    dup2(nowhere, 1);
    std::vector<char*> argv;
    for (const std::string& w : words) argv.push_back(const_cast<char*>(w.c_str()));
    argv.push_back(nullptr);
    execv(argv[0], argv.data());
    _exit(127);
  }
  int status = 0;
  rusage usage{};
  wait4(child, &status, 0, &usage);
  const double ms =
      std::chrono::duration<double, std::milli>(std::chrono::steady_clock::now() - begin).count();
  if (!WIFEXITED(status) || WEXITSTATUS(status) != 0) fmt::print("  (it failed)\n");
  return {ms, static_cast<double>(usage.ru_maxrss) / 1024};
}

/// The middle of nine runs.
Cost cost(const std::vector<std::string>& words) {
  std::vector<Cost> all;
  for (int i = 0; i < 9; ++i) all.push_back(runOnce(words));
  std::sort(all.begin(), all.end(), [](const Cost& a, const Cost& b) { return a.ms < b.ms; });
  return all[all.size() / 2];
}

std::set<std::uint64_t> recipesOf(const CutWork& work) {
  std::set<std::uint64_t> all;
  for (const Piece& p : work.pieces)
    for (const PieceState& s : p.states) all.insert(s.cut->hash);
  return all;
}

}  // namespace

std::string leafOf45() {
  return R"(title = "Leaf of 45 pieces"
wall.kind = "none"
[leaf.moulding]
faces = "front"
[[leaf.rail]]
name = "top"
[[leaf.rail]]
name = "frieze"
width = 95
top_edge = 1600
[[leaf.rail]]
name = "middle"
width = 195
top_edge = 965
[[leaf.rail]]
name = "bottom"
width = 195
)";
}

namespace {

/// Each command on the file as a fresh process, beside the start alone.
void reportCommands(const std::string& program, const std::string& file) {
  const Cost start = cost({program, "--version"});
  fmt::print("{:<28} {:>8} {:>14} {:>10}\n", "command", "ms", "start / this", "peak MB");
  const auto row = [&](const std::string& name, const Cost& c) {
    fmt::print("{:<28} {:>8.1f} {:>14.3f} {:>10.1f}\n", name, c.ms, start.ms / c.ms, c.peakMb);
  };
  row("--version (start alone)", start);
  for (const char* command : {"pieces", "fit", "order"}) row(command, cost({program, command, file}));
  const auto step = std::filesystem::temp_directory_path() / fmt::format("dryfit-bench-{}.step", getpid());
  row("step", cost({program, "step", file, "-o", step}));
  std::filesystem::remove(step);
}

}  // namespace

void reportWhole(const std::string& program, const std::string& path) {
  fmt::print("\nwhole door set {}, {} pieces, each command a fresh process (the middle of nine)\n",
             std::filesystem::path(path).stem().string(), cutWholeSet(path).pieces.size());
  reportCommands(program, path);
}

void reportLeaf(const std::string& program) {
  const auto file = std::filesystem::temp_directory_path() / fmt::format("dryfit-bench-{}.toml", getpid());
  std::ofstream(file) << leafOf45();
  const CutWork work = cutDoorSet(leafOf45());
  fmt::print("\nleaf of {} pieces, each command a fresh process (the middle of nine)\n", work.pieces.size());
  reportCommands(program, file);
  std::filesystem::remove(file);

  std::string narrower = leafOf45();
  narrower.replace(narrower.find("width = 195"), 11, "width = 185");
  const auto before = recipesOf(work), after = recipesOf(cutDoorSet(narrower));
  const auto fresh =
      std::count_if(after.begin(), after.end(), [&](auto hash) { return !before.count(hash); });
  fmt::print("middle rail 195 -> 185: {} of {} recipes cut anew\n", fresh, after.size());
}

void reportPictureCommand(const std::string& program) {
  const auto folder = std::filesystem::temp_directory_path() / fmt::format("dryfit-bench-{}", getpid());
  std::filesystem::create_directories(folder);
  const std::string file = folder / "leaf.toml", out = folder / "leaf.png", store = folder / "shaders";
  std::ofstream(file) << leafOf45();
  setenv("MESA_SHADER_CACHE_DIR", store.c_str(), 1);
  const std::vector<std::string> words = {program, "picture", file, "-o", out, "--passes", "2"};
  const Cost start = cost({program, "--version"});
  std::vector<double> empty;
  for (int i = 0; i < 5; ++i) {
    std::filesystem::remove_all(store);
    empty.push_back(runOnce(words).ms);
  }
  std::sort(empty.begin(), empty.end());
  const Cost full = cost(words);
  fmt::print(
      "\ndryfit picture, two passes, 1920x1080, a fresh process: {:.0f} ms with no shader kept from before "
      "(the middle of five), {:.0f} ms after (of nine), {:.0f} times the start alone; peak {:.0f} MB\n",
      empty[empty.size() / 2], full.ms, full.ms / start.ms, full.peakMb);
  std::filesystem::remove_all(folder);
}

}  // namespace dryfit::tests
