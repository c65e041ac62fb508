/// @file
/// Loops that are compiled twice: for any processor, and for one with wider vectors.
#pragma once

#if defined(__GNUC__) && !defined(__clang__) && defined(__x86_64__) && defined(__linux__) &&                 \
    !defined(__SANITIZE_ADDRESS__) && !defined(__SANITIZE_THREAD__) && !defined(COOK_VECTORS_baseline)
#define COOK_CLONES 1
#endif

/// In front of a function whose loops run over long arrays: the loader picks the version that the processor
/// has. AVX2 without fused multiply-add, which rounds differently: a cook gives the same bits on every
/// machine. Not with the sanitizers, which are not ready yet when the loader picks.
#if defined(COOK_CLONES)
#define COOK_VECTOR_CLONES [[gnu::target_clones("avx2", "default")]]
#else
#define COOK_VECTOR_CLONES
#endif

/// The same, with everything the function calls inlined into it.
#if defined(COOK_CLONES)
#define COOK_STEP_CLONES [[gnu::target_clones("avx2", "default"), gnu::flatten]]
#else
#define COOK_STEP_CLONES
#endif

/// In front of a function that works on packs (pack.hpp), with everything it calls inlined into it: three
/// versions, four lanes an instruction with AVX-512's masks and registers, four with AVX2, and two. Fused
/// multiply-adds are used here, so that a pack's last digits depend on the processor.
///
/// GCC 12 and 13 inline before they make the versions, and never from a version's own instructions into the
/// baseline's: what is left over then runs two lanes at a time, a third of a batch's time once. So what
/// works on packs is inlined by force, function by function ([[gnu::always_inline]]); the test packs.inlined
/// names what is not.
#if defined(COOK_CLONES) && defined(COOK_VECTORS_avx2)
#define COOK_PACK_CLONES [[gnu::target_clones("arch=x86-64-v3", "default"), gnu::flatten]]
#elif defined(COOK_CLONES)
#define COOK_PACK_CLONES [[gnu::target_clones("arch=x86-64-v4", "arch=x86-64-v3", "default"), gnu::flatten]]
#else
#define COOK_PACK_CLONES
#endif

/// In front of a loop whose rounds do not depend on each other: what it writes is not what another round
/// reads. The compilers give up when they would have to check that for a dozen arrays.
#if defined(__clang__)
#define COOK_INDEPENDENT _Pragma("clang loop vectorize(assume_safety)")
#elif defined(__GNUC__)
#define COOK_INDEPENDENT _Pragma("GCC ivdep")
#else
#define COOK_INDEPENDENT
#endif
