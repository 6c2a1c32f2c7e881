#include "tests/source_dir.h"

std::string source_dir() {
  return GLUEUP_SOURCE_DIR;
}
