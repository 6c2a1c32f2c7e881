# The planner as WebAssembly, and the page that holds it. build.sh calls this with toolchain.cmake.
add_executable(core cli/page/wasm/core.cpp cli/page/wasm/no_throw.cpp)
set_target_properties(core PROPERTIES SUFFIX .wasm)
target_link_libraries(core PRIVATE glueup_cli glueup_planner glueup_geometry ${PROJECT_BINARY_DIR}/gmp/libgmp.a)
# Without --no-wasm-opt the result depends on what else is installed. A stack that runs over traps where
# it lies first.
target_link_options(core PRIVATE -mexec-model=reactor --no-wasm-opt
                    LINKER:--strip-all,--gc-sections,--stack-first,-z,stack-size=8388608,--max-memory=2147483648)

set(page ${PROJECT_SOURCE_DIR}/cli/page)
set(notices ${PROJECT_BINARY_DIR}/notices.txt)
set(libraries ${PROJECT_BINARY_DIR}/libraries.txt)
add_custom_command(OUTPUT ${notices} ${libraries}
  COMMAND ${CMAKE_COMMAND} -DLIST=${libraries} -DNOTICES=${notices} -P ${page}/notices.cmake
  DEPENDS ${page}/notices.cmake VERBATIM)

# Beside the program, out of this folder of it.
get_filename_component(html ${PROJECT_BINARY_DIR}/../glueup.html ABSOLUTE)
set(offline ${PROJECT_BINARY_DIR}/../glueup_offline.js)  # for web servers
file(GLOB page_files CONFIGURE_DEPENDS ${page}/page.* ${page}/icon.* ${page}/manifest.json ${page}/script/*.js
     ${page}/service_worker.js ${page}/embed.cmake)
add_custom_command(OUTPUT ${html}
  COMMAND ${CMAKE_COMMAND} -DROOT=${PROJECT_SOURCE_DIR} -DCORE=$<TARGET_FILE:core> -DBENCH=${bench_cpp}
          -DNOTICES=${notices} -DLIBRARIES=${libraries} -DVERSION=${PROJECT_VERSION} -DOUT=${html} -P ${page}/embed.cmake
  COMMAND ${CMAKE_COMMAND} -E copy ${page}/service_worker.js ${offline}
  DEPENDS core ${bench_cpp} ${notices} ${libraries} ${page_files} ${bench}/policy_hash.cmake ${bench}/bench.css
          ${PROJECT_SOURCE_DIR}/docs/job.schema.json ${PROJECT_SOURCE_DIR}/docs/shop.schema.json
          ${PROJECT_SOURCE_DIR}/fixtures/hive_tool_chest/job.toml ${PROJECT_SOURCE_DIR}/fixtures/shops/enough.toml
  VERBATIM)
add_custom_target(page DEPENDS ${html})
