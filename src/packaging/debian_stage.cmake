# What Debian's policy wants beside the files that every installation has; run by CPack on what is to be packed.
set(share ${CPACK_TEMPORARY_INSTALL_DIRECTORY}/usr/share)
set(doc ${share}/doc/ballchange)
file(COPY ${CMAKE_CURRENT_LIST_DIR}/debian/copyright DESTINATION ${doc})
configure_file(${CMAKE_CURRENT_LIST_DIR}/debian/changelog ${doc}/changelog.Debian @ONLY)
file(GLOB pages ${share}/man/man*/*.[0-9])
execute_process(COMMAND gzip -9n ${doc}/changelog.Debian ${pages} COMMAND_ERROR_IS_FATAL ANY)
