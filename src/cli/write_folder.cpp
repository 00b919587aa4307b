#include "cli/write_folder.h"

#include <cerrno>
#include <cstring>
#include <filesystem>

#include "cli/write_file.h"

namespace dryfit::cli {

namespace {

namespace fs = std::filesystem;

Diagnostic cannotWrite(const std::string& path, const std::string& why) {
  return {Fault::SystemFault, "", "cannot write " + path + ": " + why, "", {}};
}

fs::path parentOf(const fs::path& folder) {
  const fs::path bare = folder.has_filename() ? folder : folder.parent_path();  // "out/" is "out"
  return bare.has_parent_path() ? bare.parent_path() : fs::path(".");
}

/// Takes away what was made unless all went well.
class Undo {
 public:
  ~Undo() {
    std::error_code ignored;
    for (auto it = made_.rbegin(); it != made_.rend(); ++it) fs::remove(*it, ignored);
  }
  void made(const fs::path& path) { made_.push_back(path); }
  void keep() { made_.clear(); }

 private:
  std::vector<fs::path> made_;
};

}  // namespace

std::optional<Diagnostic> folderFault(const std::string& folder) {
  if (folder.empty()) return cannotWrite("a folder without a name", std::strerror(ENOENT));
  std::error_code error;
  const fs::file_status status = fs::status(folder, error);
  if (fs::is_directory(status)) return {};
  if (fs::exists(status)) return cannotWrite(folder, std::strerror(ENOTDIR));
  if (status.type() != fs::file_type::not_found) return cannotWrite(folder, error.message());
  const fs::path parent = parentOf(folder);
  if (!fs::is_directory(parent, error)) return cannotWrite(folder, std::strerror(ENOENT));
  return {};
}

std::optional<Diagnostic> writeFolder(const std::string& folder, const std::vector<NamedBytes>& files) {
  if (auto fault = folderFault(folder)) return fault;
  Undo undo;
  std::error_code error;
  if (fs::create_directory(folder, error)) undo.made(folder);
  if (error) return cannotWrite(folder, error.message());
  for (const NamedBytes& file : files) {
    const fs::path path = fs::path(folder) / file.name;
    const bool was = fs::exists(fs::symlink_status(path, error));
    if (auto fault = writeFile(path.string(), file.bytes)) return fault;
    if (!was) undo.made(path);
  }
  undo.keep();
  return {};
}

}  // namespace dryfit::cli
