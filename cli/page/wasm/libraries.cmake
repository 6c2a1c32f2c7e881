# The libraries of the floors where they are compiled to WebAssembly: headers, and GMP as gmp.sh makes it.
foreach(name CGAL::CGAL Eigen3::Eigen Boost::headers fmt::fmt Threads::Threads)
  add_library(${name} INTERFACE IMPORTED)
endforeach()
set(gmp ${PROJECT_BINARY_DIR}/gmp)
target_include_directories(CGAL::CGAL SYSTEM INTERFACE ${gmp})
target_include_directories(Eigen3::Eigen SYSTEM INTERFACE /usr/include/eigen3)

# What this libc++ was built without, by name only (shim/).
target_compile_options(glueup_flags INTERFACE "SHELL:-isystem ${PROJECT_SOURCE_DIR}/cli/page/wasm/shim"
                       -D_LIBCPP_ENABLE_CXX17_REMOVED_UNARY_BINARY_FUNCTION -Wno-deprecated)
