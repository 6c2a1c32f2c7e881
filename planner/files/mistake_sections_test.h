// The bad files of fixtures/mistakes, each with what must be said of it. DEVELOPERS.md has the
// format.
#pragma once
#include <map>
#include <string>
#include <vector>

namespace planner::files {

struct MistakeSection {
  std::string name;                           // a shop file's begins with "shop_"
  std::string text;                           // the bad file, byte for byte
  std::map<std::string, std::string> meshes;  // the mesh files beside it, byte for byte, by name
  std::string said;                           // the messages, as the program prints them
  std::string written;                        // all of the section above "--- said", as it is kept

  // The name that messages call the bad file by.
  std::string file() const { return name + ".toml"; }
  bool of_shop() const { return name.rfind("shop_", 0) == 0; }
};

struct MistakeFile {
  std::string path;
  std::string theme;  // what stands above the first section
  std::vector<MistakeSection> sections;
};

// All .txt files of the folder by name, their sections in their order. Throws std::exception where
// a file is not in the format.
std::vector<MistakeFile> read_mistakes(const std::string& folder);

// The file as it is kept, one empty line between sections. Reading it gives the same sections.
std::string to_text(const MistakeFile& file);

}  // namespace planner::files
