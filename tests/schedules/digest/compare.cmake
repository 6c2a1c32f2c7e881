# cmake -DPROGRAM=... -DEXPECTED=... -P compare.cmake: the program's output is that file, to the letter.
execute_process(COMMAND ${PROGRAM} OUTPUT_VARIABLE got RESULT_VARIABLE code)
file(READ ${EXPECTED} expected)
if(NOT code EQUAL 0 OR NOT got STREQUAL expected)
  message(FATAL_ERROR "other answers than in ${EXPECTED}; ${PROGRAM} prints:\n${got}")
endif()
