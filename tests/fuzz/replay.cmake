# The stored corpus, fed to every fuzz target by a small program: part of the tests, with any compiler.
foreach(target season land quantity records tickets task_data earlier_results report_data part)
  add_executable(replay_${target} ${CMAKE_CURRENT_LIST_DIR}/${target}_fuzz.cpp ${CMAKE_CURRENT_LIST_DIR}/replay.cpp)
  target_link_libraries(replay_${target} PRIVATE quartercut_report quartercut_write quartercut_read quartercut_warnings GDAL::GDAL fmt::fmt)
  add_test(NAME corpus_${target} COMMAND replay_${target} ${CMAKE_CURRENT_LIST_DIR}/seeds/${target})
  set_tests_properties(corpus_${target} PROPERTIES TIMEOUT 120 LABELS fuzz)
endforeach()
