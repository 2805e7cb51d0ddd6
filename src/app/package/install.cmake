# `cmake --install`: the program, what it reads, its manual, and what a desktop knows of it.
include(GNUInstallDirs)
install(TARGETS leafwright RUNTIME DESTINATION ${CMAKE_INSTALL_BINDIR})
install(DIRECTORY ${CMAKE_SOURCE_DIR}/fonts ${CMAKE_SOURCE_DIR}/templates
        DESTINATION ${CMAKE_INSTALL_DATADIR}/leafwright)
# What the page offers in an empty folder.
install(DIRECTORY ${CMAKE_SOURCE_DIR}/samples DESTINATION ${CMAKE_INSTALL_DATADIR}/leafwright
        FILES_MATCHING PATTERN "*.xml" PATTERN "roster.csv" PATTERN "shown" EXCLUDE)
# A project file opens on its page by a double click, wherever it is known by its root element.
install(FILES ${CMAKE_CURRENT_SOURCE_DIR}/package/leafwright.desktop DESTINATION ${CMAKE_INSTALL_DATADIR}/applications)
install(FILES ${CMAKE_CURRENT_SOURCE_DIR}/package/leafwright.xml DESTINATION ${CMAKE_INSTALL_DATADIR}/mime/packages)
install(FILES ${CMAKE_SOURCE_DIR}/templates/page/leaf.svg RENAME leafwright.svg
        DESTINATION ${CMAKE_INSTALL_DATADIR}/icons/hicolor/scalable/apps)
install(FILES ${CMAKE_CURRENT_SOURCE_DIR}/package/lintian-overrides RENAME leafwright
        DESTINATION ${CMAKE_INSTALL_DATADIR}/lintian/overrides)
install(FILES ${CMAKE_SOURCE_DIR}/LICENSE RENAME copyright DESTINATION ${CMAKE_INSTALL_DATADIR}/doc/leafwright)
install(CODE "
  set(PROGRAM \"$<TARGET_FILE:leafwright>\")
  set(SOURCES \"${CMAKE_SOURCE_DIR}\")
  set(SHARE \"\$ENV{DESTDIR}\${CMAKE_INSTALL_PREFIX}/${CMAKE_INSTALL_DATADIR}\")
  include(\"${CMAKE_CURRENT_SOURCE_DIR}/package/install_manual.cmake\")
")
