# libsumwright, shared and static, of the objects of sumwright_inside; what of it is installed.
include(GNUInstallDirs)

add_library(sumwright_shared SHARED $<TARGET_OBJECTS:sumwright_inside>)
target_link_libraries(sumwright_shared PRIVATE sumwright_options m)
set_target_properties(sumwright_shared PROPERTIES
  OUTPUT_NAME sumwright VERSION ${PROJECT_VERSION} SOVERSION ${PROJECT_VERSION_MAJOR})

# The static library is one object in which all names but the header's are local, so that none meets
# one of the program's that links it. Without objcopy it is a plain archive.
set(archive ${CMAKE_CURRENT_BINARY_DIR}/libsumwright.a)
set(whole ${CMAKE_CURRENT_BINARY_DIR}/libsumwright.o)
if(CMAKE_OBJCOPY AND CMAKE_LINKER AND NOT APPLE)
  set(join COMMAND ${CMAKE_LINKER} -r -o ${whole} $<TARGET_OBJECTS:sumwright_inside>
           COMMAND ${CMAKE_OBJCOPY} --localize-hidden ${whole}
           COMMAND ${CMAKE_AR} qcs ${archive} ${whole})
else()
  set(join COMMAND ${CMAKE_AR} qcs ${archive} $<TARGET_OBJECTS:sumwright_inside>)
endif()
add_custom_command(OUTPUT ${archive} COMMAND ${CMAKE_COMMAND} -E rm -f ${archive} ${join}
  DEPENDS sumwright_inside $<TARGET_OBJECTS:sumwright_inside> VERBATIM COMMAND_EXPAND_LISTS)
add_custom_target(sumwright_static ALL DEPENDS ${archive})

# Where it stands, the file for pkg-config finds the rest from itself.
file(RELATIVE_PATH SUMWRIGHT_PC_TO_PREFIX
  /${CMAKE_INSTALL_LIBDIR}/pkgconfig /)
string(REGEX REPLACE "/$" "" SUMWRIGHT_PC_TO_PREFIX ${SUMWRIGHT_PC_TO_PREFIX})
configure_file(emit/library/sumwright.pc.in sumwright.pc @ONLY)

install(TARGETS sumwright_shared)
install(FILES ${archive} DESTINATION ${CMAKE_INSTALL_LIBDIR})
install(FILES emit/library/sumwright.h DESTINATION ${CMAKE_INSTALL_INCLUDEDIR})
install(FILES ${CMAKE_CURRENT_BINARY_DIR}/sumwright.pc
  DESTINATION ${CMAKE_INSTALL_LIBDIR}/pkgconfig)
