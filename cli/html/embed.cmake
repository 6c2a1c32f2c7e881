# Writes the bench sheet's style and script as one C++ file, with the hashes that its content
# security policy lets through.
# cmake -DOUT=file.cpp -DCSS=bench.css -DLANES=lanes.js -DJS=bench.js -DTURN=turn.js -P embed.cmake

include(${CMAKE_CURRENT_LIST_DIR}/policy_hash.cmake)

file(READ ${CSS} css)
file(READ ${LANES} lanes)
file(READ ${JS} js)
file(READ ${TURN} turn)
set(js "${lanes}${js}${turn}")
set(numbered "margin:10mm 12mm 11mm;@bottom-right{content:counter(page) \" / \" counter(pages);font:8pt system-ui,sans-serif}")
set(a4 "@page{size:A4;${numbered}}")
set(letter "@page{size:letter;${numbered}}")
set(cpp "#include \"cli/html/embedded.h\"\nnamespace cli::html {\n")
foreach(name css js a4 letter)
  policy_hash("${${name}}" hash)
  string(APPEND cpp "const Embedded k_${name}{R\"~~(${${name}})~~\", \"${hash}\"};\n")
endforeach()
string(APPEND cpp "const Embedded& bench_css() { return k_css; }\n"
                  "const Embedded& bench_js() { return k_js; }\n"
                  "const Embedded& page_css(Paper paper) { return paper == Paper::a4 ? k_a4 : k_letter; }\n"
                  "}  // namespace cli::html\n")
file(WRITE ${OUT} "${cpp}")
