// How the channels of a sound file become the one or two that are listened to.
#pragma once

#include <span>
#include <vector>

namespace earwright {

/// Where a channel of the file stands in the room.
enum class ChannelPlace { Left, Right, Centre, LowFrequency, SurroundLeft, SurroundRight, SurroundCentre };

/// Folds interleaved frames of any channel count down to mono or stereo.
///
/// Gains after ITU-R BS.775 (centre and surrounds at −3 dB, the low-frequency channel left out), scaled so
/// that full scale in every channel stays full scale.
/// Threads: a value; const calls from any thread.
class ChannelFold {
public:
    /// The fold for places in the file's channel order. One or two channels pass unchanged.
    explicit ChannelFold(const std::vector<ChannelPlace>& places);
    /// The places WAV and FLAC files give their channels when they don't say (1 to 8; more are spread
    /// evenly left and right).
    static std::vector<ChannelPlace> usualPlaces(int channels);

    int channelsIn() const { return static_cast<int>(toLeft.size()); }
    /// 1 or 2.
    int channelsOut() const { return channelsIn() == 1 ? 1 : 2; }
    bool isNeeded() const { return channelsIn() > 2; }
    /// Requires: in.size() / channelsIn() == out.size() / channelsOut().
    void apply(std::span<const float> in, std::span<float> out) const;

private:
    std::vector<float> toLeft;
    std::vector<float> toRight;
};

} // namespace earwright
