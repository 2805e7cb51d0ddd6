# `cpack --config build/release/CPackConfig.cmake`: a Debian package, its dependencies read off the program, and the
# same files as a tarball.
set(CPACK_GENERATOR DEB TGZ)
set(CPACK_PACKAGE_NAME leafwright)
set(CPACK_PACKAGE_CONTACT "The Leafwright authors <leafwright@example.org>")
set(CPACK_PACKAGE_DESCRIPTION_SUMMARY "makes the papers for a set of handmade cards")
set(CPACK_PACKAGE_DESCRIPTION "Leafwright reads one XML project that describes a set of layered
cards and makes the step-by-step tutorial, cutting plan, shopping list,
offer, packing slips and everything else that is needed to teach, sell,
cut and pack it.")
set(CPACK_PACKAGING_INSTALL_PREFIX /usr)
set(CPACK_STRIP_FILES ON)
set(CPACK_DEBIAN_FILE_NAME DEB-DEFAULT)
set(CPACK_DEBIAN_PACKAGE_SECTION graphics)
set(CPACK_DEBIAN_PACKAGE_SHLIBDEPS ON)
set(CPACK_DEBIAN_PACKAGE_DEPENDS hyphen-en-us)
include(CPack)
