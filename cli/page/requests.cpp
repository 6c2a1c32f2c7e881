#include "cli/page/requests.h"

#include <charconv>
#include <functional>
#include <map>
#include <optional>

#include "cli/json/file_json.h"
#include "cli/json/json.h"
#include "cli/page/answer.h"
#include "cli/terminal/starter_file.h"
#include "planner/files/file_patch.h"
#include "planner/tables/listing.h"

namespace cli::page {
namespace {

using Texts = std::vector<std::string>;

constexpr int kNoAnswer = 2;
const Reply kNothing{kNoAnswer, {}};

// What was left out is empty.
std::string text_at(const Texts& request, std::size_t i) {
  return i < request.size() ? request[i] : "";
}
Texts rest(const Texts& request, std::size_t first) {
  return first < request.size()
             ? Texts(request.begin() + static_cast<std::ptrdiff_t>(first), request.end())
             : Texts();
}

Question question_at(const Texts& request, std::size_t first) {
  Question question{text_at(request, first), text_at(request, first + 1)};
  for (std::size_t i = first + 2; i + 1 < request.size(); i += 2) {
    question.meshes.push_back({request[i], request[i + 1]});
  }
  return question;
}

Reply plan(const Texts& request) {
  Question question = question_at(request, 2);
  question.paper = text_at(request, 1) == "letter" ? html::Paper::letter : html::Paper::a4;
  Answer made = text_at(request, 0) == "first" ? first_answer(question) : answer(question);
  return {made.status,
          {std::move(made.text), std::move(made.sheet), std::move(made.json), std::move(made.told),
           std::move(made.picture), made.stopped ? "stopped" : ""}};
}

Reply calendar_of(const Texts& request) {
  const std::string typed = text_at(request, 1);
  std::chrono::minutes::rep minutes = 0;
  const auto read = std::from_chars(typed.data(), typed.data() + typed.size(), minutes);
  if (read.ec != std::errc() || read.ptr != typed.data() + typed.size()) {
    return kNothing;
  }
  std::string file = calendar_file(question_at(request, 2), calendar::Moment(std::chrono::minutes(minutes)));
  return file.empty() ? kNothing : Reply{0, {std::move(file)}};
}

Reply rack_of(const Texts& request) {
  std::vector<NamedJob> jobs;
  for (std::size_t i = 2; i + 1 < request.size(); i += 2) {
    jobs.push_back({request[i], request[i + 1]});
  }
  return {0, {rack(text_at(request, 1), jobs)}};
}

Reply changed(std::optional<std::string> text) {
  return text ? Reply{0, {std::move(*text)}} : kNothing;
}

Reply set(const Texts& request) {
  const std::string how = text_at(request, 3);
  const std::string value = how == "toml" ? text_at(request, 2)
                                          : planner::files::toml_value(text_at(request, 2), how == "quoted");
  return changed(planner::files::with_value(text_at(request, 1), rest(request, 4), value));
}

Reply table(const Texts& request) {
  const auto listed = planner::tables::listing(text_at(request, 1));
  return listed ? Reply{0, {json::json_table(*listed)}} : kNothing;
}

Reply starter(const Texts& request) {
  using planner::base::Units;
  const std::string kind = text_at(request, 1);
  const Units units = text_at(request, 2) == "in" ? Units::inch : Units::mm;
  if (kind == "shop") {
    return {0, {terminal::shop_starter_file(terminal::usual_shop(units))}};
  }
  const terminal::StarterKind known = terminal::starter_kind(kind);
  return {0, {terminal::starter_file(known, terminal::usual_answers(known, units))}};
}

}  // namespace

Reply reply(const Texts& request) {
  using Answerer = std::function<Reply(const Texts&)>;
  static const std::map<std::string, Answerer> kAnswerers = {
      {"plan", plan},
      {"first", plan},
      {"picture", [](const Texts& r) -> Reply { return {0, {picture(question_at(r, 1))}}; }},
      {"view", [](const Texts& r) -> Reply { return {0, {view(text_at(r, 1), question_at(r, 2))}}; }},
      {"mistakes", [](const Texts& r) -> Reply { return {0, {mistakes(question_at(r, 1))}}; }},
      {"calendar", calendar_of},
      {"rack", rack_of},
      {"file", [](const Texts& r) -> Reply { return {0, {json::json_file(text_at(r, 1))}}; }},
      {"set", set},
      {"remove",
       [](const Texts& r) { return changed(planner::files::without(text_at(r, 1), rest(r, 2))); }},
      {"add",
       [](const Texts& r) {
         return changed(planner::files::with_table(text_at(r, 1), text_at(r, 2), text_at(r, 3)));
       }},
      {"table", table},
      {"new", starter},
      {"kinds", [](const Texts&) -> Reply { return {0, terminal::starter_kinds()}; }},
  };
  const auto found = kAnswerers.find(text_at(request, 0));
  return found == kAnswerers.end() ? kNothing : found->second(request);
}

}  // namespace cli::page
