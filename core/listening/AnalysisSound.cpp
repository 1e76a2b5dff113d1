#include "core/listening/AnalysisSound.h"

#include "core/sound/Resampler.h"

#include <algorithm>
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

} // namespace

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

} // namespace earwright
