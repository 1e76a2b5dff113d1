// Lets a function use the wider vector instructions of the machine it runs on.
#pragma once

#include <cstddef>
#include <cstring>

/// Before a function definition: it is compiled twice, for any x86-64 and for those with AVX2 and FMA, and
/// the better one is taken when the program starts (GCC manual, attribute target_clones). What it should
/// speed up must be inlined into it. Elsewhere, and under sanitizers (which start later than the choice is
/// made), it is compiled once as usual. The last digits of results may differ from machine to machine.
#if defined(__x86_64__) && defined(__GNUC__) && !defined(__clang__) && !defined(__SANITIZE_ADDRESS__) &&     \
    !defined(__SANITIZE_THREAD__)
#define EARWRIGHT_WIDE_VECTORS [[gnu::target_clones("default", "arch=x86-64-v3")]]
#define EARWRIGHT_WIDEST_VECTORS [[gnu::target("arch=x86-64-v4")]]
#define EARWRIGHT_HAS_WIDEST_VECTORS __builtin_cpu_supports("x86-64-v4")
#define EARWRIGHT_INLINE [[gnu::always_inline]]
#else
#define EARWRIGHT_WIDE_VECTORS
#define EARWRIGHT_WIDEST_VECTORS
#define EARWRIGHT_HAS_WIDEST_VECTORS false
#define EARWRIGHT_INLINE
#endif

/// Before a loop that reads and writes numbers which lie apart: it need not look whether they overlap, and
/// becomes vector instructions where there are too many of them to look (GCC manual, loop-specific pragmas).
#if defined(__GNUC__) && !defined(__clang__)
#define EARWRIGHT_APART _Pragma("GCC ivdep")
#else
#define EARWRIGHT_APART
#endif

namespace earwright {

/// Eight numbers that are reckoned with at once: one register where the machine has such wide ones, two or
/// more where it has not (GCC manual, vector extensions; Clang has them too).
using Wide [[gnu::vector_size(32)]] = float;
inline constexpr std::size_t wideSize = sizeof(Wide) / sizeof(float);

/// Sixteen, for functions that are compiled for machines with AVX-512 (EARWRIGHT_WIDEST_VECTORS) and called
/// only there. Any other machine is many times slower with them than with eight.
using Widest [[gnu::vector_size(64)]] = float;

/// Whether functions for the widest vectors may be called.
inline bool hasWidestVectors() {
    static const bool has = EARWRIGHT_HAS_WIDEST_VECTORS;
    return has;
}

/// They go by reference: how they are passed by value differs between machines.
template <class Vector>
EARWRIGHT_INLINE inline void load(Vector& to, const float* from) {
    std::memcpy(&to, from, sizeof to);
}

template <class Vector>
EARWRIGHT_INLINE inline void store(float* to, const Vector& from) {
    std::memcpy(to, &from, sizeof from);
}

} // namespace earwright
