# The floors: cli -> planner -> geometry, downward only. Fails when a file includes what its room may
# not see, and lists every such line.
# By hand: cmake -DROOT=. -P tests/layering.cmake
#
# Needed because CGAL, Boost and Eigen live in /usr/include: linking them PRIVATE hides nothing. One
# include of CGAL costs 17-20 s of compiling, CLI11 10, Boost.Graph 8, json 4, toml++ 3, fmt 1.
file(REAL_PATH "${ROOT}" ROOT)

# What an include line may name.
set(std "<[a-z_]+>")
set(calm_std "<(algorithm|array|bitset|bit|cassert|cctype|charconv|chrono|cmath|compare|concepts|cstddef|cstdint|cstdlib|cstring|deque|exception|functional|initializer_list|iterator|limits|list|map|memory|numbers|numeric|optional|queue|set|span|sstream|stack|stdexcept|string|string_view|system_error|tuple|type_traits|unordered_map|unordered_set|utility|variant|vector)>")
set(geometry "\"geometry/[a-z_/]+\\.h\"")
set(planner "\"planner/[a-z_/]+\\.h\"")
set(cli "\"cli/[a-z_/]+\\.h\"")
# What geometry shows to the floors above. Its other headers are its own workings, some on CGAL.
set(rooms "geometry/(length|quantity|vector|polygon|solid|mesh_file|contact|overlap|blocking|folding|bearing)\\.h")
set(shown "\"${rooms}\"")
set(plain_geometry "\"geometry/(length|quantity|vector|polygon)\\.h\"")
set(given "\"planner/(job|shop|part|joint|joint_kind|joint_fit|plan|clamp_bodies|clamp_setting|diagnostic|glue_quantity|movement|pace|verify_[a-z_]+|tables/[a-z_]+)\\.h\"")

# The first rule that fits a file's path holds for it.
set(n 0)
function(rule path reason)
  string(JOIN "|" allowed ${ARGN})
  set(path_${n} "^(${path})$" PARENT_SCOPE)
  set(allowed_${n} "^(${allowed})$" PARENT_SCOPE)
  set(reason_${n} "${reason}" PARENT_SCOPE)
  math(EXPR next "${n} + 1")
  set(n ${next} PARENT_SCOPE)
endfunction()

# Tests may read reference files and use slow twins, but look downward like the code beside them.
rule("geometry/.*_test\\.cpp" "a geometry test sees geometry only"
     "${std}" "${geometry}" "<(CGAL|doctest|nlohmann)/.*>")
rule("planner/.*_test\\.cpp" "a planner test sees planner and what geometry shows"
     "${std}" "${shown}" "${planner}" "<(doctest|nlohmann)/.*>")
rule("cli/.*_test\\.cpp" "a cli test does without CGAL, Boost, Eigen and TOML"
     "${std}" "${shown}" "${planner}" "${cli}" "<(doctest|nlohmann|fmt)/.*>"
     "<(sys/[a-z]+|unistd)\\.h>")

rule("${rooms}" "what geometry shows rests on std and itself"
     "${calm_std}" "${shown}")
rule("geometry/.*\\.h" "geometry's own workings know std, CGAL and geometry"
     "${calm_std}" "<mutex>" "${geometry}" "<CGAL/.*>")
rule("geometry/mesh[a-z_]*\\.cpp" "mesh files are read with std, CGAL and geometry"
     "${std}" "${geometry}" "<CGAL/.*>")
rule("geometry/.*\\.cpp" "geometry knows std, CGAL and itself, and never prints"
     "${calm_std}" "${geometry}" "<CGAL/.*>")

rule("planner/verify_[a-z_]+\\.(h|cpp)" "the verifier uses no solver that it verifies"
     "${calm_std}" "${shown}" "${given}")
rule("planner/.*\\.h" "libraries stay out of planner's headers"
     "${calm_std}" "${shown}" "${planner}")
rule("planner/(assembly|schedule|stages|clamp_assignment)[a-z_]*\\.cpp"
     "of libraries the graph files use Boost.Graph only"
     "${calm_std}" "${shown}" "${planner}" "<boost/(graph|property_map)/.*>")
rule("planner/(pressure[a-z_]*|even_forces|force_balance)\\.cpp" "of libraries the pressure files use Eigen only"
     "${calm_std}" "${shown}" "${planner}" "<Eigen/.*>")
rule("planner/document\\.cpp" "of libraries the TOML reader uses toml++ only"
     "${calm_std}" "${shown}" "${planner}" "<toml\\+\\+/.*>")
rule("planner/.*\\.cpp" "planner computes from geometry and itself; it uses no library here and never prints"
     "${calm_std}" "${shown}" "${planner}")

rule("cli/keyboard\\.(h|cpp)" "the keyboard is asked in keyboard.cpp alone"
     "${std}" "${cli}" "<(poll|termios|unistd)\\.h>")
rule("cli/.*\\.h" "cli's headers name plans, not libraries"
     "${std}" "${plain_geometry}" "${planner}" "${cli}")
rule("cli/options\\.cpp" "CLI11 stays in options.cpp"
     "${std}" "${planner}" "${cli}" "<(fmt|CLI)/.*>")
rule("cli/sheet/json\\.cpp" "nlohmann/json stays in sheet/json.cpp"
     "${std}" "${plain_geometry}" "${planner}" "${cli}" "<(fmt|nlohmann)/.*>")
rule("cli/.*\\.cpp" "cli words and draws; it does not compute"
     "${std}" "${plain_geometry}" "${planner}" "${cli}" "<fmt/.*>" "<(sys/[a-z]+|unistd|fcntl|signal|malloc)\\.h>")

set(breaches "")
function(judge file)
  foreach(i RANGE ${last})
    if(file MATCHES "${path_${i}}")
      file(STRINGS ${ROOT}/${file} lines REGEX "^[ \t]*#[ \t]*include")
      foreach(line IN LISTS lines)
        string(REGEX REPLACE "^[ \t]*#[ \t]*include[ \t]*([<\"][^>\"]+[>\"]).*" "\\1" name "${line}")
        if(NOT name MATCHES "${allowed_${i}}")
          string(APPEND breaches "\n${file}: ${name}\n    ${reason_${i}}")
        endif()
      endforeach()
      break()
    endif()
  endforeach()
  set(breaches "${breaches}" PARENT_SCOPE)
endfunction()

math(EXPR last "${n} - 1")
file(GLOB_RECURSE files RELATIVE ${ROOT} ${ROOT}/geometry/*.h ${ROOT}/geometry/*.cpp ${ROOT}/planner/*.h
     ${ROOT}/planner/*.cpp ${ROOT}/cli/*.h ${ROOT}/cli/*.cpp)
if(NOT files)
  message(FATAL_ERROR "no floors under ${ROOT}")
endif()
foreach(file IN LISTS files)
  judge(${file})
endforeach()
if(breaches)
  message(FATAL_ERROR "floors broken:${breaches}")
endif()
