#include "cli/file_text.h"

#include <cerrno>
#include <cstdio>
#include <cstdlib>
#include <cstring>
#include <filesystem>
#include <sys/stat.h>
#include <unistd.h>

namespace cli {
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

std::string write_file(const std::string& path, const std::string& text) {
  // A link is followed, so that what it points at is replaced and the link stays.
  std::error_code ignored;
  const std::filesystem::path target = std::filesystem::is_symlink(path, ignored)
                                           ? std::filesystem::weakly_canonical(path, ignored)
                                           : std::filesystem::path(path);
  std::string temporary = target.string() + ".XXXXXX";
  const int fd = mkstemp(temporary.data());
  if (fd < 0) {
    return path + ": can't be written: " + std::strerror(errno);
  }
  const auto fail = [&](int why) {
    unlink(temporary.c_str());
    return path + ": can't be written: " + std::strerror(why);
  };
  std::FILE* out = fdopen(fd, "wb");
  const bool written =
      std::fwrite(text.data(), 1, text.size(), out) == text.size() && std::fflush(out) == 0;
  const int write_error = errno;
  if (std::fclose(out) != 0 || !written) {
    return fail(write_error);
  }
  const mode_t mask = umask(0);
  umask(mask);
  if (chmod(temporary.c_str(), 0666 & ~mask) != 0 ||
      std::rename(temporary.c_str(), target.c_str()) != 0) {
    return fail(errno);
  }
  return {};
}

}  // namespace cli
