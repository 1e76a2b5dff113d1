// Sound from one sample rate to another, piece by piece.
#pragma once

#include <cstddef>
#include <memory>
#include <span>

struct SRC_STATE_tag;

namespace earwright {

/// A streaming band-limited resampler (libsamplerate, sinc of medium quality: about 120 dB down, flat to 90 %
/// of the band).
///
/// Threads: one thread at a time.
/// Real time: no allocation after construction, but far too long for a callback.
/// Units: interleaved frames. Output frame n stands exactly at input frame n ÷ ratio: there is no delay to
///   take off; the filter looks ahead instead, so output comes a little after its input is in.
class Resampler {
public:
    /// ratio: output rate ÷ input rate, 1/256 to 256. Requires: channels is 1 or more.
    Resampler(int channels, double ratio);

    struct Step {
        std::size_t framesTaken = 0;
        std::size_t framesMade = 0;
    };
    /// Takes what it can of `in` and fills what it can of `out`. `last` says that nothing follows, so that
    /// the tail is let out too.
    Step process(std::span<const float> in, std::span<float> out, bool last);
    /// Forgets everything heard.
    void reset();

    double ratio() const { return outPerIn; }
    int channels() const { return channelCount; }

private:
    struct Delete {
        void operator()(SRC_STATE_tag* state) const;
    };
    int channelCount;
    double outPerIn;
    std::unique_ptr<SRC_STATE_tag, Delete> state;
};

} // namespace earwright
