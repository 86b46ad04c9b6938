# brewing_physics_bench: extract, instruments, steam, gauges and units.
add_executable(brewing_physics_bench ${CMAKE_CURRENT_LIST_DIR}/brewing_physics.cpp)
target_link_libraries(brewing_physics_bench PRIVATE
  barmkeep_brewing benchmark::benchmark benchmark::benchmark_main)
