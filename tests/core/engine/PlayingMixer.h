// A mixer that plays one lane, both worked by hand, and measurements of what it renders.
#pragma once

#include "core/engine/Lane.h"
#include "core/engine/Mixer.h"
#include "tests/core/engine/HeldRecording.h"

#include <algorithm>
#include <cmath>
#include <memory>
#include <span>
#include <vector>

namespace earwright::tests {

namespace playing_mixer {

constexpr SampleRate rate{44100};

/// Left 0.25, right 0.125 all along. A constant has no loudness of its own, so that the written notes are
/// played beside it as beside silence: at −25 LUFS, an RMS of about 0.01.
inline std::shared_ptr<Recording> steadyRecord() {
    std::vector<float> samples;
    for (int i = 0; i < 10 * rate.hertz; ++i)
        samples.insert(samples.end(), {0.25f, 0.125f});
    return held(samples, rate.hertz, 2);
}

inline Lane::Start laneStart(std::int64_t from, double speed = 1, std::uint64_t wish = 1) {
    Lane::Start start;
    start.record.recording = steadyRecord();
    start.record.from = Frames(from);
    start.record.speed = speed;
    start.record.outputRate = rate;
    TimedNote note;
    note.onset = Frames(0);
    note.end = Frames(10 * rate.hertz);
    note.midi = 57;
    start.notes = noteListOf({note});
    start.wish = wish;
    return start;
}

/// A mixer with one lane, both worked by hand.
class PlayingMixer {
public:
    explicit PlayingMixer(const Lane::Start& start) {
        lane.start(start);
        lane.fill(4096, false);
        mixer.lanes().order(&lane, 0);
        mixer.setPlaying(true);
    }
    std::vector<float> render(std::size_t frames) {
        std::vector<float> all;
        std::vector<float> stereo(512);
        for (std::size_t done = 0; done < frames; done += 256) {
            lane.fill(4096, false);
            mixer.render(stereo, rate, 0, false);
            all.insert(all.end(), stereo.begin(), stereo.end());
        }
        return all;
    }
    Mixer mixer;
    Lane lane;
};

inline std::vector<float> channel(const std::vector<float>& stereo, std::size_t which, std::size_t from = 0) {
    std::vector<float> one;
    for (std::size_t i = from; 2 * i < stereo.size(); ++i)
        one.push_back(stereo[2 * i + which]);
    return one;
}

inline float largestStep(const std::vector<float>& samples) {
    float largest = 0;
    for (std::size_t i = 1; i < samples.size(); ++i)
        largest = std::max(largest, std::abs(samples[i] - samples[i - 1]));
    return largest;
}

/// Tones of 200, 1,000 and 5,000 Hz, one octave and more outside a band of 500 to 2,000 Hz but for the
/// second.
inline Lane::Start threeTones() {
    Lane::Start start = laneStart(0);
    std::vector<float> samples;
    for (int i = 0; i < 4 * rate.hertz; ++i) {
        const double turn = 2 * M_PI * i / rate.hertz;
        samples.push_back(
            static_cast<float>(0.2 * (std::sin(200 * turn) + std::sin(1000 * turn) + std::sin(5000 * turn))));
    }
    start.record.recording = held(samples, rate.hertz, 1);
    start.notes = noteListOf({});
    return start;
}

inline double levelAt(std::span<const float> samples, double hertz) {
    double sine = 0;
    double cosine = 0;
    for (std::size_t i = 0; i < samples.size(); ++i) {
        const double turn = 2 * M_PI * hertz * static_cast<double>(i) / rate.hertz;
        sine += static_cast<double>(samples[i]) * std::sin(turn);
        cosine += static_cast<double>(samples[i]) * std::cos(turn);
    }
    return 2 * std::hypot(sine, cosine) / static_cast<double>(samples.size());
}

} // namespace playing_mixer

using playing_mixer::PlayingMixer;

} // namespace earwright::tests
