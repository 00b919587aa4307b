// The real window on a display of its own (Xvfb) with a window manager, worked by keys and mouse. What came
// of it is read from the file the window records its controls and its state in.
#include <gtest/gtest.h>
#include <signal.h>
#include <sys/wait.h>
#include <unistd.h>

#include <algorithm>
#include <chrono>
#include <cstdlib>
#include <fstream>
#include <functional>
#include <nlohmann/json.hpp>
#include <thread>

#include "program/child.h"
#include "unit/temporary_folder.h"

namespace dryfit {
namespace {

using Json = nlohmann::json;
using std::chrono::milliseconds;

/// A program beside the test; ended with it.
class Beside {
 public:
  Beside(const std::vector<std::string>& words, const std::vector<std::string>& environment) {
    pid_ = ::fork();
    if (pid_ != 0) return;
    std::vector<char*> argv;
    for (const std::string& word : words) argv.push_back(const_cast<char*>(word.c_str()));
    argv.push_back(nullptr);
    for (const std::string& variable : environment) ::putenv(const_cast<char*>(variable.c_str()));
    ::execvp(argv[0], argv.data());
    ::_exit(127);
  }
  ~Beside() { end(SIGKILL); }
  Beside(const Beside&) = delete;
  Beside& operator=(const Beside&) = delete;

  void ask(int signal) { ::kill(pid_, signal); }
  /// Its exit status; -1 when a signal ended it.
  int end(int signal = 0) {
    if (pid_ <= 0) return -1;
    if (signal) ::kill(pid_, signal);
    int status = 0;
    ::waitpid(pid_, &status, 0);
    pid_ = 0;
    return WIFEXITED(status) ? WEXITSTATUS(status) : -1;
  }
  bool runs() const { return pid_ > 0 && ::kill(pid_, 0) == 0 && ::waitpid(pid_, nullptr, WNOHANG) == 0; }

 private:
  pid_t pid_ = 0;
};

class WindowProgram : public testing::Test {
 protected:
  static constexpr int kPatienceS = 40;

  void SetUp() override {
    display_ = ":" + std::to_string(200 + ::getpid() % 3000);
    server_.emplace(
        std::vector<std::string>{"Xvfb", display_, "-screen", "0", "1600x1000x24", "-nolisten", "tcp"},
        std::vector<std::string>{});
    until([&] { return ::access(("/tmp/.X11-unix/X" + display_.substr(1)).c_str(), F_OK) == 0; },
          "a display");
    manager_.emplace(std::vector<std::string>{"openbox"}, std::vector<std::string>{"DISPLAY=" + display_});
  }

  void open(const std::string& file, int width = 1280, int height = 720) {
    window_.emplace(std::vector<std::string>{DRYFIT_PROGRAM, "view", file},
                    std::vector<std::string>{"DISPLAY=" + display_, "DRYFIT_RECORD=" + record()});
    until([&] { return !tool("search --name Dryfit").empty() && read().is_object(); }, "the window");
    id_ = tool("search --name Dryfit | tail -1");
    tool("windowactivate --sync " + id_);
    tool("windowmove --sync " + id_ + " 40 60");
    tool("windowsize --sync " + id_ + " " + std::to_string(width) + " " + std::to_string(height));
  }

  std::string record() const { return folder_.file("record.json"); }
  Json read() const {
    std::ifstream in(record());
    return Json::parse(in, nullptr, false);
  }
  std::string tool(const std::string& words) const {
    return toolOut("DISPLAY=" + display_ + " xdotool " + words + " 2>/dev/null");
  }
  static std::string toolOut(const std::string& command) {
    std::string out;
    FILE* pipe = ::popen(command.c_str(), "r");
    if (!pipe) return out;
    for (char c; ::fread(&c, 1, 1, pipe) == 1;) out += c;
    ::pclose(pipe);
    while (!out.empty() && out.back() == '\n') out.pop_back();
    return out;
  }

  void until(const std::function<bool()>& there, const std::string& what) {
    const auto end = std::chrono::steady_clock::now() + std::chrono::seconds(kPatienceS);
    while (!there()) {
      if (std::chrono::steady_clock::now() > end) FAIL() << "waited in vain for " << what;
      std::this_thread::sleep_for(milliseconds(50));
    }
  }
  void untilState(const std::string& key, const Json& value) {
    until(
        [&] {
          const Json now = read();
          return now.is_object() && now.value(key, Json()) == value;
        },
        key + " to be " + value.dump() + "; it is " + read().value(key, Json()).dump());
  }
  void key(const std::string& name) { tool("key " + name); }
  /// In the middle of the control of that label.
  void press(const std::string& label) {
    until(
        [&] {
          const Json now = read();
          return now.is_object() && std::any_of(now["controls"].begin(), now["controls"].end(),
                                                [&](const Json& c) { return c["label"] == label; });
        },
        "the control " + label);
    const Json now = read();
    for (const Json& c : now["controls"])
      if (c["label"] == label) {
        const int x = static_cast<int>(c["x"].get<double>() + c["width"].get<double>() / 2);
        const int y = static_cast<int>(c["y"].get<double>() + c["height"].get<double>() / 2);
        tool("mousemove --window " + id_ + " " + std::to_string(x) + " " + std::to_string(y));
        std::this_thread::sleep_for(milliseconds(120));
        tool("click 1");
        return;
      }
    FAIL() << "no control " << label << " in " << read().dump();
  }

  TemporaryFolder folder_;
  std::string display_, id_;
  std::optional<Beside> server_, manager_, window_;
};

const std::string kFrame = DRYFIT_ROOT "/assets/works/panel-frame.toml";

TEST_F(WindowProgram, IsFollowedByKeysAndByMouse) {
  open(kFrame);
  untilState("title", "Oar store cupboard front");
  for (int i = 0; i < 3; ++i) key("Right");
  untilState("at", 3.0);
  press("Forward");
  untilState("at", 4.0);
  press("Back");
  untilState("at", 3.0);
  key("End");
  untilState("at", read()["steps"].get<double>());
  press("Slate");
  untilState("slate", true);
  press("front");
  untilState("view", "front");
  press("Sizes");
  untilState("sizes", true);
  press("See through");
  untilState("see_through", true);
  key("s");
  untilState("spread", 1.0);
  key("Escape");
  untilState("spread", 0.0);
  key("F1");
  untilState("help", true);
  press("Close");
  untilState("help", false);
  untilState("still", true);
}

TEST_F(WindowProgram, EveryControlHasItsPlaceAtEverySize) {
  open(kFrame);
  for (const auto& [width, height] : {std::pair{1500, 900}, {1280, 720}, {800, 600}}) {
    tool("windowsize --sync " + id_ + " " + std::to_string(width) + " " + std::to_string(height));
    key("F1");
    untilState("help", true);
    key("F1");
    untilState("help", false);
    untilState("still", true);
    const Json now = read();
    for (const Json& c : now["controls"]) {
      EXPECT_GE(c["x"].get<double>(), -20) << c["label"];
      EXPECT_LE(c["x"].get<double>() + c["width"].get<double>(), width + 20) << c["label"] << " at " << width;
      EXPECT_LE(c["y"].get<double>() + c["height"].get<double>(), height + 20)
          << c["label"] << " at " << height;
    }
    // Words and buttons lie apart; reaches of sliders overlap their neighbours' a little.
    for (const Json& a : now["controls"])
      for (const Json& b : now["controls"]) {
        if (a == b) continue;
        const double dx = std::min(a["x"].get<double>() + a["width"].get<double>(),
                                   b["x"].get<double>() + b["width"].get<double>()) -
                          std::max(a["x"].get<double>(), b["x"].get<double>());
        const double dy = std::min(a["y"].get<double>() + a["height"].get<double>(),
                                   b["y"].get<double>() + b["height"].get<double>()) -
                          std::max(a["y"].get<double>(), b["y"].get<double>());
        EXPECT_FALSE(dx > 16 && dy > 16) << a["label"] << " and " << b["label"] << " at " << width;
      }
  }
}

TEST_F(WindowProgram, AFileThatFailsWhileOpenLeavesTheLastAndIsTakenInWhenMended) {
  const std::string path = folder_.file("work.toml"), good = contentOf(kFrame);
  std::ofstream(path) << good;
  open(path);
  untilState("title", "Oar store cupboard front");
  key("Right");
  key("Right");
  untilState("at", 2.0);
  std::this_thread::sleep_for(milliseconds(1100));  // file times are told in whole seconds on some systems
  std::ofstream(path) << good << "\nnonsense = 3\n";
  until([&] { return !read()["message"].empty(); }, "a message");
  EXPECT_NE(read()["message"][0].get<std::string>().find("nonsense"), std::string::npos);
  EXPECT_EQ(read()["title"], "Oar store cupboard front");
  EXPECT_EQ(read()["at"], 2.0);
  std::this_thread::sleep_for(milliseconds(1100));
  std::ofstream(path) << good;
  until([&] { return read()["message"].empty(); }, "the message to go");
  EXPECT_EQ(read()["at"], 2.0);
}

TEST_F(WindowProgram, IsClosedInTheMiddleOfSettingOut) {
  window_.emplace(
      std::vector<std::string>{DRYFIT_PROGRAM, "view", DRYFIT_ROOT "/assets/doorsets/boat-hall.toml"},
      std::vector<std::string>{"DISPLAY=" + display_});
  until([&] { return !tool("search --name Dryfit").empty(); }, "the window");
  tool("search --name Dryfit windowclose");
  tool("key --window $(DISPLAY=" + display_ + " xdotool search --name Dryfit | tail -1) alt+F4");
  until([&] { return tool("search --name Dryfit").empty() || !window_->runs(); }, "the window to close");
}

TEST(WindowWithoutADisplay, SaysSo) {
  ChildOptions options;
  options.environment = {"DISPLAY=", "WAYLAND_DISPLAY="};
  const Said said = dryfit({"view", kFrame}, options);
  EXPECT_NE(said.status, 0);
  EXPECT_NE(said.err.find("cannot open a window"), std::string::npos) << said.err;
}

}  // namespace
}  // namespace dryfit
