#include "cli/calendar/calendar.h"

#include <cmath>
#include <cstdint>
#include <string_view>

#include <fmt/format.h>

#include "planner/plan/stage_starts.h"

namespace cli::calendar {
namespace {

using planner::plan::Plan;
using planner::plan::Stage;

constexpr std::string_view kHeader = "BEGIN:VCALENDAR";
constexpr double kLook_s = 15 * 60;  // that coming to take clamps off is given; ours

// RFC 5545 3.3.11: what would end a value is escaped.
std::string escaped(std::string_view text) {
  std::string out;
  for (const char c : text) {
    if (c == '\\' || c == ';' || c == ',') {
      out += '\\';
    }
    out += c == '\n' ? "\\n" : std::string(1, c);
  }
  return out;
}

// RFC 5545 3.1: folded before 75 bytes, never inside a character of several.
std::string folded(const std::string& line) {
  constexpr std::size_t kMost = 75;
  std::string out;
  std::size_t on_line = 0;
  for (std::size_t i = 0; i < line.size();) {
    std::size_t bytes = 1;
    while (i + bytes < line.size() && (static_cast<unsigned char>(line[i + bytes]) & 0xC0) == 0x80) {
      ++bytes;
    }
    if (on_line + bytes > kMost) {
      out += "\r\n ";
      on_line = 1;
    }
    out.append(line, i, bytes);
    on_line += bytes;
    i += bytes;
  }
  return out + "\r\n";
}

std::string stamp(Moment start, double since_s) {
  const auto at = std::chrono::time_point_cast<std::chrono::seconds>(start) +
                  std::chrono::seconds(std::lround(since_s));
  const auto day = std::chrono::floor<std::chrono::days>(at);
  const std::chrono::year_month_day date(day);
  const std::chrono::hh_mm_ss clock(at - day);
  return fmt::format("{:04}{:02}{:02}T{:02}{:02}{:02}", static_cast<int>(date.year()),
                     static_cast<unsigned>(date.month()), static_cast<unsigned>(date.day()),
                     clock.hours().count(), clock.minutes().count(), clock.seconds().count());
}

// FNV-1a, so that two jobs begun at one time are two in a calendar.
std::uint64_t hash_of(std::string_view text) {
  std::uint64_t hash = 14695981039346656037ULL;
  for (const char c : text) {
    hash = (hash ^ static_cast<unsigned char>(c)) * 1099511628211ULL;
  }
  return hash;
}

class CalendarWriter {
 public:
  CalendarWriter(const Plan& plan, Moment start) : plan_(plan), start_(start) {}

  void add(const std::string& what, double from_s, double to_s) {
    ++events_;
    line("BEGIN:VEVENT");
    line(fmt::format("UID:{:016x}-{}-{}@glueup", hash_of(plan_.title), stamp(start_, 0), events_));
    line("DTSTAMP:" + stamp(start_, 0) + "Z");
    line("DTSTART:" + stamp(start_, from_s));
    line("DTEND:" + stamp(start_, to_s));
    line("SUMMARY:" + escaped(what));
    line("BEGIN:VALARM");
    line("ACTION:DISPLAY");
    line("DESCRIPTION:" + escaped(what));
    line("TRIGGER:PT0S");
    line("END:VALARM");
    line("END:VEVENT");
  }

  void line(const std::string& text) { text_ += folded(text); }
  const std::string& text() const { return text_; }

 private:
  const Plan& plan_;
  Moment start_;
  int events_ = 0;
  std::string text_;
};

// "stage 2 of 3, left end"
std::string stage_name(const Plan& plan, std::size_t i) {
  const std::string& name = plan.stages[i].name;
  return fmt::format("stage {} of {}{}", i + 1, plan.stages.size(), name.empty() ? "" : ", " + name);
}

}  // namespace

std::string calendar_file(const Plan& plan, const words::TextStyle& style, Moment start) {
  CalendarWriter out(plan, start);
  out.line(std::string(kHeader));
  out.line("VERSION:2.0");
  out.line("PRODID:-//glueup//glueup//EN");
  const char* clamps = style.wording.uk_words ? "cramps" : "clamps";
  for (std::size_t i = plan.stages_done; i < plan.stages.size(); ++i) {
    const Stage& stage = plan.stages[i];
    const std::string which = plan.stages.size() > 1 ? stage_name(plan, i) + " of " : "";
    const double tight_s = stage.starts_s + stage.makespan_s, off_s = tight_s + clamps_off_s(plan, stage);
    out.add(fmt::format("Open the glue: {}{}", which, plan.title), stage.starts_s, tight_s);
    out.add(stage.clamps.empty() ? fmt::format("Set: {}{}", which, plan.title)
                                 : fmt::format("Take the {} off: {}{}", clamps, which, plan.title),
            off_s, off_s + kLook_s);
  }
  out.line("END:VCALENDAR");
  return out.text();
}

bool is_calendar(const std::string& text) {
  return text.starts_with(kHeader);
}

}  // namespace cli::calendar
