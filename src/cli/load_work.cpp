#include "cli/load_work.h"

#include "cli/write_file.h"
#include "joint/joint_kind.h"
#include "settingout/read_work.h"

namespace dryfit::cli {

Result<CutWork> loadWork(const std::string& path) {
  const Result<std::string> text = readFile(path);
  if (!text) return text.faults();
  const std::vector<JointKind>& kinds = standardJoints();
  const Result<SettingOut> work = readWork(text.value(), path, keysOf(kinds));
  if (!work) return work.faults();
  CutCache cache;
  return cutWork(work.value(), kinds, cache);
}

}  // namespace dryfit::cli
