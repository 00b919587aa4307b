// Writes several files into one folder: all of them, or what was there before.
#pragma once

#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "base/result.h"

namespace dryfit::cli {

/// What would stop files from being written into `folder`, known before there is anything to write: it is no
/// folder, or neither it nor its parent is there. SystemFault.
std::optional<Diagnostic> folderFault(const std::string& folder);

struct NamedBytes {
  std::string name, bytes;
};

/// Makes the folder when it is missing (its parent must be there) and writes each file by writeFile(), in
/// order: what leads to the others last. Other files of the folder stay.
///
/// Fails: SystemFault as folderFault() and writeFile(); what this call has newly made is taken away again,
/// files written over stay new.
[[nodiscard]] std::optional<Diagnostic> writeFolder(const std::string& folder,
                                                    const std::vector<NamedBytes>& files);

}  // namespace dryfit::cli
