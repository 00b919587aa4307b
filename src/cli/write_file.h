// Writes a file so that whoever looks sees the old one whole or the new one whole, never a part.
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "base/result.h"

namespace dryfit::cli {

/// Puts `bytes` at `path`: written beside it under a name of its own, put on the disk, then renamed. A
/// symbolic link stays and its target is replaced; permissions of an existing file stay; a device or pipe is
/// written straight into.
///
/// Fails: SystemFault with the path and the system's reason; nothing is left behind, the old file stays as it
/// was.
[[nodiscard]] std::optional<Diagnostic> writeFile(const std::string& path, std::string_view bytes);

/// Told when `out` is the very file that was read, by whatever name: it would be lost.
std::optional<Diagnostic> overwritesInput(const std::string& in, const std::string& out);

/// The whole of a file.
/// Fails: BadInput when there is no such file or it is a folder, SystemFault when it cannot be read.
Result<std::string> readFile(const std::string& path);

}  // namespace dryfit::cli
