# Writes the CSV tables as one C++ file: planner::tables::embedded(name) returns the text of name.csv.
# cmake -DOUT=file.cpp -DFILES="a.csv;b.csv" -P embed.cmake
set(cpp "#include <string_view>\nnamespace planner::tables {\nstd::string_view embedded(std::string_view name) {\n")
foreach(file ${FILES})
  get_filename_component(name ${file} NAME_WE)
  file(READ ${file} text)
  string(APPEND cpp "  if (name == \"${name}\") return R\"csv~(${text})csv~\";\n")
endforeach()
string(APPEND cpp "  return {};\n}\n}  // namespace planner::tables\n")
file(WRITE ${OUT} "${cpp}")
