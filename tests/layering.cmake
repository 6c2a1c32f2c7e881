# The floors: cli -> planner -> geometry, downward only, and the rooms inside them. Fails when a file includes what its room may
# not see, and lists every such line.
# By hand: cmake -DROOT=. -P tests/layering.cmake
#
# Needed because CGAL, Boost and Eigen live in /usr/include: linking them PRIVATE hides nothing. One
# include of CGAL costs 17-20 s of compiling, CLI11 10, Boost.Graph 8, json 4, toml++ 3, fmt 1.
cmake_minimum_required(VERSION 3.25)
file(REAL_PATH "${ROOT}" ROOT)

# What an include line may name.
set(std "<[a-z_]+>")
set(calm_std "<(algorithm|array|bitset|bit|cassert|cctype|charconv|chrono|cmath|compare|concepts|cstddef|cstdint|cstdlib|cstring|deque|exception|functional|initializer_list|iterator|limits|list|map|memory|numbers|numeric|optional|queue|set|span|sstream|stack|stdexcept|string|string_view|system_error|tuple|type_traits|unordered_map|unordered_set|utility|variant|vector)>")
set(geometry "\"geometry/[a-z_/]+\\.h\"")
set(planner "\"planner/[a-z_/]+\\.h\"")
set(cli "\"cli/[a-z_/]+\\.h\"")
# What geometry shows to the floors above. Its other headers are its own workings, some on CGAL.
set(rooms "geometry/(length|elementary|vector|polygon|solid|mesh/mesh_file|turn|contact|overlap|blocking|folding|bearing|crossing)\\.h")
set(shown "\"${rooms}\"")
set(plain_geometry "\"geometry/(length|elementary|vector|polygon)\\.h\"")

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
     "${std}" "${shown}" "${planner}" "<(doctest|nlohmann)/.*>" "\"tests/source_dir\\.h\"")
rule("cli/.*_test\\.cpp" "a cli test does without CGAL, Boost, Eigen and TOML"
     "${std}" "${shown}" "${planner}" "${cli}" "<(doctest|nlohmann|fmt)/.*>" "\"tests/source_dir\\.h\""
     "<(sys/[a-z]+|unistd)\\.h>")

rule("${rooms}" "what geometry shows rests on std and itself"
     "${calm_std}" "${shown}")
rule("geometry/.*\\.h" "geometry's own workings know std, CGAL and geometry"
     "${calm_std}" "<mutex>" "${geometry}" "<CGAL/.*>")
rule("geometry/mesh/[a-z_]*\\.cpp" "mesh files are read with std, CGAL and geometry"
     "${std}" "${geometry}" "<CGAL/.*>")
rule("geometry/.*\\.cpp" "geometry knows std, CGAL and itself, and never prints"
     "${calm_std}" "${geometry}" "<CGAL/.*>")

rule("planner/verify/[a-z_]+\\.(h|cpp)" "the verifier uses no solver that it verifies"
     "${calm_std}" "${shown}" "\"planner/(base|tables|work|plan|verify)/[a-z_]+\\.h\""
     "\"planner/clamps/bodies/(clamp_setting|part_way)\\.h\"")  # how bars and parts come to their places, which both work from
rule("planner/.*\\.h" "libraries stay out of planner's headers"
     "${calm_std}" "${shown}" "${planner}")
rule("planner/(order/(assembly|schedule|stages)[a-z_]*|clamps/layout/clamp_assignment)\\.cpp"
     "of libraries the graph files use Boost.Graph only"
     "${calm_std}" "${shown}" "${planner}" "<boost/(graph|property_map)/.*>")
rule("planner/(pressure/pressure[a-z_]*|clamps/count/max_min_forces|work/force_balance)\\.cpp" "of libraries the pressure files use Eigen only"
     "${calm_std}" "${shown}" "${planner}" "<Eigen/.*>")
rule("planner/files/document\\.cpp" "of libraries the TOML reader uses toml++ only"
     "${calm_std}" "${shown}" "${planner}" "<toml\\+\\+/.*>")
rule("planner/.*\\.cpp" "planner computes from geometry and itself; it uses no library here and never prints"
     "${calm_std}" "${shown}" "${planner}")

rule("cli/terminal/keyboard\\.(h|cpp)" "the keyboard is asked in keyboard.cpp alone"
     "${std}" "${cli}" "<(poll|termios|unistd)\\.h>")
rule("cli/page/(wasm/)?[a-z_]+\\.(h|cpp)" "the page has no machine round it: texts in, texts out"
     "${calm_std}" "<(cstdio|typeinfo)>" "${planner}" "${cli}")
rule("cli/json/[a-z_]+\\.(h|cpp)" "nlohmann/json stays in json/"
     "${std}" "${plain_geometry}" "${planner}" "${cli}" "<(fmt|nlohmann)/.*>")
rule("cli/words/spoken\\.h" "a template puts what it is given into a pattern of fmt's"
     "${std}" "${cli}" "<fmt/format\\.h>")
rule("cli/.*\\.h" "cli's headers name plans, not libraries"
     "${std}" "${plain_geometry}" "${planner}" "${cli}")
rule("cli/terminal/options\\.cpp" "CLI11 stays in options.cpp"
     "${std}" "${planner}" "${cli}" "<(fmt|CLI)/.*>")
rule("cli/.*\\.cpp" "cli words and draws; it does not compute"
     "${std}" "${plain_geometry}" "${planner}" "${cli}" "<fmt/.*>" "<(sys/[a-z]+|unistd|fcntl|signal|malloc)\\.h>")

# The rooms of a floor, lowest first: a file includes what it likes of its own room, and of the rooms
# before it, and of the floor below, their doors: the headers named here. What is not named is a
# room's inside. Tests may look into any room.
set(room_names "")
function(room name)
  set(room_names ${room_names} ${name} PARENT_SCOPE)
  set(doors_${name} ${ARGN} PARENT_SCOPE)
endfunction()
room(planner/base diagnostic quantity_text reach spelling stop unit_set units)
room(planner/tables clamp glue listing pressure_range version wood)
room(planner/work bend compound_mitre cut glue_quantity job job_check joint joint_fit joint_kind joint_means means motion
     movement pace panel_room part part_solid shop sizing square standing step_seconds touching)
room(planner/files document file_notes file_patch job_file job_text mesh_parts old_names shop_file starter)
room(planner/plan plan plan_parts stage_starts)
room(planner/pressure beam_table crush glue_line mitre_press pressure_line pressure_plate pressure_profile
     pressure_wood racking)
room(planner/order clock_remedies comfort likeness order_reasons schedule stages)
room(planner/clamps/count even_spread fewest_clamps max_min_forces)
room(planner/clamps/bodies clamp_bodies clamp_setting part_way risers)
room(planner/clamps/axis axis_cache axis_clamps clamp_shortfall clamps_at even_spacing
     fewest_on_axis line_of_action planned_clamp pressing_axes pressure_levels shaped_pads
     wide_face_clamps)
room(planner/clamps/layout clamp_layout corner_clamps)
room(planner/placed placed_check placed_clamps)
room(planner/stage add_stages glue_trial plan_options plan_stages)
room(planner/advice cautions drawing_faults hands_wanted next_clamp notes verdict)
room(planner/verify verify_plan)
room(planner/dry_fit fit)
room(planner/rehearsal rehearsal learned_pace)
room(cli/words caution_words command_words note_words order_words placed_words sentences
     spare_words spoken text_style trade_words verdict_words way_out_words words)
room(cli/model blocks brief_lists edge_strips fetch_list line_drawing lists pressure_cells timeline verdict wait_list)
room(cli/pictures markup situation step_picture strip_key turning)
room(cli/json file_json json)
room(cli/text fit_sheet mistakes page rack_sheet text text_check)
room(cli/html embedded html)
room(cli/calendar calendar)
room(cli/terminal exit_status file_text keyboard options output progress questions schema_path
     starter_file)
room(cli/page)
room(cli/rehearse rehearsal_session)
room(cli/commands commands)

# The room that a path lies in, or nothing: of planner/files/starter/box.cpp it is planner/files.
function(room_of path out)
  set(found "")
  foreach(name IN LISTS room_names)
    if(path MATCHES "^${name}/")
      set(found ${name})
    endif()
  endforeach()
  set(${out} "${found}" PARENT_SCOPE)
endfunction()

# Why a file in `from` may not include `header`, or nothing.
function(room_breach from header out)
  set(${out} "" PARENT_SCOPE)
  room_of(${header} to)
  string(REGEX MATCH "^[a-z]+/" from_floor "${from}")
  if(to STREQUAL "" AND header MATCHES "^${from_floor}")
    set(${out} "${header} stands on top of the rooms" PARENT_SCOPE)
  endif()
  if(to STREQUAL "" OR to STREQUAL from)
    return()
  endif()
  list(FIND room_names ${to} to_at)
  list(FIND room_names "${from}" from_at)
  string(REGEX MATCH "^[a-z]+/" to_floor "${to}")
  if(from_floor STREQUAL to_floor AND to_at GREATER from_at)
    set(${out} "${to} is a room above ${from}" PARENT_SCOPE)
    return()
  endif()
  get_filename_component(door ${header} NAME_WE)
  if(NOT door IN_LIST doors_${to})
    set(${out} "${door}.h is no door of ${to}" PARENT_SCOPE)
  endif()
endfunction()

set(breaches "")
function(judge file)
  set(from "")
  if(NOT file MATCHES "_test\\.(h|cpp)$")
    room_of(${file} from)
  endif()
  foreach(i RANGE ${last})
    if(file MATCHES "${path_${i}}")
      file(STRINGS ${ROOT}/${file} lines REGEX "^[ \t]*#[ \t]*include")
      foreach(line IN LISTS lines)
        string(REGEX REPLACE "^[ \t]*#[ \t]*include[ \t]*([<\"][^>\"]+[>\"]).*" "\\1" name "${line}")
        if(NOT name MATCHES "${allowed_${i}}")
          string(APPEND breaches "\n${file}: ${name}\n    ${reason_${i}}")
        elseif(from AND name MATCHES "^\"(.*)\"$")
          room_breach(${from} ${CMAKE_MATCH_1} breach)
          if(breach)
            string(APPEND breaches "\n${file}: ${name}\n    ${breach}")
          endif()
        endif()
      endforeach()
      break()
    endif()
  endforeach()
  if(NOT file MATCHES "_test\\.cpp$")
    file(STRINGS ${ROOT}/${file} lines REGEX "std::(a?sin|a?cos|a?tan2?|exp|log|pow|hypot)\\(")
    if(lines)
      string(APPEND breaches "\n${file}\n    elementary functions are those of geometry/elementary.h, the same in every build")
    endif()
  endif()
  set(breaches "${breaches}" PARENT_SCOPE)
endfunction()

math(EXPR last "${n} - 1")
file(GLOB_RECURSE files RELATIVE ${ROOT} ${ROOT}/geometry/*.h ${ROOT}/geometry/*.cpp ${ROOT}/planner/*.h
     ${ROOT}/planner/*.cpp ${ROOT}/cli/*.h ${ROOT}/cli/*.cpp)
list(FILTER files EXCLUDE REGEX "^cli/page/wasm/shim/")  # in place of a library's headers
if(NOT files)
  message(FATAL_ERROR "no floors under ${ROOT}")
endif()

# What a file gives others stands in a header of its name. Families, which give the same verb of many
# nouns, share one.
set(families "cli/commands/[a-z_]+=cli/commands/commands.h"
    "planner/files/starter/[a-z_]+=planner/files/starter/(starter|boards).h"
    "geometry/mesh/mesh_(obj|off|ply|stl)=geometry/mesh/mesh_readers.h"
    "planner/files/table_quantities=planner/files/table_reader.h")
function(judge_header file)
  if(file MATCHES "_test\\.cpp$" OR file MATCHES "^cli/(main|fmt|page/wasm/[a-z_]+)\\.cpp$" OR NOT file MATCHES "^(.*)\\.cpp$")
    return()
  endif()
  set(name ${CMAKE_MATCH_1})
  set(header ${name}.h)
  foreach(family IN LISTS families)
    string(REGEX MATCH "^(.*)=(.*)$" unused ${family})
    set(shared ${CMAKE_MATCH_2})
    if(name MATCHES "^${CMAKE_MATCH_1}$" AND NOT EXISTS ${ROOT}/${header})
      set(header ${shared})
    endif()
  endforeach()
  file(STRINGS ${ROOT}/${file} includes REGEX "^#include \"${header}\"")
  if(NOT includes)
    set(breaches "${breaches}\n${file}: ${header}\n    a file includes the header that declares what it gives" PARENT_SCOPE)
  endif()
endfunction()

foreach(file IN LISTS files)
  judge(${file})
  judge_header(${file})
endforeach()
if(breaches)
  message(FATAL_ERROR "floors broken:${breaches}")
endif()
