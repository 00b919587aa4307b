#include "cli/write_file.h"

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>
#include <cstdio>
#include <cstring>
#include <filesystem>
#include <random>
#include <utility>

namespace dryfit::cli {

namespace {

namespace fs = std::filesystem;

Diagnostic cannotWrite(const std::string& path, int error) {
  return {Fault::SystemFault, "", "cannot write " + path + ": " + std::strerror(error), "", {}};
}

/// Closes on every way out.
class Descriptor {
 public:
  explicit Descriptor(int fd) : fd_(fd) {}
  Descriptor(const Descriptor&) = delete;
  Descriptor& operator=(const Descriptor&) = delete;
  ~Descriptor() {
    if (fd_ >= 0) ::close(fd_);
  }
  int get() const { return fd_; }
  bool ok() const { return fd_ >= 0; }
  /// Some systems tell of a full disk only here.
  int close() { return ::close(std::exchange(fd_, -1)); }

 private:
  int fd_;
};

/// 0 or an errno.
int writeAll(int fd, std::string_view bytes) {
  while (!bytes.empty()) {
    const ssize_t count = ::write(fd, bytes.data(), bytes.size());
    if (count < 0 && errno != EINTR) return errno;
    if (count > 0) bytes.remove_prefix(static_cast<size_t>(count));
  }
  return 0;
}

/// The file at the end of a chain of symbolic links; it need not exist. Sets `error` when the chain has no
/// end.
fs::path endOfLinks(fs::path path, int& error) {
  constexpr int kMostLinks = 40;  // as the kernel's own limit
  for (int i = 0; i < kMostLinks; ++i) {
    std::error_code ignored;
    if (!fs::is_symlink(fs::symlink_status(path, ignored))) return path;
    const fs::path target = fs::read_symlink(path, ignored);
    path = target.is_absolute() ? target : path.parent_path() / target;
  }
  error = ELOOP;
  return path;
}

/// A new empty file in `folder` that nobody else has.
fs::path newBeside(const fs::path& folder, int& fd, int& error) {
  std::random_device random;
  for (int tries = 0; tries < 100; ++tries) {
    char name[40];
    std::snprintf(name, sizeof name, ".dryfit-%08x%08x.tmp", random(), static_cast<unsigned>(::getpid()));
    fs::path path = folder / name;
    fd = ::open(path.c_str(), O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, 0666);
    if (fd >= 0) return path;
    if (errno != EEXIST) break;
  }
  error = errno;
  return {};
}

/// A rename is on the disk only once its folder is. Not every file system can; the file itself is safe
/// already.
void syncFolder(const fs::path& folder) {
  const Descriptor fd(::open(folder.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC));
  if (fd.ok()) ::fsync(fd.get());
}

int replaceWhole(const fs::path& target, const struct stat* old, std::string_view bytes) {
  const fs::path folder = target.has_parent_path() ? target.parent_path() : fs::path(".");
  int fd = -1, error = 0;
  const fs::path beside = newBeside(folder, fd, error);
  if (error) return error;
  Descriptor file(fd);
  if (old) {
    // Root writing for someone else leaves the file theirs; others may not give files away, which is no
    // fault.
    if (::fchown(fd, old->st_uid, old->st_gid) != 0) error = 0;
    if (::fchmod(fd, old->st_mode & 07777) != 0) error = errno;
  }
  if (!error) error = writeAll(fd, bytes);
  if (!error && ::fsync(fd) != 0) error = errno;
  if (file.close() != 0 && !error) error = errno;
  if (!error && ::rename(beside.c_str(), target.c_str()) != 0) error = errno;
  if (error)
    ::unlink(beside.c_str());
  else
    syncFolder(folder);
  return error;
}

int writeStraight(const fs::path& target, std::string_view bytes) {
  Descriptor file(::open(target.c_str(), O_WRONLY | O_CLOEXEC));
  if (!file.ok()) return errno;
  const int error = writeAll(file.get(), bytes);
  if (file.close() != 0 && !error) return errno;
  return error;
}

int write(const fs::path& path, std::string_view bytes) {
  int error = 0;
  const fs::path target = endOfLinks(path, error);
  if (error) return error;
  if (!target.has_filename()) return EISDIR;
  struct stat old {};
  if (::stat(target.c_str(), &old) != 0)
    return errno == ENOENT ? replaceWhole(target, nullptr, bytes) : errno;
  if (S_ISDIR(old.st_mode)) return EISDIR;
  if (!S_ISREG(old.st_mode)) return writeStraight(target, bytes);
  // A rename would pass over a file made read-only on purpose.
  if (::access(target.c_str(), W_OK) != 0) return errno;
  return replaceWhole(target, &old, bytes);
}

}  // namespace

std::optional<Diagnostic> writeFile(const std::string& path, std::string_view bytes) {
  if (path.empty()) return cannotWrite("a file without a name", ENOENT);
  if (const int error = write(path, bytes)) return cannotWrite(path, error);
  return {};
}

std::optional<Diagnostic> overwritesInput(const std::string& in, const std::string& out) {
  std::error_code ignored;
  if (!fs::equivalent(in, out, ignored)) return {};
  return Diagnostic{Fault::BadInput, "", out + " is the work file itself", "-o takes another", {}};
}

Result<std::string> readFile(const std::string& path) {
  const auto fault = [&](int error) {
    const bool theirs = error == ENOENT || error == ENOTDIR || error == EISDIR || error == ENAMETOOLONG;
    return Diagnostic{theirs ? Fault::BadInput : Fault::SystemFault,
                      "",
                      "cannot read " + path + ": " + std::strerror(error),
                      "",
                      {}};
  };
  const Descriptor file(::open(path.c_str(), O_RDONLY | O_CLOEXEC));
  if (!file.ok()) return fault(errno);
  std::string text;
  char chunk[65536];
  for (;;) {
    const ssize_t count = ::read(file.get(), chunk, sizeof chunk);
    if (count == 0) return text;
    if (count < 0 && errno != EINTR) return fault(errno);
    if (count > 0) text.append(chunk, static_cast<size_t>(count));
  }
}

}  // namespace dryfit::cli
