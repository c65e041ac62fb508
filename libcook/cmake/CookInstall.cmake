# Installs the library with a package config, so that find_package(libcook) works elsewhere.

include(CMakePackageConfigHelpers)
include(GNUInstallDirs)

# cook_install_library(<target>): component "Development". The Python extension has its own component, the only
# one that enters the wheel.
function(cook_install_library target)
  set(package_dir "${CMAKE_INSTALL_LIBDIR}/cmake/libcook")

  install(
    TARGETS ${target}
    EXPORT libcook-targets
    COMPONENT Development
    FILE_SET HEADERS)
  install(
    EXPORT libcook-targets
    NAMESPACE libcook::
    DESTINATION "${package_dir}"
    COMPONENT Development)

  configure_package_config_file(
    "${PROJECT_SOURCE_DIR}/libcook/cmake/libcook-config.cmake.in"
    "${PROJECT_BINARY_DIR}/libcook-config.cmake"
    INSTALL_DESTINATION "${package_dir}"
    NO_SET_AND_CHECK_MACRO)
  write_basic_package_version_file("${PROJECT_BINARY_DIR}/libcook-config-version.cmake"
                                   COMPATIBILITY SameMinorVersion)
  install(
    FILES "${PROJECT_BINARY_DIR}/libcook-config.cmake" "${PROJECT_BINARY_DIR}/libcook-config-version.cmake"
    DESTINATION "${package_dir}"
    COMPONENT Development)
endfunction()
