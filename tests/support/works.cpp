#include "support/works.h"

#include <algorithm>
#include <filesystem>
#include <sstream>
#include <stdexcept>

#include "doorset/read_door_set.h"
#include "settingout/read_work.h"
#include "unit/temporary_folder.h"

namespace dryfit::tests {

namespace {

Result<CutWork> cutAny(const std::string& text, const std::string& name,
                       const std::vector<JointKind>& kinds) {
  const auto work = readWork(text, name, keysOf(kinds));
  if (!work) return work.faults();
  CutCache cache;
  return cutWork(work.value(), kinds, cache);
}

Result<CutWork> cutSet(const std::string& text, const std::string& name = "test.toml") {
  const auto set = readDoorSet(text, name, keysOf(standardJoints()));
  if (!set) return set.faults();
  const auto work = setOutDoorSet(set.value());
  if (!work) return work.faults();
  CutCache cache;
  return cutWork(work.value(), standardJoints(), cache);
}

std::vector<std::string> textsOf(const Result<CutWork>& made) {
  std::vector<std::string> all;
  if (!made)
    for (const Diagnostic& d : made.faults()) all.push_back(toText(d));
  return all;
}

CutWork orStop(Result<CutWork> made) {
  if (made) return std::move(made).value();
  std::string all;
  for (const Diagnostic& d : made.faults()) all += toText(d) + "\n";
  throw std::runtime_error(all);
}

std::vector<std::string> filesIn(const std::string& folder) {
  std::vector<std::string> paths;
  for (const auto& entry : std::filesystem::directory_iterator(DRYFIT_ROOT "/assets/" + folder))
    if (entry.path().extension() == ".toml") paths.push_back(entry.path().string());
  std::sort(paths.begin(), paths.end());
  return paths;
}

}  // namespace

std::vector<std::string> shippedWorks() {
  return filesIn("works");
}
std::vector<std::string> shippedDoorSets() {
  return filesIn("doorsets");
}

CutWork cutFile(const std::string& path, const std::vector<JointKind>& kinds) {
  const std::string text = contentOf(path);
  return orStop(isDoorSet(text) ? cutSet(withoutDoorway(text), path) : cutAny(text, path, kinds));
}

CutWork cutWholeSet(const std::string& path) {
  const std::string text = contentOf(path);
  return orStop(isDoorSet(text) ? cutSet(text, path) : cutAny(text, path, standardJoints()));
}

CutWork shippedWork(const std::string& name) {
  return cutFile(DRYFIT_ROOT "/assets/works/" + name + ".toml");
}

CutWork cutText(const std::string& text, const std::vector<JointKind>& kinds) {
  return orStop(cutAny(text, "test.toml", kinds));
}

std::vector<std::string> faultsOfText(const std::string& text, const std::vector<JointKind>& kinds) {
  return textsOf(cutAny(text, "test.toml", kinds));
}

std::string leafAlone(const std::string& text) {
  const bool alone = isDoorSet(text) && text.find("[wall]") == std::string::npos;
  return alone ? text + "[wall]\nkind = \"none\"\n" : text;
}

std::string withoutDoorway(const std::string& text) {
  std::istringstream in(text);
  std::string kept;
  bool keep = true;
  for (std::string line; std::getline(in, line);) {
    const size_t table = line.find_first_not_of('[');
    if (table != 0 && table != std::string::npos)
      keep = line.compare(table, 4, "leaf") == 0 || line.compare(table, 6, "timber") == 0;
    if (keep) kept += line + "\n";
  }
  return leafAlone(kept);
}

CutWork cutLeafAlone(const std::string& text) {
  return orStop(cutSet(leafAlone(text)));
}

std::vector<std::string> faultsOfLeafAlone(const std::string& text) {
  return textsOf(cutSet(leafAlone(text)));
}

CutWork cutDoorSet(const std::string& text) {
  return orStop(cutSet(text));
}

std::vector<std::string> faultsOfDoorSet(const std::string& text) {
  return textsOf(cutSet(text));
}

int pieceOf(const CutWork& work, const std::string& id) {
  for (size_t i = 0; i < work.pieces.size(); ++i)
    if (work.pieces[i].id == id) return static_cast<int>(i);
  throw std::runtime_error("no piece " + id);
}

std::vector<int> lastStates(const Assembly& assembly) {
  std::vector<int> states;
  for (const Body& b : assembly.bodies) states.push_back(static_cast<int>(b.states.size()) - 1);
  return states;
}

std::vector<int> statesBefore(const Assembly& assembly, const std::string& keyPrefix) {
  std::vector<int> states = lastStates(assembly);
  for (const Operation& o : assembly.operations)
    if (o.key.rfind(keyPrefix, 0) == 0)
      for (const StateChange& c : o.changes) states[static_cast<size_t>(c.body)] = c.from;
  return states;
}

std::string bevelledLeaf() {
  return "title = \"Bevelled\"\n[leaf]\nwidth = 500\nheight = 700\nclosing_bevel = 3\n"
         "[[leaf.rail]]\nname = \"top\"\n[[leaf.rail]]\nname = \"bottom\"\n";
}

std::vector<int> firstStates(const Assembly& assembly) {
  return std::vector<int>(assembly.bodies.size(), 0);
}

}  // namespace dryfit::tests
