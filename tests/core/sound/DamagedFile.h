// Sound files with bytes changed at random: whatever comes of it, nothing breaks.
#pragma once

#include "core/sound/Recording.h"

#include <cmath>
#include <filesystem>
#include <fstream>
#include <gtest/gtest.h>
#include <iterator>
#include <string>
#include <vector>

namespace earwright::tests {

inline std::string bytesOf(const std::filesystem::path& path) {
    std::ifstream file(path, std::ios::binary);
    return {std::istreambuf_iterator<char>(file), {}};
}

/// The same bytes in the same places for a seed.
class RandomDamage {
public:
    explicit RandomDamage(unsigned seed) : random(seed) {}
    /// Changes a byte of [from, to). Requires: from < to, both within.
    void hit(std::string& bytes, std::size_t from, std::size_t to) {
        ASSERT_LT(from, to);
        ASSERT_LE(to, bytes.size());
        const std::size_t place = from + below(to - from);
        bytes[place] = static_cast<char>(below(256));
    }

private:
    std::size_t below(std::size_t limit) {
        random = random * 1664525u + 1013904223u;
        return static_cast<std::size_t>(random >> 8) % limit;
    }

    unsigned random;
};

/// Refused in a sentence, or numbers are read from its middle. Whether it was read.
inline bool isReadCalmly(const std::filesystem::path& path) {
    const auto opened = Recording::open(path);
    if (!opened) {
        EXPECT_FALSE(opened.error().message.empty());
        return false;
    }
    std::vector<float> block(2000);
    (*opened)->read(Frames((*opened)->length().value / 2), block);
    for (const float sample : block)
        EXPECT_TRUE(std::isfinite(sample)) << path;
    return true;
}

} // namespace earwright::tests
