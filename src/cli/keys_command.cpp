#include "base/text.h"
#include "cli/command.h"
#include "cli/help.h"
#include "doorset/door_set_keys.h"
#include "joint/joint_kind.h"

namespace dryfit::cli {

namespace {

std::string heading(const std::string& path) {
  std::string out;
  for (const char c : path)
    if (c != '[' && c != ']') out += c;
  return out;
}

std::string paragraph(const DoorSetKey& key) {
  if (key.type == DoorSetKeyType::Table) return "[" + key.path + "]\n" + wrapped(key.about, 4);
  if (key.type == DoorSetKeyType::Tables) return "[[" + heading(key.path) + "]]\n" + wrapped(key.about, 4);
  std::string out = key.path + "\n" + wrapped(key.about, 4);
  const std::string range = rangeOf(key);
  const bool length = key.type == DoorSetKeyType::Length;
  out += wrapped("takes " + (length ? "a length: " : unitOf(key) + (range.empty() ? "" : ": ")) + range, 4);
  std::string standard = key.standard.empty() ? "" : "when left out: " + key.standard;
  if (!key.example.empty()) standard = "needed: " + key.example;
  if (!key.source.empty()) standard += " (" + key.source + ")";
  return standard.empty() ? out : out + wrapped(standard, 4);
}

Outcome run(const Arguments& arguments) {
  const std::vector<DoorSetKey> keys = doorSetKeys(keysOf(standardJoints()));
  const std::string asked = heading(arguments.file);
  std::vector<DoorSetKey> found;
  std::vector<std::string> names;
  for (const DoorSetKey& key : keys) {
    if (key.told) continue;
    const std::string name = heading(key.path);
    names.push_back(name);
    const bool below = name.rfind(asked + ".", 0) == 0;
    if (asked.empty() || name == asked || below) found.push_back(key);
  }
  if (found.empty()) {
    const auto nearest = nearestName(asked, names);
    return failed({Diagnostic{Fault::BadInput,
                              "",
                              "there is no key " + dryfit::quoted(arguments.file),
                              nearest ? "did you mean " + *nearest + "?" : "dryfit keys lists them all",
                              {}}});
  }
  if (arguments.markdown) return {doorSetKeysTable(found), 0, {}};
  std::string out;
  for (const DoorSetKey& key : found) out += (out.empty() ? "" : "\n") + paragraph(key);
  return {out, 0, {}};
}

}  // namespace

const Command& keysCommand() {
  static const Command command = {
      "keys",
      {"tell the keys of a door set file",
       {"Prints what may stand in a door set file: each key with what it takes, what holds when it is left "
        "out, "
        "and where that comes from. KEY picks out one key or all that begin with it."},
       {"A paragraph for each key."},
       "never",
       "$ dryfit keys leaf.gap\n"
       "leaf.gap\n"
       "    between leaf and lining, at the sides and above\n"
       "    takes a length: 0 to 20 mm\n"
       "    when left out: 2 (metric doorset practice, from memory)\n"},
      {{"--markdown", "", "print them as one Markdown table", false, &Arguments::markdown, nullptr}},
      run,
      "KEY",
      false};
  return command;
}

}  // namespace dryfit::cli
