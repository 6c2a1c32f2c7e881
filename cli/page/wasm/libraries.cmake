# The libraries of the floors where they are compiled to WebAssembly: headers, and GMP as gmp.sh makes it.
foreach(name CGAL::CGAL Eigen3::Eigen Boost::headers fmt::fmt Threads::Threads)
  add_library(${name} INTERFACE IMPORTED)
endforeach()
set(gmp ${PROJECT_BINARY_DIR}/gmp)
target_include_directories(CGAL::CGAL SYSTEM INTERFACE ${gmp})
# mpq_class takes no 64-bit number where a long has 32 bits.
target_compile_definitions(CGAL::CGAL INTERFACE CGAL_DO_NOT_USE_BOOST_MP=1)
target_include_directories(Eigen3::Eigen SYSTEM INTERFACE /usr/include/eigen3)

# What this libc++ was built without, by name only (shim/).
target_compile_options(glueup_flags INTERFACE "SHELL:-isystem ${PROJECT_SOURCE_DIR}/cli/page/wasm/shim"
                       -D_LIBCPP_ENABLE_CXX17_REMOVED_UNARY_BINARY_FUNCTION -Wno-deprecated)
