# What is installed where, and the Debian package.
#   cmake --install build --prefix ~/.local     or, for a package in the folder build:
#   cmake --build build --target glueup && (cd build && cpack)
include(GNUInstallDirs)
set(CMAKE_SKIP_INSTALL_ALL_DEPENDENCY ON)  # the tests needn't be built for it

install(TARGETS glueup RUNTIME DESTINATION ${CMAKE_INSTALL_BINDIR})

set(packaging ${PROJECT_SOURCE_DIR}/cli/packaging)
install(FILES ${packaging}/glueup.bash DESTINATION ${CMAKE_INSTALL_DATADIR}/bash-completion/completions
        RENAME glueup)
install(FILES ${packaging}/glueup.zsh DESTINATION ${CMAKE_INSTALL_DATADIR}/zsh/vendor-completions
        RENAME _glueup)
install(FILES ${packaging}/glueup.fish DESTINATION ${CMAKE_INSTALL_DATADIR}/fish/vendor_completions.d)

find_program(GLUEUP_GZIP gzip)
mark_as_advanced(GLUEUP_GZIP)
if(GLUEUP_GZIP)
  # -n leaves the time out, so that the same page gives the same bytes.
  add_custom_command(OUTPUT ${PROJECT_BINARY_DIR}/glueup.1.gz
    COMMAND ${GLUEUP_GZIP} -9nc ${packaging}/glueup.1 > ${PROJECT_BINARY_DIR}/glueup.1.gz
    DEPENDS ${packaging}/glueup.1 VERBATIM)
  add_custom_target(man_page DEPENDS ${PROJECT_BINARY_DIR}/glueup.1.gz)
  add_dependencies(glueup man_page)
  install(FILES ${PROJECT_BINARY_DIR}/glueup.1.gz DESTINATION ${CMAKE_INSTALL_MANDIR}/man1)
else()
  install(FILES ${packaging}/glueup.1 DESTINATION ${CMAKE_INSTALL_MANDIR}/man1)
endif()

# `glueup page` looks for it there.
if(GLUEUP_PAGE)
  install(FILES ${PROJECT_BINARY_DIR}/glueup.html ${PROJECT_BINARY_DIR}/glueup_offline.js
          DESTINATION ${CMAKE_INSTALL_DATADIR}/glueup)
endif()

# `glueup new` names them to the user's editor.
install(FILES docs/job.schema.json docs/shop.schema.json DESTINATION ${CMAKE_INSTALL_DATADIR}/glueup)
install(FILES README.md DESTINATION ${CMAKE_INSTALL_DOCDIR})
install(DIRECTORY docs/ DESTINATION ${CMAKE_INSTALL_DOCDIR}/docs)
install(FILES cli/packaging/copyright DESTINATION ${CMAKE_INSTALL_DOCDIR})
install(DIRECTORY fixtures/hive_tool_chest fixtures/cupboard_door fixtures/shops
        DESTINATION ${CMAKE_INSTALL_DOCDIR}/examples PATTERN "expected*.txt" EXCLUDE
        PATTERN worked.md EXCLUDE)

set(CPACK_GENERATOR DEB)
set(CPACK_PACKAGE_NAME glueup)
set(CPACK_PACKAGE_VERSION ${PROJECT_VERSION})
set(CPACK_PACKAGE_CONTACT "glueup maintainers <glueup@localhost>")
set(CPACK_PACKAGE_DESCRIPTION_SUMMARY "planner for woodworking glue-ups")
set(CPACK_PACKAGE_DESCRIPTION
    "Reads a short file that says what is being glued and another that says what the
shop has, and answers before any glue is poured: in which order the parts go
together, whether the glue's time is enough, where every clamp and pad goes,
how much glue that takes and how long to wait. Writes a bench sheet with
pictures and a clock for the phone or the printer.")
set(CPACK_PACKAGING_INSTALL_PREFIX /usr)
set(CPACK_STRIP_FILES ON)
set(CPACK_DEBIAN_FILE_NAME DEB-DEFAULT)
set(CPACK_DEBIAN_PACKAGE_SECTION misc)
# What it depends on is found with dpkg-dev's tools and `file`; without them, as it is on Debian 12.
find_program(GLUEUP_SHLIBDEPS dpkg-shlibdeps)
find_program(GLUEUP_FILE file)
mark_as_advanced(GLUEUP_SHLIBDEPS GLUEUP_FILE)
if(GLUEUP_SHLIBDEPS AND GLUEUP_FILE)
  set(CPACK_DEBIAN_PACKAGE_SHLIBDEPS ON)
else()
  set(CPACK_DEBIAN_PACKAGE_DEPENDS
      "libc6 (>= 2.35), libgcc-s1 (>= 7), libgmp10 (>= 2:6.2.1+dfsg1), libstdc++6 (>= 11)")
endif()
set(CPACK_DEBIAN_PACKAGE_CONTROL_STRICT_PERMISSION ON)
include(CPack)
