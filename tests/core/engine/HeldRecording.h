// A recording that a test holds in memory, and ways to measure what comes out of the engine.
#pragma once

#include "core/sound/Recording.h"

#include <memory>
#include <span>
#include <vector>

namespace earwright::tests {

class HeldRecording final : public Recording {
public:
    HeldRecording(std::vector<float> interleaved, int rate, int channels);

    const std::filesystem::path& path() const override { return name; }
    SampleRate rate() const override { return fileRate; }
    int channels() const override { return channelCount; }
    Frames length() const override;
    Frames read(Frames from, std::span<float> interleaved) override;

private:
    std::vector<float> samples;
    SampleRate fileRate;
    int channelCount;
    std::filesystem::path name = "held in memory";
};

std::shared_ptr<Recording> held(std::vector<float> interleaved, int rate = 44100, int channels = 1);

/// Single samples of 0.7 at the places, over two quiet tones.
std::vector<float> clicksAt(const std::vector<long>& places, std::size_t length, int rate = 44100);
/// The index of the largest absolute value in [from, to), cut to what there is.
long loudestIn(std::span<const float> samples, long from, long to);
/// Frequency of the partial near `about`, from the advance of its phase over the samples; within 0.01 cent
/// for a steady tone of half a second.
double hertzNear(std::span<const float> samples, double about, int rate);
double cents(double hertz, double reference);
/// Equal temperament at A4 = 440 Hz (ISO 16).
double hertzOfMidi(double midi);
double rootMeanSquare(std::span<const float> samples);

} // namespace earwright::tests
