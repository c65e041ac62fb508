// doctest's main, alone in its file because it is slow to compile.
#define DOCTEST_CONFIG_IMPLEMENT_WITH_MAIN
#include <doctest/doctest.h>
