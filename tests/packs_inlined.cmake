# What works on packs is compiled for several widths of vectors only as far as it is inlined into a function that is
# (vector_clones.hpp). What GCC leaves out runs two lanes at a time, and nothing else tells: here its symbols do.
# Arguments: NM, LIBRARY.

execute_process(COMMAND "${NM}" -C "${LIBRARY}" OUTPUT_VARIABLE symbols RESULT_VARIABLE failed ERROR_QUIET)
if(failed)
  message(FATAL_ERROR "${NM} could not read ${LIBRARY}")
endif()
if(NOT symbols MATCHES "engine::step\\(cook::engine::LineSystem<cook::engine::Pack")
  message(FATAL_ERROR "no step of a pack in ${LIBRARY}: this test looks for the wrong names")
endif()
# Members of a pack's system, and functions that are made for packs. Constructors begin with a capital letter.
string(REGEX MATCHALL
             " [tTwW] [^\n]*(LineSystem<cook::engine::Pack[^>]*>::[a-z_]+\\(|[a-z_]+<cook::engine::Pack[^>]*>\\()[^\n]*"
             left_out "${symbols}")
if(left_out)
  string(REPLACE ";" "\n" left_out "${left_out}")
  message(FATAL_ERROR "not inlined into the step of a pack; [[gnu::always_inline]] helps:\n${left_out}")
endif()
