#include "planner/files/mistake_sections_test.h"

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <stdexcept>

namespace planner::files {
namespace {

const std::string kSection = "=== ";
const std::string kPart = "--- ";
const std::string kSaid = "--- said\n";
const std::string kEscaped = " (escaped)";

bool begins(const std::string& line, const std::string& mark) {
  return line.rfind(mark, 0) == 0;
}

// A line that begins with a mark, and the lines under it; the first block of a file has no mark.
struct Block {
  std::string mark;
  std::string lines;

  bool escaped() const { return mark.find(kEscaped) != std::string::npos; }

  // Both marks are of one length.
  std::string name() const {
    const std::size_t end = escaped() ? mark.find(kEscaped) : mark.find('\n');
    return mark.substr(kSection.size(), end - kSection.size());
  }
};

std::vector<Block> blocks_of(const std::string& path) {
  std::vector<Block> blocks(1);
  std::ifstream file(path, std::ios::binary);
  for (std::string line; std::getline(file, line);) {
    line += '\n';
    if (begins(line, kSection) || begins(line, kPart)) {
      blocks.push_back({line, ""});
    } else {
      blocks.back().lines += line;
    }
  }
  return blocks;
}

// \n, \\ and \xHH stand for one byte each; the line ends of the block for none.
std::string unescaped(const std::string& lines) {
  std::string bytes;
  for (std::size_t i = 0; i < lines.size(); ++i) {
    if (lines[i] == '\n') {
      continue;
    }
    if (lines[i] != '\\') {
      bytes += lines[i];
      continue;
    }
    const char kind = lines.at(++i);
    if (kind == 'x') {
      bytes += static_cast<char>(std::stoi(lines.substr(i + 1, 2), nullptr, 16));
      i += 2;
    } else {
      bytes += kind == 'n' ? '\n' : kind;
    }
  }
  return bytes;
}

std::string bytes_of(const Block& block) {
  return block.escaped() ? unescaped(block.lines) : block.lines;
}

// Empty lines under the messages are for the eye.
std::string without_empty_end(std::string lines) {
  while (lines.size() > 1 && lines.compare(lines.size() - 2, 2, "\n\n") == 0) {
    lines.pop_back();
  }
  return lines;
}

MistakeFile read_file(const std::string& path) {
  const std::vector<Block> blocks = blocks_of(path);
  MistakeFile file{path, blocks.front().lines, {}};
  for (std::size_t i = 1; i < blocks.size(); ++i) {
    const Block& block = blocks[i];
    if (begins(block.mark, kSection)) {
      file.sections.push_back({block.name(), bytes_of(block), {}, "", ""});
    } else if (file.sections.empty()) {
      throw std::runtime_error(path + ": a " + kPart + "line above all sections");
    } else if (block.mark == kSaid) {
      file.sections.back().said = without_empty_end(block.lines);
      continue;
    } else {
      file.sections.back().meshes[block.name()] = bytes_of(block);
    }
    file.sections.back().written += block.mark + block.lines;
  }
  return file;
}

}  // namespace

std::vector<MistakeFile> read_mistakes(const std::string& folder) {
  std::vector<MistakeFile> files;
  for (const auto& entry : std::filesystem::directory_iterator(folder)) {
    if (entry.path().extension() == ".txt") {
      files.push_back(read_file(entry.path().string()));
    }
  }
  std::sort(files.begin(), files.end(),
            [](const MistakeFile& a, const MistakeFile& b) { return a.path < b.path; });
  return files;
}

std::string to_text(const MistakeFile& file) {
  std::string text = file.theme;
  for (const MistakeSection& section : file.sections) {
    text += section.written + kSaid + section.said;
    text += &section == &file.sections.back() ? "" : "\n";
  }
  return text;
}

}  // namespace planner::files
