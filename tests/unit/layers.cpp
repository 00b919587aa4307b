#include "unit/layers.h"

#include <filesystem>
#include <fstream>
#include <iterator>
#include <regex>
#include <set>
#include <sstream>

namespace dryfit::layers {

namespace {

// Folder of geometry -> folders of geometry it may include besides itself.
const std::map<std::string, std::set<std::string>>& allowed() {
  static const std::map<std::string, std::set<std::string>> table = {
      {"base", {}},
      {"solid", {"base"}},
      {"piece", {"base", "solid"}},
      {"settingout", {"base", "timber"}},  // the reader refuses a species that is not in the table
      {"timber", {"base"}},
      {"joint", {"base", "solid", "piece", "settingout", "timber"}},
      {"doorset", {"base", "settingout", "timber"}},
      {"fit", {"base"}},
      {"order", {"base", "fit"}},  // the planner asks fit what blocks what; neither knows a kernel or a door
      {"proof", {"base", "solid", "piece", "joint", "order"}},  // of order the plain order alone: below
      {"exchange", {"base", "solid", "piece"}},
      {"check", {"base", "solid", "piece", "settingout", "timber", "joint", "doorset", "fit", "order"}},
      {"card", {"base", "solid", "piece", "settingout", "joint"}},
      {"drawing", {"base", "solid", "piece", "settingout", "joint"}},
  };
  return table;
}

bool startsWith(const std::string& text, const std::string& head) {
  return text.rfind(head, 0) == 0;
}
bool endsWith(const std::string& text, const std::string& tail) {
  return text.size() >= tail.size() && text.compare(text.size() - tail.size(), tail.size(), tail) == 0;
}

std::string folderOf(const std::string& path) {
  const auto slash = path.rfind('/');
  return slash == std::string::npos ? "" : path.substr(0, slash);
}

/// The folder after `head`; "." for a file right in it, empty for one elsewhere.
std::string folderAfter(const std::string& head, const std::string& path) {
  if (!startsWith(path, head)) return "";
  const auto end = path.find('/', head.size());
  return end == std::string::npos ? "." : path.substr(head.size(), end - head.size());
}
/// "geometry/solid/detail/body.h" -> "solid"; empty outside geometry.
std::string moduleOf(const std::string& path) {
  return folderAfter("geometry/", path);
}
/// "src/gl/renderer.h" -> "gl"; empty outside src.
std::string sourceModuleOf(const std::string& path) {
  return folderAfter("src/", path);
}

/// The project's file a quoted include means: below geometry, src, tests or the includer's own folder.
std::string resolved(const Sources& sources, const std::string& from, const std::string& name) {
  for (const std::string& base :
       {std::string("geometry"), std::string("src"), std::string("tests"), folderOf(from)}) {
    const auto path = std::filesystem::path(base + "/" + name).lexically_normal().string();
    if (sources.count(path)) return path;
  }
  return "";
}

bool isKernel(const std::string& name) {
  return endsWith(name, ".hxx") || endsWith(name, ".lxx");
}
bool mayUseKernel(const std::string& path) {
  for (const char* home : {"geometry/solid/detail/", "geometry/exchange/detail/", "geometry/drawing/detail/"})
    if (startsWith(path, home)) return true;
  return startsWith(path, "tests/") && path.find("_kernel") != std::string::npos;
}
bool isGl(const std::string& name) {
  static const std::regex gl("^(GL|GLES[23]?|EGL|KHR|epoxy|glad|GLFW)/|^glad\\.|^epoxy\\.");
  return std::regex_search(name, gl);
}
bool isImGui(const std::string& name) {
  static const std::regex imgui("(^|/)(imgui|imconfig|imstb)[a-z_]*\\.h$");
  return std::regex_search(name, imgui);
}
/// The standard library's headers have neither a folder nor an ending.
bool isStandard(const Include& include) {
  return !include.quoted && include.name.find_first_of("./") == std::string::npos;
}

/// What is wrong with `path` including another library's header; empty when nothing is.
std::string outsideFault(const std::string& path, const Include& include) {
  const std::string module = moduleOf(path);
  if (isKernel(include.name) && !mayUseKernel(path)) return "kernel headers stay in detail folders";
  if (isGl(include.name) && !startsWith(path, "src/gl/")) return "OpenGL stays in src/gl";
  if (isImGui(include.name) && !startsWith(path, "src/ui/")) return "ImGui stays in src/ui";
  if (module == "base" && !isStandard(include)) return "base uses the standard library only";
  if (!module.empty() && (startsWith(include.name, "CLI/") || startsWith(include.name, "nlohmann/")))
    return "the command line and JSON belong to src";
  return "";
}

// Folder of src -> folders of src it may include besides itself.
const std::map<std::string, std::set<std::string>>& allowedInSources() {
  static const std::map<std::string, std::set<std::string>> table = {
      {"scene", {}},  // plain data: no graphics library, no command line
      {"gl", {"scene"}},
      {"paper", {"scene"}},
      {"ui", {"scene", "gl"}},
  };
  return table;
}

/// The same within src; folders that the table does not name may use all.
std::string insideSourcesFault(const std::string& path, const std::string& target) {
  const auto row = allowedInSources().find(sourceModuleOf(path));
  const std::string other = sourceModuleOf(target);
  if (row == allowedInSources().end() || other.empty() || other == row->first || row->second.count(other))
    return "";
  return "src/" + row->first + " may not use src/" + other;
}

/// What is wrong with `path` including the project's own `target`.
std::string insideFault(const std::string& path, const std::string& target) {
  const std::string module = moduleOf(path), other = moduleOf(target);
  if (startsWith(target, "tests/") && !startsWith(path, "tests/")) return "sources do not include from tests";
  if (startsWith(path, "src/")) return insideSourcesFault(path, target);
  if (module.empty()) return "";
  if (startsWith(target, "src/")) return "geometry does not include from src";
  const auto row = allowed().find(module);
  if (row == allowed().end()) return "the layers do not name geometry/" + module;
  if (other != module && !row->second.count(other))
    return "geometry/" + module + " may not use geometry/" + other;
  if (module == "proof" && other == "order" && target != "geometry/order/order.h")
    return "the proof shares no code with the planner";
  return "";
}

using Graph = std::map<std::string, std::vector<std::string>>;

/// Depth first; `trail` is the way here, `done` is known to be free of cycles.
void findCycles(const Graph& graph, const std::string& at, std::vector<std::string>& trail,
                std::set<std::string>& done, std::vector<std::string>& out) {
  for (size_t i = 0; i < trail.size(); ++i) {
    if (trail[i] != at) continue;
    std::string text = "include cycle: ";
    for (; i < trail.size(); ++i) text += trail[i] + " -> ";
    out.push_back(text + at);
    return;
  }
  if (done.count(at)) return;
  trail.push_back(at);
  if (const auto edges = graph.find(at); edges != graph.end())
    for (const std::string& next : edges->second) findCycles(graph, next, trail, done, out);
  trail.pop_back();
  done.insert(at);
}

std::string slurp(const std::filesystem::path& path) {
  std::ifstream in(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(in), {}};
}

}  // namespace

std::vector<Include> includesOf(const std::string& text) {
  static const std::regex line("^[ \\t]*#[ \\t]*include[ \\t]*([<\"])([^>\"]+)[>\"]");
  std::vector<Include> out;
  std::istringstream in(text);
  std::string one;
  for (int number = 1; std::getline(in, one); ++number) {
    std::smatch found;
    if (std::regex_search(one, found, line)) out.push_back({found[2], found[1] == "\"", number});
  }
  return out;
}

std::vector<std::string> violations(const Sources& sources) {
  std::vector<std::string> out;
  Graph graph;
  for (const auto& [path, text] : sources) {
    for (const Include& include : includesOf(text)) {
      const std::string target = include.quoted ? resolved(sources, path, include.name) : "";
      std::string fault;
      if (!target.empty()) {
        graph[path].push_back(target);
        fault = insideFault(path, target);
      } else {
        fault = outsideFault(path, include);
        if (fault.empty() && include.quoted) fault = "no such file in the project; other libraries take <>";
      }
      if (!fault.empty())
        out.push_back(path + ":" + std::to_string(include.line) + ": includes " + include.name + ": " +
                      fault);
    }
  }
  std::set<std::string> done;
  std::vector<std::string> trail;
  for (const auto& [path, edges] : graph) findCycles(graph, path, trail, done, out);
  return out;
}

std::vector<std::string> strangersAtTop(const std::vector<std::string>& names) {
  static const std::set<std::string> known = {"CMakeLists.txt", "README.md", "DEVELOPERS.md",
                                              "LICENSE",        "src",       "geometry",
                                              "shaders",        "assets",    "tests"};
  std::vector<std::string> out;
  for (const std::string& name : names) {
    const bool ignored = startsWith(name, "build") || endsWith(name, ".tmp");  // .gitignore
    if (!known.count(name) && name.front() != '.' && !ignored) out.push_back(name);
  }
  return out;
}

Sources readSources(const std::string& root) {
  Sources out;
  for (const char* top : {"geometry", "src", "tests"})
    for (const auto& entry : std::filesystem::recursive_directory_iterator(root + "/" + top)) {
      const auto& path = entry.path();
      if (path.extension() == ".h" || path.extension() == ".cpp")
        out[path.lexically_relative(root).generic_string()] = slurp(path);
    }
  return out;
}

std::vector<std::string> namesAtTop(const std::string& root) {
  std::vector<std::string> out;
  for (const auto& entry : std::filesystem::directory_iterator(root)) out.push_back(entry.path().filename());
  return out;
}

}  // namespace dryfit::layers
