// Sizes of members as they are when the work is done; in a work file also what was given for them.
#include <fmt/format.h>

#include <cmath>

#include "base/tolerance.h"
#include "cli/explain_entries.h"

namespace dryfit::cli {

namespace {

constexpr const char* kByJoints = "what its joints ask for";

struct Field {
  const char* name;
  std::optional<double> Member::*given;
  const char* key;  ///< of a [[member]]
};
constexpr Field kFields[] = {{"length", &Member::lengthMm, "length"},
                             {"width", &Member::widthMm, "section"},
                             {"thickness", &Member::thicknessMm, "section"}};

Result<Draft> changed(const Draft& draft, size_t member, std::optional<double> Member::*field, double value) {
  Draft out = draft;
  out.work.members[member].*field = value;
  return out;
}

Entry entryOf(const std::string& key, double mm) {
  Entry entry;
  entry.told.key = key;
  entry.told.value = mm;
  entry.told.unit = "mm";
  entry.told.from = Size::From::Rule;
  return entry;
}

/// The key is that of a work file; a door set's members are set out from its own keys.
void giveWay(Entry& entry, const Draft& draft, size_t index, const Field& field) {
  const Member& member = draft.work.members[index];
  entry.told.from = Size::From::Given;
  entry.told.where = member.where;
  entry.told.rule.clear();
  entry.told.setBy = {fmt::format("member[{}].{}", index + 1, field.key)};
  const double other = *(member.*field.given) - std::get<double>(entry.told.value);  // horns that are cut off
  entry.change = [&draft, index, given = field.given, other](const DoorSetValue& value) {
    return changed(draft, index, given, std::get<double>(value) + other);
  };
}

void addFields(const Draft& draft, const CutWork& cut, size_t index, std::vector<Entry>& entries) {
  const Member& member = draft.work.members[index];
  const Vec3 size = sizeOf(cut.pieces[index].last().shell);
  for (int i = 0; i < 3; ++i) {
    const Field& field = kFields[i];
    Entry entry = entryOf(member.id + "." + field.name, size[i]);
    const auto given = member.*field.given;
    entry.told.rule = given ? "set out from the leaf's sizes" : kByJoints;
    if (!draft.set && given) {
      giveWay(entry, draft, index, field);
      if (std::abs(*given - size[i]) > tolerance::kSize) {
        entry.told.from = Size::From::Rule;
        entry.told.rule = "the length given, less its horns";
      }
    }
    entries.push_back(std::move(entry));
  }
}

void addShoulder(const Draft& draft, size_t index, std::vector<Entry>& entries) {
  const Member& member = draft.work.members[index];
  if (draft.set || !member.shoulderMm) return;
  Entry entry = entryOf(member.id + ".shoulder", *member.shoulderMm);
  giveWay(entry, draft, index, {"shoulder", &Member::shoulderMm, "shoulder"});
  entry.told.about = "between its shoulders";
  entries.push_back(std::move(entry));
}

void addHorns(const Draft& draft, size_t index, std::vector<Entry>& entries) {
  const Member& member = draft.work.members[index];
  if (draft.set) return;
  for (auto [name, horn] : {std::pair{"horn.low", &Member::hornLowMm}, {"horn.high", &Member::hornHighMm}}) {
    if (member.*horn <= 0) continue;
    Entry entry = entryOf(member.id + "." + name, member.*horn);
    entry.told.from = Size::From::Given;
    entry.told.where = member.where;
    entry.told.about = "cut off in the end";
    entry.told.setBy = {fmt::format("member[{}].horns", index + 1)};
    entry.change = [&draft, index, horn = horn](const DoorSetValue& value) -> Result<Draft> {
      Draft out = draft;
      out.work.members[index].*horn = std::get<double>(value);
      return out;
    };
    entries.push_back(std::move(entry));
  }
}

}  // namespace

std::vector<Entry> memberEntries(const Draft& draft, const CutWork& cut) {
  std::vector<Entry> entries;
  for (size_t i = 0; i < draft.work.members.size(); ++i) {
    addFields(draft, cut, i, entries);
    addShoulder(draft, i, entries);
    addHorns(draft, i, entries);
  }
  return entries;
}

}  // namespace dryfit::cli
