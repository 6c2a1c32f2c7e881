# What the page says of the libraries in it: a list with versions, and their notices with the licenses that these
# name.
# cmake -DLIST=out.txt -DNOTICES=out.txt -P notices.cmake
set(packages libcgal-dev libgmp-dev libboost1.74-dev libeigen3-dev libtomlplusplus-dev nlohmann-json3-dev libfmt-dev
    wasi-libc libc++-22-dev-wasm32 libclang-rt-22-dev-wasm32)
set(list "")
set(notices "")
foreach(package IN LISTS packages)
  execute_process(COMMAND dpkg-query -W -f "\${source:Package} \${source:Version}" ${package} OUTPUT_VARIABLE source
                  COMMAND_ERROR_IS_FATAL ANY)
  string(APPEND list "${source}\n")
  file(READ /usr/share/doc/${package}/copyright text)
  if(package MATCHES "boost")  # two megabytes, of many parts that are not here: the license that its headers name
    string(REGEX MATCH "License: BSL-1.0\n( [^\n]*\n)+" text "${text}")
  endif()
  string(APPEND notices "==== ${source}\n\n${text}\n")
endforeach()
foreach(license GPL-3 LGPL-3 GPL-2 Apache-2.0 MPL-2.0 CC0-1.0)
  file(READ /usr/share/common-licenses/${license} text)
  string(APPEND notices "==== ${license}\n\n${text}\n")
endforeach()
file(WRITE ${LIST} "${list}")
file(WRITE ${NOTICES} "${notices}")
