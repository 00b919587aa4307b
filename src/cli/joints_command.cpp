#include <fmt/format.h>

#include "base/text.h"
#include "cli/command.h"
#include "cli/help.h"
#include "cli/table.h"
#include "joint/joint_kind.h"

namespace dryfit::cli {

namespace {

std::string listed(const std::vector<std::string>& words) {
  std::string out;
  for (const std::string& w : words) out += (out.empty() ? "\"" : ", \"") + w + "\"";
  return out;
}

/// What may stand behind the key.
std::string allowed(const KeySpec& key) {
  switch (key.type) {
    case KeyType::Length:
      return fmt::format("a length, {} to {} mm", figure(key.least), figure(key.most));
    case KeyType::Number:
      return fmt::format("a number, {} to {}", figure(key.least), figure(key.most));
    case KeyType::Whole:
      return fmt::format("a whole number, {} to {}", figure(key.least), figure(key.most));
    case KeyType::Flag:
      return "true or false";
    case KeyType::Word:
      return listed(key.words);
    case KeyType::Slope:
      return "a slope, as \"1:6\"";
    case KeyType::Member:
      return "a member's id";
    case KeyType::Members:
      return "a list of members' ids";
    case KeyType::Species:
      return "a species of the timber table";
  }
  return "";
}

std::string page(const KindSpec& kind) {
  std::string out = kind.name + "\n" + wrapped(kind.about, 4) + "\n";
  for (const KeySpec& key : kind.keys) {
    out += "    " + key.name + " = " + allowed(key) + "\n";
    std::string text = key.about;
    if (key.needed) text += std::string(text.empty() ? "" : "; ") + "needed";
    if (!key.standard.empty())
      text += std::string(text.empty() ? "" : "; ") + "when left out: " + key.standard;
    if (!key.source.empty()) text += " (" + key.source + ")";
    out += wrapped(text, 8);
  }
  return out;
}

Outcome run(const Arguments& arguments) {
  const auto kinds = keysOf(standardJoints());
  std::vector<std::string> names;
  std::string all;
  for (const KindSpec& kind : kinds) {
    if (arguments.file == kind.name) return {page(kind), 0, {}};
    names.push_back(kind.name);
    all += (all.empty() ? "" : "\n") + page(kind);
  }
  if (arguments.file.empty()) return {all, 0, {}};
  const auto nearest = nearestName(arguments.file, names);
  return failed(
      {Diagnostic{Fault::BadInput,
                  "",
                  "there is no kind of joint " + dryfit::quoted(arguments.file),
                  (nearest ? "did you mean " + *nearest + "? " : "") + std::string("kinds: ") + listed(names),
                  {}}});
}

}  // namespace

const Command& jointsCommand() {
  static const Command command = {
      "joints",
      {"tell the kinds of joint and their keys",
       {"Prints what may stand in a [[joint]] of a work file: each kind with its keys, what they take, what "
        "holds when they are left out, and where that figure comes from."},
       {"A paragraph for each kind, or for the one named."},
       "never",
       "$ dryfit joints dovetailed-notch\n"
       "dovetailed-notch\n"
       "    A backing's dovetailed end in a notch of a ground's inner edge.\n"
       "\n"
       "    dovetail = a member's id\n"
       "        the dovetailed member: a backing; needed\n"
       "    notch = a member's id\n"
       "        the notched member: a ground; needed\n"
       "    slope = a slope, as \"1:6\"\n"
       "        of the dovetail's sides; when left out: 1:6 (Fairham: 1:8, never more\n"
       "        acute than 1:6)\n"},
      {},
      run,
      "KIND",
      false};
  return command;
}

}  // namespace dryfit::cli
