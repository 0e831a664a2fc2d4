# The program holds the folder its yarn profiles are installed to.
if(CPACK_GENERATOR STREQUAL "DEB" AND NOT CPACK_BALLCHANGE_BUILT_FOR STREQUAL "/usr")
  message(FATAL_ERROR "this build is for ${CPACK_BALLCHANGE_BUILT_FOR}: for a Debian package configure it with "
    "-DCMAKE_INSTALL_PREFIX=/usr")
endif()
