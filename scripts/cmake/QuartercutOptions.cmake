# What every target is built with: language level and floating point (options), and our warnings (never exported).
if(NOT CMAKE_BUILD_TYPE AND NOT CMAKE_CONFIGURATION_TYPES)
  set(CMAKE_BUILD_TYPE Release)
endif()
set(CMAKE_EXPORT_COMPILE_COMMANDS ON)

add_library(quartercut_options INTERFACE)
target_compile_features(quartercut_options INTERFACE cxx_std_20)
set(CMAKE_CXX_EXTENSIONS OFF)
# No fused multiply-add behind our back: the same numbers from g++ and clang, and on machines with and without FMA.
target_compile_options(quartercut_options INTERFACE -ffp-contract=off)
target_include_directories(quartercut_options INTERFACE ${CMAKE_SOURCE_DIR}/include ${CMAKE_SOURCE_DIR}/src)

add_library(quartercut_warnings INTERFACE)
target_compile_options(quartercut_warnings INTERFACE
  -Wall -Wextra -Wpedantic -Wshadow -Wconversion -Wsign-conversion -Wdouble-promotion -Wnon-virtual-dtor
  -Wold-style-cast -Wcast-align -Woverloaded-virtual -Wformat=2
  # g++ 12 sees an overlapping copy in every "text" + std::string (GCC bug 105651).
  $<$<CXX_COMPILER_ID:GNU>:-Wduplicated-cond -Wlogical-op -Wno-restrict>
  $<$<BOOL:${QUARTERCUT_WERROR}>:-Werror>)
