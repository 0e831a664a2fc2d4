# Has a target's files compiled several at a time, at most so many: what costs most is reading the same headers again.
set(BALLCHANGE_GROUPS ${CMAKE_CURRENT_LIST_DIR}/together.py)
set_property(DIRECTORY APPEND PROPERTY CMAKE_CONFIGURE_DEPENDS ${BALLCHANGE_GROUPS})

function(ballchange_together target most)
  get_target_property(files ${target} SOURCES)
  list(FILTER files EXCLUDE REGEX "TARGET_OBJECTS")
  get_target_property(folder ${target} SOURCE_DIR)
  list(TRANSFORM files PREPEND ${folder}/ REGEX "^[^/]")
  execute_process(COMMAND ${BALLCHANGE_PYTHON} -B ${BALLCHANGE_GROUPS} ${most} ${files}
    OUTPUT_VARIABLE pairs COMMAND_ERROR_IS_FATAL ANY)
  foreach(pair IN LISTS pairs)
    string(REPLACE "|" ";" pair "${pair}")
    list(GET pair 0 file)
    list(GET pair 1 group)
    set_source_files_properties(${file} TARGET_DIRECTORY ${target} PROPERTIES UNITY_GROUP ${group})
  endforeach()
  set_target_properties(${target} PROPERTIES UNITY_BUILD ON UNITY_BUILD_MODE GROUP)
  target_compile_options(${target} PRIVATE -Wno-shadow)  # what one file keeps to itself, another may name a local
endfunction()

get_property(layers GLOBAL PROPERTY ballchange_layers)
foreach(layer IN LISTS layers)
  ballchange_together(${layer} 16)
endforeach()
