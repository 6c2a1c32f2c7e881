// The functions that the page's script calls: texts given one by one, a question asked, texts read. Each comes
// as where it lies and its length, since it may hold any byte.
#include <cstdlib>
#include <string>
#include <vector>

#include "cli/page/requests.h"

namespace {

std::vector<std::string> request;
cli::page::Reply answered;

}  // namespace

#define GLUEUP_EXPORT(name) extern "C" __attribute__((export_name(#name)))

GLUEUP_EXPORT(reserve) char* reserve(std::size_t bytes) {
  return static_cast<char*>(std::malloc(bytes));
}

GLUEUP_EXPORT(give) void give(char* at, std::size_t size) {
  request.emplace_back(at, size);
  std::free(at);
}

GLUEUP_EXPORT(ask) int ask() {
  answered = cli::page::reply(request);
  request.clear();
  return answered.status;
}

// Of the last answer, until the next question.
GLUEUP_EXPORT(texts) std::size_t texts() { return answered.texts.size(); }
GLUEUP_EXPORT(text_at) const char* text_at(std::size_t i) { return answered.texts[i].data(); }
GLUEUP_EXPORT(text_size) std::size_t text_size(std::size_t i) { return answered.texts[i].size(); }
