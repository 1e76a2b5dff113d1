#include "core/listening/AnalysisSound.h"

#include "core/sound/Resampler.h"

#include <algorithm>
#include <cmath>
#include <numeric>
#include <span>

namespace earwright {

namespace {

constexpr std::size_t framesAtOnce = 1u << 16;

/// Spreads interleaved frames over the channels' vectors.
void append(AnalysisSound& sound, std::span<const float> interleaved, int channels) {
    if (channels == 1) {
        sound.left.insert(sound.left.end(), interleaved.begin(), interleaved.end());
        return;
    }
    for (std::size_t i = 0; i + 1 < interleaved.size(); i += 2) {
        sound.left.push_back(interleaved[i]);
        sound.right.push_back(interleaved[i + 1]);
    }
}

/// Lets one piece through the resampler and keeps what comes out.
void resamplePiece(Resampler& resampler, std::span<const float> piece, bool last, AnalysisSound& sound) {
    const auto channels = static_cast<std::size_t>(resampler.channels());
    std::vector<float> out(framesAtOnce * channels);
    for (;;) {
        const Resampler::Step step = resampler.process(piece, out, last);
        append(sound, std::span(out).first(step.framesMade * channels), resampler.channels());
        piece = piece.subspan(step.framesTaken * channels);
        if (step.framesMade == 0 && (piece.empty() || step.framesTaken == 0)) return;
    }
}

/// Resamples from a place on, as if the recording had been read from its start.
class StretchReader {
public:
    StretchReader(Recording& whole, std::int64_t firstNeeded)
        : recording(whole),
          resampler(whole.channels(), static_cast<double>(analysisRate.hertz) / whole.rate().hertz) {
        // Input frames and samples coincide at every multiple of these; from there the resampler runs in
        // step.
        const int common = std::gcd(analysisRate.hertz, recording.rate().hertz);
        const std::int64_t samplesTogether = analysisRate.hertz / common;
        const std::int64_t framesTogether = recording.rate().hertz / common;
        const std::int64_t meetings = std::max<std::int64_t>(0, firstNeeded - filterReach) / samplesTogether;
        sound.firstSample = meetings * samplesTogether;
        next = meetings * framesTogether;
    }

    std::int64_t reached() const { return sound.firstSample + static_cast<std::int64_t>(sound.left.size()); }

    /// False at the recording's end.
    bool readOn() {
        // Small enough for the recording to keep its pages: the next piece starts in the middle of one.
        constexpr std::int64_t framesAtATime = 16384;
        const std::int64_t count = std::min(framesAtATime, recording.length().value - next);
        if (count <= 0) return false;
        std::vector<float> piece(static_cast<std::size_t>(count * recording.channels()));
        recording.read(Frames(next), piece);
        next += count;
        resamplePiece(resampler, piece, next >= recording.length().value, sound);
        return true;
    }

    AnalysisSound take(std::int64_t begin, std::int64_t end) {
        const auto cut = [&](std::vector<float>& channel) {
            const auto size = static_cast<std::int64_t>(channel.size());
            const std::int64_t to = std::clamp<std::int64_t>(end - sound.firstSample, 0, size);
            const std::int64_t from = std::clamp<std::int64_t>(begin - sound.firstSample, 0, to);
            channel = std::vector<float>(channel.begin() + from, channel.begin() + to);
        };
        cut(sound.left);
        if (sound.isStereo()) cut(sound.right);
        sound.firstSample = begin;
        return std::move(sound);
    }

private:
    /// Samples before a place that bear on it: half the resampler's filter is 46 of them, or of the
    /// recording's own where that has fewer.
    static constexpr std::int64_t filterReach = 512;

    Recording& recording;
    Resampler resampler;
    AnalysisSound sound;
    std::int64_t next = 0;
};

} // namespace

std::int64_t AnalysisSound::lengthOf(const Recording& recording) {
    return recording.length().value * analysisRate.hertz / recording.rate().hertz;
}

std::vector<float> AnalysisSound::mid() const {
    if (!isStereo()) return left;
    std::vector<float> both(left.size());
    std::transform(left.begin(), left.end(), right.begin(), both.begin(),
                   [](float l, float r) { return 0.5f * (l + r); });
    return both;
}

Seconds AnalysisSound::duration() const {
    return analysisRate.seconds(Frames(static_cast<std::int64_t>(left.size())));
}

Result<AnalysisSound> AnalysisSound::read(Recording& recording, std::stop_token stop,
                                          const Progress& progress) {
    const int channels = recording.channels();
    const std::int64_t length = recording.length().value;
    const double ratio = static_cast<double>(analysisRate.hertz) / recording.rate().hertz;
    AnalysisSound sound;
    const auto expected = static_cast<std::size_t>(static_cast<double>(length) * ratio) + 1;
    sound.left.reserve(expected);
    if (channels == 2) sound.right.reserve(expected);

    Resampler resampler(channels, ratio);
    std::vector<float> piece(framesAtOnce * static_cast<std::size_t>(channels));
    for (std::int64_t at = 0; at < length; at += framesAtOnce) {
        if (stop.stop_requested())
            return Error{ErrorKind::Cancelled, "Listening to " + recording.path().string() + " was stopped.",
                         ""};
        const auto frames = static_cast<std::size_t>(std::min<std::int64_t>(framesAtOnce, length - at));
        const auto samples = std::span(piece).first(frames * static_cast<std::size_t>(channels));
        recording.read(Frames(at), samples);
        resamplePiece(resampler, samples, at + static_cast<std::int64_t>(framesAtOnce) >= length, sound);
        if (progress) progress(static_cast<double>(at) / static_cast<double>(length));
    }
    if (progress) progress(1);
    return sound;
}

Result<AnalysisSound> AnalysisSound::readStretch(Recording& recording, const Range<Seconds>& stretch,
                                                 std::stop_token stop) {
    const std::int64_t total = lengthOf(recording);
    const std::int64_t begin = std::clamp<std::int64_t>(analysisRate.frames(stretch.begin).value, 0, total);
    const std::int64_t end = std::clamp<std::int64_t>(analysisRate.frames(stretch.end).value, begin, total);
    StretchReader reader(recording, begin);
    while (reader.reached() < end) {
        if (stop.stop_requested())
            return Error{ErrorKind::Cancelled, "Listening to " + recording.path().string() + " was stopped.",
                         ""};
        if (!reader.readOn()) break;
    }
    return reader.take(begin, end);
}

} // namespace earwright
