// Files in and out of the program, with every failure told in words.
#pragma once
#include <string>

namespace cli::terminal {

// The whole file, or standard input for "-". `error` is empty on success, else says what is wrong:
// missing, a directory, unreadable, larger than `kLargestFile`.
struct FileText {
  std::string text;
  std::string error;
};
inline constexpr long kLargestFile = 64L << 20;
FileText read_file(const std::string& path);

// Writes to a temporary file beside the target and renames it, so that the target is the old file
// or the new one and never half of it. A link stays a link, an old file's permissions stay; devices
// and pipes are written to directly. Returns what went wrong, or nothing.
std::string write_file(const std::string& path, const std::string& text);

}  // namespace cli::terminal
