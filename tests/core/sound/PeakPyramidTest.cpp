#include "core/sound/PeakPyramid.h"

#include "tests/core/sound/WrittenFile.h"

#include <cmath>
#include <gtest/gtest.h>
#include <sndfile.h>
#include <thread>

namespace earwright {
namespace {

std::shared_ptr<Recording> recordingOf(const tests::ScratchFolder& folder, const std::vector<float>& samples,
                                       int channels = 1) {
    tests::writeSound(folder / "r.wav", SF_FORMAT_WAV | SF_FORMAT_FLOAT, 44100, channels, samples);
    auto opened = Recording::open(folder / "r.wav");
    EXPECT_TRUE(opened.ok());
    return *opened;
}

TEST(PeakPyramid, FindsASingleClickAtEveryZoom) {
    const tests::ScratchFolder folder;
    std::vector<float> samples(300000, 0.0f);
    samples[200001] = -0.75f;
    const auto recording = recordingOf(folder, samples);
    PeakPyramid peaks(recording->length());
    ASSERT_TRUE(peaks.fill(*recording).ok());
    EXPECT_TRUE(peaks.isComplete());
    for (const std::int64_t width : {128, 1000, 20000, 300000}) {
        const Frames from(std::max<std::int64_t>(0, 200001 - width / 2));
        EXPECT_NEAR(peaks.over({from, from + Frames(width)}).least, -0.75f, 1e-4f) << width;
    }
    EXPECT_FLOAT_EQ(peaks.over({Frames(0), Frames(200000 / 128 * 128)}).least, 0.0f);
}

TEST(PeakPyramid, AgreesWithLevelsTakenSampleBySample) {
    const tests::ScratchFolder folder;
    std::vector<float> samples;
    unsigned random = 1;
    for (int i = 0; i < 2 * 150001; ++i) {
        random = random * 1664525u + 1013904223u;
        samples.push_back(static_cast<float>(random >> 8) / 16777216.0f - 0.5f);
    }
    const auto recording = recordingOf(folder, samples, 2);
    PeakPyramid peaks(recording->length());
    ASSERT_TRUE(peaks.fill(*recording).ok());
    for (const auto& [begin, end] :
         {std::pair<std::size_t, std::size_t>{0, 150001}, {128, 256}, {1280, 129280}, {149888, 150001}}) {
        float least = 1;
        float most = -1;
        double squares = 0;
        for (std::size_t i = 2 * begin; i < 2 * end; ++i) {
            least = std::min(least, samples[i]);
            most = std::max(most, samples[i]);
            squares += static_cast<double>(samples[i]) * static_cast<double>(samples[i]);
        }
        const Peak peak =
            peaks.over({Frames(static_cast<std::int64_t>(begin)), Frames(static_cast<std::int64_t>(end))});
        EXPECT_NEAR(peak.least, least, 1e-4);
        EXPECT_NEAR(peak.most, most, 1e-4);
        EXPECT_NEAR(peak.rms, std::sqrt(squares / static_cast<double>(2 * (end - begin))), 1e-3);
    }
}

TEST(PeakPyramid, IsReadWhileItGrows) {
    const tests::ScratchFolder folder;
    const auto recording = recordingOf(folder, std::vector<float>(3000000, 0.5f));
    PeakPyramid peaks(recording->length());
    std::jthread filling([&] { EXPECT_TRUE(peaks.fill(*recording).ok()); });
    Frames before;
    while (!peaks.isComplete()) {
        const Frames known = peaks.known();
        EXPECT_GE(known, before);
        before = known;
        if (known > Frames(0)) {
            EXPECT_NEAR(peaks.over({Frames(0), known}).least, 0.5f, 1e-4f);
        }
        std::this_thread::yield();
    }
    EXPECT_NEAR(peaks.over({Frames(0), peaks.length()}).rms, 0.5f, 1e-3f);
}

TEST(PeakPyramid, ReportsProgressAndStopsWhenAsked) {
    const tests::ScratchFolder folder;
    const auto recording = recordingOf(folder, std::vector<float>(1000000, 0.1f));
    PeakPyramid peaks(recording->length());
    std::stop_source stop;
    double last = 0;
    const auto filled = peaks.fill(*recording, stop.get_token(), [&](double share) {
        EXPECT_GT(share, last);
        last = share;
        if (share > 0.4) stop.request_stop();
    });
    ASSERT_FALSE(filled.ok());
    EXPECT_EQ(filled.error().kind, ErrorKind::Cancelled);
    EXPECT_GT(last, 0.4);
    EXPECT_LT(last, 0.6);
    EXPECT_FALSE(peaks.isComplete());
}

TEST(PeakPyramid, DrawsEqualColumns) {
    const tests::ScratchFolder folder;
    std::vector<float> samples(128000, 0.0f);
    std::fill(samples.begin() + 64000, samples.end(), 0.5f);
    const auto recording = recordingOf(folder, samples);
    PeakPyramid peaks(recording->length());
    ASSERT_TRUE(peaks.fill(*recording).ok());
    std::vector<Peak> columns(10);
    peaks.columns({Frames(0), Frames(128000)}, columns);
    EXPECT_FLOAT_EQ(columns[4].most, 0.0f);
    EXPECT_NEAR(columns[5].most, 0.5f, 1e-4f);
    EXPECT_NEAR(columns[9].rms, 0.5f, 1e-3f);
}

} // namespace
} // namespace earwright
