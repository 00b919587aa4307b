#include "cli/load_work.h"

#include "cli/write_file.h"
#include "doorset/read_door_set.h"
#include "joint/joint_kind.h"
#include "settingout/read_work.h"

namespace dryfit::cli {

namespace {
Result<SettingOut> setOut(const std::string& text, const std::string& path,
                          const std::vector<JointKind>& kinds) {
  if (!isDoorSet(text)) return readWork(text, path, keysOf(kinds));
  const Result<DoorSetSpec> set = readDoorSet(text, path, keysOf(kinds));
  if (!set) return set.faults();
  return setOutDoorSet(set.value());
}
}  // namespace

Result<CutWork> loadWork(const std::string& path) {
  const Result<std::string> text = readFile(path);
  if (!text) return text.faults();
  const std::vector<JointKind>& kinds = standardJoints();
  const Result<SettingOut> work = setOut(text.value(), path, kinds);
  if (!work) return work.faults();
  CutCache cache;
  return cutWork(work.value(), kinds, cache);
}

}  // namespace dryfit::cli
