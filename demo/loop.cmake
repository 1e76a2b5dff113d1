# Prints where the loop of a study begins and ends, in seconds: cmake -DSTUDY=FILE -P loop.cmake
# CMake reads JSON and is there in any case, as the build needs it.
file(READ "${STUDY}" text)
string(JSON begin ERROR_VARIABLE missing GET "${text}" practice loop begin)
string(JSON end ERROR_VARIABLE missing GET "${text}" practice loop end)
if(missing)
  message(FATAL_ERROR "${STUDY} has no loop; open it on the desk, set one and save")
endif()
execute_process(COMMAND ${CMAKE_COMMAND} -E echo "${begin} ${end}")
