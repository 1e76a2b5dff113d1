// The music font that the build has fetched, for tests that need its measures.
#pragma once

#include "core/engraving/FontMetrics.h"

#include <filesystem>
#include <gtest/gtest.h>

namespace earwright {

/// Skips the test that says it where the font could not be fetched.
#ifdef EARWRIGHT_MUSIC_FONT
#define NEEDS_MUSIC_FONT static_cast<void>(0)
inline FontMetrics musicFont() {
    const auto read = FontMetrics::read(std::filesystem::path(EARWRIGHT_MUSIC_FONT) / "metadata.json");
    EXPECT_TRUE(read) << read.error().message;
    return *read;
}
#else
#define NEEDS_MUSIC_FONT GTEST_SKIP() << "the music font could not be fetched from npm"
inline FontMetrics musicFont() {
    return {};
}
#endif

} // namespace earwright
