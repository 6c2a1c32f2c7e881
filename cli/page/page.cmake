# The planner as WebAssembly, and the page that holds it. build.sh calls this with toolchain.cmake.
add_executable(core cli/page/wasm/core.cpp cli/page/wasm/no_throw.cpp)
target_link_libraries(core PRIVATE glueup_cli glueup_planner glueup_geometry ${PROJECT_BINARY_DIR}/gmp/libgmp.a)
# Without --no-wasm-opt the result depends on what else is installed. A stack that runs over traps where
# it lies first.
target_link_options(core PRIVATE -mexec-model=reactor --no-wasm-opt
                    LINKER:--strip-all,--gc-sections,--stack-first,-z,stack-size=8388608)
