# How our own targets are compiled. Third-party headers are SYSTEM, so the warnings below never reach them.

include(CheckCXXCompilerFlag)

# cook_compile_options(<target>): warnings, processor and sanitizers for one of our targets.
function(cook_compile_options target)
  set_target_properties(${target} PROPERTIES CXX_STANDARD 20 CXX_STANDARD_REQUIRED ON CXX_EXTENSIONS OFF)

  if(MSVC)
    target_compile_options(${target} PRIVATE /W4 /permissive- /utf-8 $<$<BOOL:${COOK_WERROR}>:/WX>)
  else()
    target_compile_options(
      ${target} PRIVATE -Wall -Wextra -Wpedantic -Wconversion -Wshadow $<$<BOOL:${COOK_WERROR}>:-Werror>)
  endif()

  # GCC 12 sees overlaps in `"text" + std::string` that are not there (GCC bug 105651, mended in 13).
  if(CMAKE_CXX_COMPILER_ID STREQUAL "GNU" AND CMAKE_CXX_COMPILER_VERSION VERSION_LESS 13)
    target_compile_options(${target} PRIVATE -Wno-restrict -Wno-maybe-uninitialized)
  endif()

  # Vectors never cross the border of a function that is not inlined (engine/arithmetic/pack.hpp).
  if(CMAKE_CXX_COMPILER_ID MATCHES "GNU|Clang")
    target_compile_options(${target} PRIVATE -Wno-psabi)
  endif()

  # NOTE: no -ffast-math. The finite-value checks and the error control rely on NaN and infinity being seen.
  if(COOK_NATIVE)
    check_cxx_compiler_flag(-march=native cook_has_march_native)
    if(cook_has_march_native)
      target_compile_options(${target} PRIVATE -march=native)
    else()
      message(WARNING "COOK_NATIVE: this compiler has no -march=native; building for the default processor")
    endif()
  endif()

  # The checks at every arrow (null, alignment, ...) take half of the time, to compile and to run. What they find here,
  # a null or freed pointer, or one beyond its object, the address sanitizer finds too.
  if(COOK_SANITIZE)
    set(sanitizers -fsanitize=address,undefined)
    target_compile_options(
      ${target} PRIVATE ${sanitizers} -fno-sanitize=null,alignment,object-size,vptr -O1 -fno-sanitize-recover=all
                        -fno-omit-frame-pointer)
    target_link_options(${target} PUBLIC ${sanitizers})
  endif()
endfunction()

# cook_without_stack_fences(<file>...): for code on packs. Each number in between is a pack of its own on the stack, and a
# fence around each takes most of the time. The same templates run with fences on doubles; the heap, numbers and indices
# of packs are watched all the same.
function(cook_without_stack_fences)
  if(COOK_SANITIZE AND CMAKE_CXX_COMPILER_ID STREQUAL "GNU")
    set_property(SOURCE ${ARGN} APPEND PROPERTY COMPILE_OPTIONS --param=asan-stack=0)
  endif()
endfunction()

# cook_unity(<target> <files>): compiles it so many files at a time, if COOK_UNITY is on; the headers are then read once
# for all of them. The files of such a target share their unnamed namespaces, so a name in one stands in no other file.
function(cook_unity target files)
  set_target_properties(${target} PROPERTIES UNITY_BUILD ${COOK_UNITY} UNITY_BUILD_BATCH_SIZE ${files})
endfunction()

# cook_low_optimisation(<target>): for code that runs seldom, or hands over what other code computes. Half of the time
# to compile it goes into optimising it; numbers are the same. A Debug build stays one.
function(cook_low_optimisation target)
  if(CMAKE_CXX_COMPILER_ID MATCHES "GNU|Clang")
    target_compile_options(${target} PRIVATE $<$<CONFIG:Release>:-O1>)
  endif()
endfunction()
