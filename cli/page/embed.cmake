# Puts the page together in one file, and lets its policy through what is in it and nothing else.
# cmake -DROOT=source -DCORE=core.wasm -DGMP=notices -DVERSION=0.1.0 -DOUT=glueup.html -P embed.cmake
include(${ROOT}/cli/html/policy_hash.cmake)
set(page ${ROOT}/cli/page)

function(packed file out)
  execute_process(COMMAND gzip -9nc ${file} COMMAND base64 -w 0 OUTPUT_VARIABLE text COMMAND_ERROR_IS_FATAL ANY)
  set(${out} "${text}" PARENT_SCOPE)
endfunction()
# As a JSON text; < would end the script element it stands in.
function(json_string file out)
  file(READ ${file} text)
  string(REPLACE "\\" "\\\\" text "${text}")
  string(REPLACE "\"" "\\\"" text "${text}")
  string(REPLACE "\n" "\\n" text "${text}")
  string(REPLACE "<" "\\u003c" text "${text}")
  set(${out} "\"${text}\"" PARENT_SCOPE)
endfunction()

# As an address that holds the file itself, for an attribute.
function(data_address type file out)
  file(READ ${file} text)
  string(REPLACE "icon.svg" "${ICON}" text "${text}")
  string(REGEX REPLACE "\n *" "" text "${text}")
  string(REPLACE "%" "%25" text "${text}")
  foreach(pair "\"=22" "<=3C" ">=3E" "#=23")
    string(REGEX MATCH "^(.)=(.*)$" unused "${pair}")
    string(REPLACE "${CMAKE_MATCH_1}" "%${CMAKE_MATCH_2}" text "${text}")
  endforeach()
  set(${out} "data:${type},${text}" PARENT_SCOPE)
endfunction()
data_address(image/svg+xml ${page}/icon.svg ICON)
data_address(application/manifest+json ${page}/manifest.json MANIFEST)

# The script, and the worker's.
set(script "'use strict';\n")
foreach(name core parts inputs fields store planning saves panes offline start)
  file(READ ${page}/script/${name}.js text)
  string(APPEND script "${text}")
endforeach()
file(READ ${page}/script/core.js core_js)
file(READ ${page}/script/worker.js worker_js)
set(worker "'use strict';\n${core_js}${worker_js}")

# The style; of the sheet's the part that pictures need.
file(READ ${page}/page.css css)
file(READ ${ROOT}/cli/html/bench.css bench_css)
string(FIND "${bench_css}" "/* A step's picture" from)
string(FIND "${bench_css}" "#turn canvas" to)
math(EXPR length "${to} - ${from}")
string(SUBSTRING "${bench_css}" ${from} ${length} pictures_css)
string(APPEND css "${pictures_css}")

# The sheet lies in a frame that keeps to this page's policy: its own script and styles must pass.
file(STRINGS ${BENCH} sheet_hashes REGEX "sha256-")
set(hashes "")
foreach(line IN LISTS sheet_hashes)
  string(REGEX MATCH "\"(sha256-[^\"]+)\"" unused "${line}")
  string(APPEND hashes " '${CMAKE_MATCH_1}'")
endforeach()
policy_hash("${script}" script_hash)
policy_hash("${css}" css_hash)
string(CONCAT POLICY "default-src 'none'; connect-src 'none'; script-src '${script_hash}'${hashes} 'wasm-unsafe-eval'; "
       "style-src '${css_hash}'${hashes}; worker-src blob: 'self'; manifest-src data:; img-src data:; base-uri 'none'; form-action 'none'")

foreach(kind job shop)
  file(READ ${ROOT}/docs/${kind}.schema.json ${kind}_schema)
  string(REGEX REPLACE "\n *" "" ${kind}_schema "${${kind}_schema}")
  string(REPLACE "<" "\\u003c" ${kind}_schema "${${kind}_schema}")
endforeach()
json_string(${ROOT}/fixtures/hive_tool_chest/job.toml job_example)
json_string(${ROOT}/fixtures/shops/enough.toml shop_example)

file(READ ${page}/page.html html)
packed(${CORE} core)
packed(${NOTICES} notices)
file(READ ${LIBRARIES} libraries)
foreach(pair POLICY=POLICY ICON=ICON MANIFEST=MANIFEST CSS=css VERSION=VERSION LIBRARIES=libraries JOB_SCHEMA=job_schema SHOP_SCHEMA=shop_schema
        WORKER=worker NOTICES=notices CORE=core SCRIPT=script)
  string(REGEX MATCH "^(.*)=(.*)$" unused ${pair})
  string(REPLACE "@${CMAKE_MATCH_1}@" "${${CMAKE_MATCH_2}}" html "${html}")
endforeach()
string(REPLACE "@EXAMPLES@" "{\"job\":${job_example},\"shop\":${shop_example}}" html "${html}")
file(WRITE ${OUT} "${html}")
