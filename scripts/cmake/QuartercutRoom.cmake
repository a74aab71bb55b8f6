# quartercut_room(NAME SOURCES a.cpp ... USES room ... LIBRARIES Package::target ...)
# One static library a room. USES names the rooms before it; what a room does not link it cannot use.
function(quartercut_room name)
  cmake_parse_arguments(ROOM "" "" "SOURCES;USES;LIBRARIES" ${ARGN})
  add_library(quartercut_${name} STATIC ${ROOM_SOURCES})
  list(TRANSFORM ROOM_USES PREPEND quartercut_)
  target_link_libraries(quartercut_${name}
    PUBLIC quartercut_options ${ROOM_USES}
    PRIVATE quartercut_warnings ${ROOM_LIBRARIES})
endfunction()

# quartercut_test(ROOM SOURCES a_test.cpp ... LIBRARIES ...)
# One GoogleTest program a room; each TEST becomes a CTest of its own with a time limit.
function(quartercut_test room)
  cmake_parse_arguments(TESTED "" "" "SOURCES;LIBRARIES" ${ARGN})
  add_executable(test_${room} ${TESTED_SOURCES})
  target_link_libraries(test_${room} PRIVATE quartercut_${room} quartercut_warnings GTest::gmock GTest::gtest_main
    ${TESTED_LIBRARIES})
  target_compile_definitions(test_${room} PRIVATE QUARTERCUT_TESTS_DIR="${CMAKE_SOURCE_DIR}/tests")
  gtest_discover_tests(test_${room} PROPERTIES TIMEOUT 300 LABELS ${room} DISCOVERY_TIMEOUT 60)
endfunction()
