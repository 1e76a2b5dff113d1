#include "core/listening/RecordingEvidence.h"

#include "core/listening/EvidenceBytes.h"
#include "core/listening/PitchHint.h"
#include "tests/core/listening/SyntheticSound.h"
#include "tests/core/sound/WrittenFile.h"

#include <cmath>
#include <filesystem>
#include <fstream>
#include <gtest/gtest.h>
#include <numbers>

namespace earwright {
namespace {

using namespace tests;

/// Plucked tones left and right, so that all views differ; 9 s.
std::shared_ptr<Recording> duet(const ScratchFolder& folder, int rate, int seconds = 9) {
    std::vector<float> sound;
    for (int i = 0; i < seconds * rate; ++i) {
        const double time = static_cast<double>(i) / rate;
        const double inNote = std::fmod(time, 0.5);
        const auto pluck = [&](double hertz) {
            double sum = 0;
            for (int partial = 1; partial <= 6; ++partial)
                sum += std::sin(2 * std::numbers::pi * hertz * partial * time) / partial;
            return static_cast<float>(0.2 * sum * std::exp(-4 * inNote));
        };
        const int note = static_cast<int>(time / 0.5);
        sound.push_back(pluck(220 * std::exp2(note % 7 / 12.0)) + 0.3f * pluck(110));
        sound.push_back(pluck(330 * std::exp2(note % 5 / 12.0)) + 0.3f * pluck(110));
    }
    const auto path = folder / ("duet" + std::to_string(rate) + ".wav");
    writeSound(path, SF_FORMAT_WAV | SF_FORMAT_FLOAT, rate, 2, sound);
    const auto recording = Recording::open(path);
    EXPECT_TRUE(recording);
    return *recording;
}

void expectSame(const PassageEvidence& one, const PassageEvidence& other, float tolerance) {
    ASSERT_EQ(one.viewCount(), other.viewCount());
    const std::vector<Range<Seconds>> spans{{Seconds(3.0), Seconds(3.3)}, {Seconds(4.5), Seconds(5.0)}};
    for (std::size_t view = 0; view < one.viewCount(); ++view) {
        ASSERT_EQ(one.onsets(view).size(), other.onsets(view).size());
        for (std::size_t place = 0; place < one.onsets(view).size(); ++place)
            for (std::size_t i = 0; i < OnsetTrack::Row{}.size(); ++i)
                ASSERT_NEAR(one.onsets(view)[place][i], other.onsets(view)[place][i], tolerance)
                    << view << " at " << place;
        const auto rows = one.spans(view, spans);
        const auto others = other.spans(view, spans);
        for (std::size_t span = 0; span < spans.size(); ++span)
            for (std::size_t pitch = 0; pitch < pitchCount; ++pitch)
                ASSERT_NEAR(rows[span][pitch], others[span][pitch], tolerance);
    }
}

TEST(AnalysisSound, IsTheSameInAStretchAsInTheWhole) {
    for (const int rate : {44100, 22050, 48000, 96000, 8000}) {
        const ScratchFolder folder;
        const auto recording = duet(folder, rate);
        const auto whole = AnalysisSound::read(*recording);
        ASSERT_TRUE(whole);
        // In step with the recording's rate nothing is rounded; 48 and 96 kHz and 8 kHz are not in step.
        const bool isInStep = rate % analysisRate.hertz == 0;
        const float tolerance = isInStep ? 0.0f : 1e-5f;
        const std::int64_t length = AnalysisSound::lengthOf(*recording);
        ASSERT_NEAR(static_cast<double>(length), static_cast<double>(whole->left.size()), isInStep ? 0 : 1);
        for (const Range<Seconds> stretch :
             {Range{Seconds(3.337), Seconds(4.1)}, Range{Seconds(-1), Seconds(0.2)},
              Range{Seconds(8.2), Seconds(12)}}) {
            const auto part = AnalysisSound::readStretch(*recording, stretch);
            ASSERT_TRUE(part);
            const auto from = static_cast<std::size_t>(part->firstSample);
            ASSERT_EQ(part->firstSample, std::max<std::int64_t>(0, analysisRate.frames(stretch.begin).value));
            ASSERT_EQ(part->firstSample + static_cast<std::int64_t>(part->left.size()),
                      std::min(length, analysisRate.frames(stretch.end).value));
            for (std::size_t i = 0; i < part->left.size(); ++i) {
                ASSERT_NEAR(part->left[i], whole->left[from + i], tolerance) << rate << " " << i;
                ASSERT_NEAR(part->right[i], whole->right[from + i], tolerance) << rate << " " << i;
            }
        }
    }
}

TEST(RecordingEvidence, HearsAPassageReadOnDemandAsInTheWholeSound) {
    const ScratchFolder folder;
    // Longer than what is held.
    const auto recording = duet(folder, 22050, static_cast<int>(RecordingEvidence::longestHeld.value) + 3);
    const auto onDemand = RecordingEvidence::listen(recording);
    const auto held = RecordingEvidence::listen(*AnalysisSound::read(*recording));
    ASSERT_TRUE(onDemand && held);
    EXPECT_DOUBLE_EQ(onDemand->tuning().cents, held->tuning().cents);
    EXPECT_DOUBLE_EQ(onDemand->duration().value, held->duration().value);
    for (const Range<Seconds> range : {Range{Seconds(0), Seconds(2)}, Range{Seconds(2.71), Seconds(6.33)},
                                       Range{Seconds(7), Seconds(9)}}) {
        const auto one = onDemand->passage(range);
        const auto other = held->passage(range);
        ASSERT_TRUE(one && other);
        EXPECT_EQ(one->viewCount(), 5u);
        expectSame(*one, *other, 0);
        const auto mix = onDemand->mixOnsets(range);
        ASSERT_TRUE(mix);
        ASSERT_EQ(mix->size(), one->onsets(0).size());
        for (std::size_t place = 0; place < mix->size(); ++place)
            ASSERT_EQ((*mix)[place], one->onsets(0)[place]);
    }
}

TEST(RecordingEvidence, FindsWhatItHeardAgainOnDisk) {
    const ScratchFolder folder;
    const auto recording = duet(folder, 44100);
    const EvidencePlace place{CacheFolder(folder / "cache", 1u << 30), "0123456789abcdef"};
    const Range passage{Seconds(2), Seconds(6)};
    const auto first = RecordingEvidence::listen(recording, {}, {}, place);
    ASSERT_TRUE(first);
    const auto heard = first->passage(passage);
    ASSERT_TRUE(heard);

    // A recording of the same hash but other sound: whatever it answers comes from disk.
    writeSound(folder / "other.wav", SF_FORMAT_WAV | SF_FORMAT_FLOAT, 44100, 2, sine(500, 44100, 2, 9.0));
    const auto second = RecordingEvidence::listen(*Recording::open(folder / "other.wav"), {}, {}, place);
    ASSERT_TRUE(second);
    EXPECT_DOUBLE_EQ(second->tuning().cents, first->tuning().cents);
    expectSame(*second->passage(passage), *heard, 0);
}

TEST(RecordingEvidence, ListensAnewWhereTheFileOnDiskIsDamaged) {
    const ScratchFolder folder;
    const auto recording = duet(folder, 44100);
    const EvidencePlace place{CacheFolder(folder / "cache", 1u << 30), "0123456789abcdef"};
    const Range passage{Seconds(2), Seconds(6)};
    const auto heard = RecordingEvidence::listen(recording, {}, {}, place)->passage(passage);
    ASSERT_TRUE(heard);
    for (const auto& entry : std::filesystem::directory_iterator(folder / "cache"))
        std::filesystem::resize_file(entry.path(), std::filesystem::file_size(entry.path()) / 2);
    const auto again = RecordingEvidence::listen(recording, {}, {}, place);
    ASSERT_TRUE(again);
    expectSame(*again->passage(passage), *heard, 0);
}

TEST(EvidenceBytes, AreThePassageTheyWereMadeOfAndNoOther) {
    const ScratchFolder folder;
    const auto recording = duet(folder, 44100);
    const Range passage{Seconds(2), Seconds(4)};
    const auto sound = AnalysisSound::readStretch(*recording, {Seconds(1.4), Seconds(4.6)});
    const auto heard = PassageEvidence::listen(*sound, 3.5, passage);
    ASSERT_TRUE(heard);
    const auto bytes = bytesOf(*heard, *sound);
    const auto recalled = evidenceIn(bytes, passage, 3.5);
    ASSERT_TRUE(recalled);
    expectSame(*recalled, *heard, 0);
    EXPECT_FALSE(evidenceIn(bytes, passage, 3.6));
    EXPECT_FALSE(evidenceIn(bytes, {Seconds(2), Seconds(4.1)}, 3.5));
    for (std::size_t size = 0; size < bytes.size(); size += 40009)
        EXPECT_FALSE(evidenceIn(std::span(bytes).first(size), passage, 3.5)) << size;
    auto longer = bytes;
    longer.push_back('x');
    EXPECT_FALSE(evidenceIn(longer, passage, 3.5));
}

} // namespace
} // namespace earwright
