# barmkeep_add_plugin(target SOURCES file... [NAME name] [LIBRARIES library...])
#
# Builds a plugin as NAME.so (NAME is the target's name unless given).  The file must bear the
# plugin's own name: the daemon looks for it by that, and a disabled plugin is known by its file.
# All symbols but the entry are hidden, so that two plugins never meet.  Inside Barmkeep's own tree
# it is built into plugins/ of the build folder and installed with the daemon's plugins.
function(barmkeep_add_plugin target)
  cmake_parse_arguments(PLUGIN "" "NAME" "SOURCES;LIBRARIES" ${ARGN})
  if(NOT PLUGIN_NAME)
    set(PLUGIN_NAME ${target})
  endif()
  add_library(${target} MODULE ${PLUGIN_SOURCES})
  set_target_properties(${target} PROPERTIES PREFIX "" OUTPUT_NAME ${PLUGIN_NAME}
    CXX_VISIBILITY_PRESET hidden C_VISIBILITY_PRESET hidden VISIBILITY_INLINES_HIDDEN ON)
  target_link_options(${target} PRIVATE -Wl,--exclude-libs,ALL)
  if(TARGET barmkeep_plugin_sdk)
    target_link_libraries(${target} PRIVATE barmkeep_plugin_sdk ${PLUGIN_LIBRARIES})
    set_target_properties(${target} PROPERTIES
      LIBRARY_OUTPUT_DIRECTORY ${barmkeep_plugin_output_dir})
  else()
    target_link_libraries(${target} PRIVATE barmkeep::plugin ${PLUGIN_LIBRARIES})
  endif()
endfunction()
