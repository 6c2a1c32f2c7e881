// The page's script asks by name, with texts behind it, and gets texts.
#pragma once
#include <string>
#include <vector>

namespace cli::page {

struct Reply {
  int status = 0;  // of "plan" as the command line ends; of others 0 where there is an answer
  std::vector<std::string> texts;
};

// "plan" a4|letter JOB SHOP [MESH BYTES]...  text, sheet, JSON, what is told of the files, picture
// "first" as "plan", soon               the same, and "stopped" where a longer search may do better
// "picture" JOB SHOP [MESH BYTES]...  the work, drawn
// "view" NAME JOB SHOP [MESH BYTES]...  another sheet, as text
// "calendar" MINUTES JOB SHOP [MESH BYTES]... the calendar file, begun so long after 1970, by the wall's clock
// "rack" SHOP [NAME JOB]...           jobs side by side and the clamps to buy next, as text
// "mistakes" JOB SHOP [MESH BYTES]... JSON
// "file" TEXT                         the file as it stands, as JSON
// "set" TEXT TYPED quoted|bare|toml KEY...  the file with that value there
// "remove" TEXT KEY...                the file without it
// "add" TEXT HEADING LINES            the file with that table, "[pace]" or another "[[clamp]]"
// "table" NAME                        a table of the program, as JSON
// "new" KIND in|mm                    a file to start from
// "kinds"                             what there is to start from
Reply reply(const std::vector<std::string>& request);

}  // namespace cli::page
