# The SDK as a package of its own: find_package(barmkeep CONFIG) gives the targets barmkeep::plugin,
# barmkeep::client, barmkeep::sheet, barmkeep::contract, barmkeep::method, barmkeep::brewing and barmkeep::abi, the
# function barmkeep_add_plugin, and barmkeep_PLUGIN_DIR, where the daemon looks for plugins.
include(CMakePackageConfigHelpers)
set(barmkeep_cmake_dir ${CMAKE_INSTALL_LIBDIR}/cmake/barmkeep)

# Our own warnings and sanitizers are no business of those who build against us.
foreach(property INTERFACE_COMPILE_OPTIONS INTERFACE_LINK_OPTIONS)
  get_target_property(ours barmkeep_build ${property})
  if(ours)
    list(TRANSFORM ours PREPEND "$<BUILD_INTERFACE:")
    list(TRANSFORM ours APPEND ">")
    set_target_properties(barmkeep_build PROPERTIES ${property} "${ours}")
  endif()
endforeach()
target_include_directories(barmkeep_build INTERFACE
  $<INSTALL_INTERFACE:${CMAKE_INSTALL_INCLUDEDIR}/barmkeep>)
target_compile_features(barmkeep_method PUBLIC cxx_std_20)

set(exported build abi brewing method contract sheet client)
foreach(name ${exported})
  set_target_properties(barmkeep_${name} PROPERTIES EXPORT_NAME ${name})
  install(TARGETS barmkeep_${name} EXPORT barmkeepTargets
    ARCHIVE DESTINATION ${CMAKE_INSTALL_LIBDIR} COMPONENT sdk)
endforeach()
set_target_properties(barmkeep_plugin_sdk PROPERTIES EXPORT_NAME plugin)
install(TARGETS barmkeep_plugin_sdk EXPORT barmkeepTargets
  ARCHIVE DESTINATION ${CMAKE_INSTALL_LIBDIR} COMPONENT sdk)
install(TARGETS barmkeep-plugin-check RUNTIME DESTINATION ${CMAKE_INSTALL_BINDIR} COMPONENT sdk)

# Headers keep their paths from the root of the tree: #include "sdk/plugin/plugin.hpp".
foreach(room system abi brewing method contract sheet plugin client)
  install(DIRECTORY ${CMAKE_CURRENT_SOURCE_DIR}/${room}
    DESTINATION ${CMAKE_INSTALL_INCLUDEDIR}/barmkeep/sdk COMPONENT sdk
    FILES_MATCHING PATTERN "*.hpp" PATTERN "*.h" PATTERN check EXCLUDE)
endforeach()

install(EXPORT barmkeepTargets NAMESPACE barmkeep:: DESTINATION ${barmkeep_cmake_dir} COMPONENT sdk)
configure_package_config_file(barmkeepConfig.cmake.in
  ${CMAKE_CURRENT_BINARY_DIR}/barmkeepConfig.cmake
  INSTALL_DESTINATION ${barmkeep_cmake_dir} PATH_VARS barmkeep_plugin_dir)
write_basic_package_version_file(${CMAKE_CURRENT_BINARY_DIR}/barmkeepConfigVersion.cmake
  COMPATIBILITY SameMinorVersion)
install(FILES ${CMAKE_CURRENT_BINARY_DIR}/barmkeepConfig.cmake
  ${CMAKE_CURRENT_BINARY_DIR}/barmkeepConfigVersion.cmake plugin/barmkeepAddPlugin.cmake
  DESTINATION ${barmkeep_cmake_dir} COMPONENT sdk)
