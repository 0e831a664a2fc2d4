# Has a target's files compiled several at a time, at most so many: what costs most is reading the same headers again.
set(BALLCHANGE_JOINS ${CMAKE_CURRENT_LIST_DIR}/together.py)
set_property(DIRECTORY APPEND PROPERTY CMAKE_CONFIGURE_DEPENDS ${BALLCHANGE_JOINS})

# ballchange_together(TARGET MOST [APART FILE...])
function(ballchange_together target most)
  cmake_parse_arguments(PARSE_ARGV 2 arg "" "" "APART")
  get_target_property(files ${target} SOURCES)
  list(FILTER files EXCLUDE REGEX "TARGET_OBJECTS")
  get_target_property(folder ${target} SOURCE_DIR)
  list(TRANSFORM files PREPEND ${folder}/ REGEX "^[^/]")
  foreach(file IN LISTS files)
    get_source_file_property(own ${file} TARGET_DIRECTORY ${target} COMPILE_DEFINITIONS)
    if(own)  # it is compiled otherwise
      list(APPEND arg_APART ${file})
    endif()
  endforeach()
  if(arg_APART)
    list(REMOVE_ITEM files ${arg_APART})
  endif()
  execute_process(COMMAND ${BALLCHANGE_PYTHON} -B ${BALLCHANGE_JOINS} ${most} ${CMAKE_BINARY_DIR}/together/${target} ${files}
    OUTPUT_VARIABLE made COMMAND_ERROR_IS_FATAL ANY)
  set_source_files_properties(${files} TARGET_DIRECTORY ${target} PROPERTIES HEADER_FILE_ONLY ON)
  target_sources(${target} PRIVATE ${made})
  target_compile_options(${target} PRIVATE -Wno-shadow)  # what one file keeps to itself, another may name a local
  if(CMAKE_CXX_COMPILER_ID STREQUAL GNU)
    target_compile_options(${target} PRIVATE -Wno-maybe-uninitialized)  # false alarms, the more the more is inlined
  endif()
  # A name that came or went may be another's own.
  file(GLOB headers ${folder}/*.hpp ${folder}/*/*.hpp)
  set_property(DIRECTORY ${CMAKE_SOURCE_DIR} APPEND PROPERTY CMAKE_CONFIGURE_DEPENDS ${files} ${headers})
endfunction()

get_property(layers GLOBAL PROPERTY ballchange_layers)
foreach(layer IN LISTS layers)
  ballchange_together(${layer} 20)
endforeach()
