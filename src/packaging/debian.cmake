# The Debian package: configure with -DCMAKE_INSTALL_PREFIX=/usr, build, then `cpack -G DEB` in the build folder.
set(CPACK_GENERATOR DEB)
set(CPACK_PACKAGE_NAME ballchange)
set(CPACK_PACKAGE_VERSION ${PROJECT_VERSION})
set(CPACK_PACKAGE_DESCRIPTION_SUMMARY "where to cut both yarn ends at a ball change")
set(CPACK_PACKAGE_DESCRIPTION
"Some yarns are dyed in long stretches of colour that repeat after some
metres. Where a ball ends in the middle of that repeat and the next one is
simply joined on, the colours jump, and the jump shows across the piece.
.
From what the two loose ends show, ballchange tells a crocheter or knitter
what to check before cutting, where to cut each end, where the join will
lie and what it costs in yarn. It keeps the log of a piece, tells the best
order of the balls and how many to buy, and learns the repeat of a yarn.")
set(CPACK_STRIP_FILES ON)
set(CPACK_PACKAGING_INSTALL_PREFIX /usr)
set(CPACK_INSTALL_DEFAULT_DIRECTORY_PERMISSIONS
  OWNER_READ OWNER_WRITE OWNER_EXECUTE GROUP_READ GROUP_EXECUTE WORLD_READ WORLD_EXECUTE)
set(CPACK_PRE_BUILD_SCRIPTS ${CMAKE_CURRENT_LIST_DIR}/debian_stage.cmake)
set(CPACK_PROJECT_CONFIG_FILE ${CMAKE_CURRENT_LIST_DIR}/debian_check.cmake)
set(CPACK_BALLCHANGE_BUILT_FOR ${CMAKE_INSTALL_PREFIX})

set(CPACK_DEBIAN_FILE_NAME DEB-DEFAULT)
set(CPACK_DEBIAN_PACKAGE_RELEASE 1)
set(CPACK_DEBIAN_PACKAGE_SECTION misc)
set(CPACK_DEBIAN_PACKAGE_PRIORITY optional)
set(CPACK_DEBIAN_PACKAGE_SHLIBDEPS ON)
set(CPACK_DEBIAN_PACKAGE_CONTROL_STRICT_PERMISSION ON)
set(CPACK_DEBIAN_PACKAGE_SUGGESTS "bash-completion")
# As Debian's own tools have it: whoever builds the package signs for it. example.org is nobody's (RFC 2606).
if(DEFINED ENV{DEBFULLNAME} AND DEFINED ENV{DEBEMAIL})
  set(CPACK_DEBIAN_PACKAGE_MAINTAINER "$ENV{DEBFULLNAME} <$ENV{DEBEMAIL}>")
else()
  set(CPACK_DEBIAN_PACKAGE_MAINTAINER "ballchange maintainers <maintainers@example.org>")
endif()
include(CPack)
