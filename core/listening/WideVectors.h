// Lets a function use the wider vector instructions of the machine it runs on.
#pragma once

/// Before a function definition: it is compiled twice, for any x86-64 and for those with AVX2 and FMA, and
/// the better one is taken when the program starts (GCC manual, attribute target_clones). What it should
/// speed up must be inlined into it. Elsewhere, and under sanitizers (which start later than the choice is
/// made), it is compiled once as usual. The last digits of results may differ from machine to machine.
#if defined(__x86_64__) && defined(__GNUC__) && !defined(__clang__) && !defined(__SANITIZE_ADDRESS__) &&     \
    !defined(__SANITIZE_THREAD__)
#define EARWRIGHT_WIDE_VECTORS [[gnu::target_clones("default", "arch=x86-64-v3")]]
#define EARWRIGHT_INLINE [[gnu::always_inline]]
#else
#define EARWRIGHT_WIDE_VECTORS
#define EARWRIGHT_INLINE
#endif
