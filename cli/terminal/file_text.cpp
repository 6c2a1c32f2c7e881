#include "cli/terminal/file_text.h"

#include <cerrno>
#include <cstdio>
#include <cstdlib>
#include <cstring>
#include <fcntl.h>
#include <filesystem>
#include <sys/stat.h>
#include <unistd.h>

namespace cli::terminal {
namespace {

FileText read_all(std::FILE* in) {
  FileText result;
  char block[1 << 16];
  std::size_t n = 0;
  while ((n = std::fread(block, 1, sizeof block, in)) > 0) {
    result.text.append(block, n);
    if (result.text.size() > static_cast<std::size_t>(kLargestFile)) {
      return {"", "larger than 64 MB; a job file is a page or two of text"};
    }
  }
  if (std::ferror(in) != 0) {
    return {"", std::string("can't be read: ") + std::strerror(errno)};
  }
  return result;
}

}  // namespace

FileText read_file(const std::string& path) {
  if (path == "-") {
    return read_all(stdin);
  }
  struct stat status {};
  if (stat(path.c_str(), &status) != 0) {
    return {"", errno == ENOENT ? "no such file"
                                : std::string("can't be read: ") + std::strerror(errno)};
  }
  if (S_ISDIR(status.st_mode)) {
    return {"", "is a directory, not a file"};
  }
  std::FILE* in = std::fopen(path.c_str(), "rb");
  if (in == nullptr) {
    return {"", std::string("can't be opened: ") + std::strerror(errno)};
  }
  FileText result = read_all(in);
  std::fclose(in);
  return result;
}

namespace {

std::string cannot(const std::string& path, int why) {
  return path + ": can't be written: " + std::strerror(why);
}

// Writes and closes; what went wrong, or 0.
int write_all(int fd, const std::string& text) {
  int wrong = 0;
  for (std::size_t done = 0; done < text.size() && wrong == 0;) {
    const ssize_t n = write(fd, text.data() + done, text.size() - done);
    if (n >= 0) {
      done += static_cast<std::size_t>(n);
    } else if (errno != EINTR) {
      wrong = errno;
    }
  }
  // The disk may say only now that it is full; what can't be synced (a pipe) has nothing to lose.
  if (wrong == 0 && fsync(fd) != 0 && errno != EINVAL && errno != EROFS) {
    wrong = errno;
  }
  return close(fd) != 0 && wrong == 0 ? errno : wrong;
}

// A device or a pipe is written to as it is: it can't be replaced by a file.
std::string write_straight(const std::string& path, const std::string& text) {
  const int fd = open(path.c_str(), O_WRONLY);
  const int wrong = fd < 0 ? errno : write_all(fd, text);
  return wrong == 0 ? "" : cannot(path, wrong);
}

// What a link points at, be it there or not, so that the link stays. REQUIRES: no links in a ring,
// which stat() has seen.
std::filesystem::path behind_links(std::filesystem::path path) {
  std::error_code ignored;
  while (std::filesystem::is_symlink(path, ignored)) {
    path = path.parent_path() / std::filesystem::read_symlink(path, ignored);
  }
  return path;
}

}  // namespace

std::string write_file(const std::string& path, const std::string& text) {
  struct stat old {};
  const bool there = stat(path.c_str(), &old) == 0;
  if (!there && errno != ENOENT) {
    return cannot(path, errno);
  }
  if (there && S_ISDIR(old.st_mode)) {
    return cannot(path, EISDIR);
  }
  if (there && !S_ISREG(old.st_mode)) {
    return write_straight(path, text);
  }
  const std::filesystem::path target = behind_links(path);
  std::string temporary = target.string() + ".XXXXXX";
  const int fd = mkstemp(temporary.data());
  if (fd < 0) {
    return cannot(path, errno);
  }
  const mode_t mask = umask(0);
  umask(mask);
  const mode_t mode = there ? old.st_mode & 07777 : 0666 & ~mask;
  int wrong = fchmod(fd, mode) != 0 ? errno : 0;
  const int unwritten = write_all(fd, text);
  wrong = wrong == 0 ? unwritten : wrong;
  if (wrong == 0 && std::rename(temporary.c_str(), target.c_str()) != 0) {
    wrong = errno;
  }
  if (wrong != 0) {
    unlink(temporary.c_str());
    return cannot(path, wrong);
  }
  return {};
}

}  // namespace cli::terminal
