// Results go to standard output, everything else to standard error.
#pragma once
#include <string>

#include "cli/terminal/options.h"
#include "cli/text/text.h"

namespace cli::terminal {

// Colour and Unicode only where standard output is a terminal that has them (NO_COLOR, TERM, the
// locale's character set), or where the user says so.
words::TextStyle style_for(const Options& options);

// False where standard output is closed or full; then the reason is told on standard error.
bool print(const std::string& text);
bool output_is_terminal();
void complain(const std::string& text);  // to standard error
// Columns of a line that is written over again and again: a page's, or a narrower terminal's.
int moving_line_width();

// Writes JSON where --json says: "-" is standard output. A file that exists and is no JSON is
// somebody's work and is left alone. False where it can't, with the reason told.
bool put_json(const std::string& where, const std::string& json);
// The same for the calendar, which leaves alone what is none.
bool put_calendar(const std::string& where, const std::string& calendar);
// The same for the bench sheet, which leaves alone what is no HTML.
bool put_html(const std::string& where, const std::string& html);

}  // namespace cli::terminal
