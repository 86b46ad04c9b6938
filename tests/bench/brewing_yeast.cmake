# brewing_yeast_bench: viability, pitching, growth, counting and learning.
add_executable(brewing_yeast_bench ${CMAKE_CURRENT_LIST_DIR}/brewing_yeast.cpp)
target_link_libraries(brewing_yeast_bench PRIVATE barmkeep_brewing benchmark::benchmark_main)
