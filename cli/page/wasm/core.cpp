// The functions that the page's script calls. A text comes as where it lies and its length, since it may
// hold any byte; an answer's texts lie still until the next question.
#include <array>
#include <cstdint>
#include <cstdlib>
#include <string>
#include <vector>

#include "cli/page/answer.h"

namespace {

cli::page::Answer answer;
std::vector<planner::files::MeshBytes> meshes;

const std::string& part(int which) {
  const std::array<const std::string*, 4> parts = {&answer.text, &answer.sheet, &answer.json,
                                                   &answer.told};
  return *parts[static_cast<std::size_t>(which)];
}

}  // namespace

#define GLUEUP_EXPORT(name) extern "C" __attribute__((export_name(#name)))

GLUEUP_EXPORT(reserve) void* reserve(std::size_t bytes) { return std::malloc(bytes); }

GLUEUP_EXPORT(add_mesh)
void add_mesh(const char* name, std::size_t name_size, const char* bytes, std::size_t size) {
  meshes.push_back({{name, name_size}, {bytes, size}});
}

GLUEUP_EXPORT(plan)
int plan(const char* job, std::size_t job_size, const char* shop, std::size_t shop_size) {
  answer = cli::page::answer({{job, job_size}, {shop, shop_size}, meshes});
  return answer.status;
}

GLUEUP_EXPORT(text_at) const char* text_at(int which) { return part(which).data(); }
GLUEUP_EXPORT(text_size) std::size_t text_size(int which) { return part(which).size(); }
