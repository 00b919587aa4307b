#include "ui/window.h"

#include <imgui/backends/imgui_impl_glfw.h>
#include <imgui/backends/imgui_impl_opengl3.h>
#include <imgui/imgui.h>

#include <chrono>
#include <cmath>
#include <filesystem>
#include <utility>

#include "gl/window.h"
#include "ui/parts.h"
#include "ui/picture.h"
#include "ui/recording.h"
#include "ui/worker.h"

namespace dryfit::ui {

namespace {

constexpr scene::PictureSize kFirstSize{1280, 800};
/// A drag of the window's height turns by this.
constexpr double kTurnDeg = 220;
constexpr double kWheelTimes = 1.15;
/// How often a file that is open is looked at for changes.
constexpr double kWatchS = 0.5;
/// Frames after anything happened: what was pressed shows its effect in the next one.
constexpr int kFramesAfter = 2;
constexpr size_t kFramesKept = 240;

using Clock = std::chrono::steady_clock;

/// The toolkit, as long as the window is open.
class Toolkit {
 public:
  explicit Toolkit(gl::Window& window) {
    ImGui::CreateContext();
    ImGui::GetIO().IniFilename = nullptr;
    ImGui::GetIO().ConfigFlags |= ImGuiConfigFlags_NoMouseCursorChange;
    ImGui_ImplGlfw_InitForOpenGL(window.handle(), true);
    ImGui_ImplOpenGL3_Init("#version 330 core");
  }
  ~Toolkit() {
    ImGui_ImplOpenGL3_Shutdown();
    ImGui_ImplGlfw_Shutdown();
    ImGui::DestroyContext();
  }
  Toolkit(const Toolkit&) = delete;
  Toolkit& operator=(const Toolkit&) = delete;
};

class Running {
 public:
  Running(gl::Window window, Picture picture, const WindowStart& start)
      : start_(start),
        window_(std::move(window)),
        toolkit_(window_),
        picture_(std::move(picture)),
        worker_(start.load, [] { gl::Window::wake(); }) {
    if (!start.path.empty()) open(start.path);
  }

  void run() {
    while (!window_.wantsToClose()) {
      window_.wait(waitS());
      takeIn();
      if (frames_ > 0 || moves(state_) || picture_.wants(now()) == 0) frame();
    }
  }

 private:
  double now() const { return std::chrono::duration<double>(Clock::now() - began_).count(); }

  /// Nothing to do: until something happens, or the file may have changed.
  double waitS() {
    if (frames_ > 0 || moves(state_)) return 0;
    const double wants = picture_.wants(now());
    if (wants >= 0) return std::min(wants, kWatchS);
    return path_.empty() ? -1 : kWatchS;
  }

  void open(const std::string& path) {
    path_ = path;
    std::error_code none;
    changed_ = std::filesystem::last_write_time(path, none);
    worker_.ask(path);
  }

  /// What came from outside: loaded works, dropped files, files that changed.
  void takeIn() {
    if (window_.takeTouched()) frames_ = kFramesAfter;
    for (const std::string& path : window_.takeDropped()) open(path);
    watch();
    if (auto found = worker_.take()) {
      if (*found) {
        const auto model = std::move(*found).value();
        apply(Loaded{model});
        model_ = model;
        picture_.take(model_);
        window_.setTitle(model_->work.title + " \u2013 Dryfit");
      } else {
        std::vector<std::string> lines;
        for (const Diagnostic& d : found->faults()) lines.push_back(toText(d));
        apply(NotLoaded{lines});
      }
      frames_ = kFramesAfter;
    }
  }

  void watch() {
    if (path_.empty() || now() - lookedS_ < kWatchS) return;
    lookedS_ = now();
    std::error_code fault;
    const auto changed = std::filesystem::last_write_time(path_, fault);
    if (fault || changed == changed_) return;
    changed_ = changed;
    worker_.ask(path_);
  }

  void apply(const Input& input) { state_ = turned(std::move(state_), input, model_.get()); }

  void frame() {
    const double time = now();
    if (moves(state_)) apply(Passed{std::min(0.1, time - lastS_)});
    lastS_ = time;
    const scene::PictureSize pixels = window_.framebuffer();
    if (pixels.width == 0 || pixels.height == 0) {
      frames_ = 0;
      return;
    }
    const Screen screen = screenOf(pixels.width, pixels.height, state_.textScale, window_.pixelRatio());
    if (screen.text != text_) {
      controls_.setText(screen.text);
      if (text_ > 0) {  // the first time the backend does it
        ImGui_ImplOpenGL3_DestroyFontsTexture();
        ImGui_ImplOpenGL3_CreateFontsTexture();
      }
      text_ = screen.text;
    }
    picture_.update(state_, screen, pixels, time);
    picture_.show();
    ImGui_ImplOpenGL3_NewFrame();
    ImGui_ImplGlfw_NewFrame();
    ImGui::NewFrame();
    std::vector<Input> inputs;
    drawParts(screen, inputs);
    keys(inputs);
    pointer(screen, inputs);
    ImGui::Render();
    ImGui_ImplOpenGL3_RenderDrawData(ImGui::GetDrawData());
    window_.present();
    if (frames_ > 0) --frames_;
    frameMs_.push_back(1000 * (now() - time));
    if (frameMs_.size() > kFramesKept) frameMs_.erase(frameMs_.begin());
    const State before = state_;
    for (const Input& input : inputs) apply(input);
    if (!(state_ == before)) frames_ = std::max(frames_, kFramesAfter);
    if (!start_.record.empty())
      record(start_.record, state_, model_.get(), controls_.recorded(),
             frames_ == 0 && !moves(state_) && picture_.wants(now()) < 0, frameMs_);
  }

  void drawParts(const Screen& screen, std::vector<Input>& inputs) {
    controls_.begin(screen, state_.ground);
    const Seen seen{screen, state_, model_.get()};
    if (!model_) controls_.fill({0, 0, screen.width, screen.height}, controls_.colours().ground);
    drawTopLine(controls_, seen, inputs);
    if (model_) {
      drawViews(controls_, seen, inputs);
      drawLooks(controls_, seen, inputs);
    }
    drawCard(controls_, seen, inputs);
    drawStrip(controls_, seen, inputs);
    drawHover();
    drawHelp(controls_, seen, inputs);
    if (!model_) drawNothingYet(screen);
  }

  void drawNothingYet(const Screen& screen) {
    const std::string words = worker_.busy() ? "Setting out \u2026" : "Drop a work file here.";
    controls_.text({screen.width / 2, screen.height / 2}, words, scene::Face::Text, 18,
                   controls_.colours().soft, Align::Middle);
  }

  void drawHover() {
    if (!state_.hover || !model_) return;
    const Piece& piece = model_->work.pieces[static_cast<size_t>(*state_.hover)];
    const std::string& name = piece.name.empty() ? piece.id : piece.name;
    const Vec2 at = controls_.pointer() + Vec2{controls_.t(18), controls_.t(30)};
    const double width = controls_.widthOf(name, scene::Face::Text, 16);
    const Rect box{at.x - controls_.t(8), at.y - controls_.t(20), width + controls_.t(16), controls_.t(28)};
    controls_.fill(box, controls_.sheet().sheet, 3 * controls_.u());
    controls_.frame(box, controls_.sheet().hair, controls_.u(), 3 * controls_.u());
    controls_.text(at, name, scene::Face::Text, 16, controls_.colours().ink);
  }

  void keys(std::vector<Input>& out) {
    for (const gl::KeyPress& key : window_.takeKeys())
      if (!key.other) key.shift ? shifted(key.key, out) : plain(key.key, out);
  }
  void shifted(int key, std::vector<Input>& out) {
    constexpr double kStepDeg = 6;
    if (key == kRight) out.push_back(Turned{-kStepDeg, 0});
    if (key == kLeft) out.push_back(Turned{kStepDeg, 0});
    if (key == kUp) out.push_back(Turned{0, kStepDeg});
    if (key == kDown) out.push_back(Turned{0, -kStepDeg});
    if (key == kTab) controls_.focusNext(-1);
    if (key == '=') out.push_back(CameNearer{kWheelTimes, {}});
  }
  void plain(int key, std::vector<Input>& out) {
    if (key == kTab) return controls_.focusNext(1);
    if (controls_.focused()) {
      if (key == kEscape) return controls_.forgetFocus();
      if (key == kEnter || key == kSpace) {
        frames_ = kFramesAfter + 1;
        return controls_.press();
      }
    }
    if (key == '=' || key == kKeypadAdd) out.push_back(CameNearer{kWheelTimes, {}});
    if (key == '-' || key == kKeypadSubtract) out.push_back(CameNearer{1 / kWheelTimes, {}});
    static const std::pair<int, Deed> bound[] = {
        {kRight, Deed::Forward},  {kSpace, Deed::Forward},  {kPageDown, Deed::Forward},
        {kLeft, Deed::Back},      {kBackspace, Deed::Back}, {kPageUp, Deed::Back},
        {kHome, Deed::First},     {kEnd, Deed::Last},       {'R', Deed::Run},
        {'S', Deed::SpreadKey},   {'C', Deed::SectionKey},  {'G', Deed::SeeThrough},
        {'A', Deed::JointOnly},   {'Z', Deed::Sizes},       {'F', Deed::Front},
        {'B', Deed::BackView},    {'D', Deed::Side},        {'P', Deed::Plan},
        {'K', Deed::Corner},      {'T', Deed::Ground},      {'I', Deed::Unit},
        {kF1, Deed::Help},        {'H', Deed::Hide},        {'J', Deed::ShowAll},
        {'[', Deed::TextSmaller}, {']', Deed::TextLarger},  {kEscape, Deed::Escape}};
    for (const auto& [bind, deed] : bound)
      if (key == bind) out.push_back(Did{deed});
  }
  // The window toolkit's key numbers (GLFW 3.3).
  static constexpr int kSpace = 32, kEscape = 256, kEnter = 257, kTab = 258, kBackspace = 259, kRight = 262,
                       kLeft = 263, kDown = 264, kUp = 265, kPageUp = 266, kPageDown = 267, kHome = 268,
                       kEnd = 269, kF1 = 290, kKeypadSubtract = 333, kKeypadAdd = 334;

  /// In the picture: turn, slide, nearer, choose.
  void pointer(const Screen& screen, std::vector<Input>& out) {
    ImGuiIO& io = ImGui::GetIO();
    const Vec2 at = controls_.pointer();
    const bool free =
        !controls_.pointerTaken() && !overCard(screen, at) && !screen.strip.has(at) && !state_.help;
    const Vec2 moved{io.MouseDelta.x * io.DisplayFramebufferScale.x,
                     io.MouseDelta.y * io.DisplayFramebufferScale.y};
    if (free && (ImGui::IsMouseClicked(0) || ImGui::IsMouseClicked(1))) {
      dragging_ = ImGui::IsMouseClicked(0) ? 1 : 2;
      draggedPx_ = 0;
    }
    if (dragging_ != 0 && (moved.x != 0 || moved.y != 0)) {
      draggedPx_ += std::hypot(moved.x, moved.y);
      const double share = 1 / screen.height;
      if (draggedPx_ > 4 && dragging_ == 1)
        out.push_back(Turned{-moved.x * share * kTurnDeg, moved.y * share * kTurnDeg});
      if (dragging_ == 2) out.push_back(Slid{moved * share});
    }
    if (dragging_ != 0 && !io.MouseDown[dragging_ - 1]) {
      if (dragging_ == 1 && draggedPx_ <= 4) out.push_back(Clicked{picture_.pieceAt(at), twice()});
      dragging_ = 0;
    }
    if (free && io.MouseWheel != 0)
      out.push_back(CameNearer{std::pow(kWheelTimes, io.MouseWheel),
                               (at - Vec2{screen.width / 2, screen.height / 2}) * (1 / screen.height)});
    const bool looks = free && dragging_ == 0 && !moves(state_) && (moved.x != 0 || moved.y != 0);
    if (looks) out.push_back(Pointed{picture_.pieceAt(at)});
    if (!free && state_.hover) out.push_back(Pointed{});
  }
  bool overCard(const Screen& screen, Vec2 at) const {
    Rect card = screen.card;
    card.height = std::max(card.height, screen.looks.y - card.y);
    return card.width > 0 && card.has(at);
  }
  bool twice() {
    constexpr double kTwiceS = 0.35;
    const double time = now();
    return time - std::exchange(clickedS_, time) < kTwiceS;
  }

  const WindowStart& start_;
  gl::Window window_;
  Toolkit toolkit_;
  Picture picture_;
  Controls controls_;
  Worker worker_;
  State state_;
  std::shared_ptr<const Model> model_;
  std::string path_;
  std::filesystem::file_time_type changed_{};
  Clock::time_point began_ = Clock::now();
  double lastS_ = 0, lookedS_ = 0, text_ = 0, clickedS_ = -1, draggedPx_ = 0;
  std::vector<double> frameMs_;
  int frames_ = kFramesAfter, dragging_ = 0;
};

}  // namespace

std::optional<Diagnostic> runWindow(const WindowStart& start) {
  auto window = gl::Window::open("Dryfit", kFirstSize);
  if (!window) return window.faults().front();
  auto picture = Picture::create();
  if (!picture) return picture.faults().front();
  Running(std::move(window).value(), std::move(picture).value(), start).run();
  return {};
}

}  // namespace dryfit::ui
