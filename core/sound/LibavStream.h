// The one stream of sound that is listened to in a container, packet by packet, through the FFmpeg libraries.
#pragma once

#include "core/result/Result.h"
#include "core/sound/ChannelFold.h"
#include "core/time/Frames.h"
#include "core/time/SampleRate.h"

#include <cstdint>
#include <filesystem>
#include <memory>
#include <optional>
#include <stop_token>
#include <vector>

struct AVCodecContext;
struct AVFormatContext;
struct AVFrame;
struct AVPacket;
struct AVStream;
struct SwrContext;

namespace earwright {

/// What one packet decoded to.
struct DecodedPiece {
    std::int64_t tick = 0;
    /// Interleaved, folded to mono or stereo; empty where the coding changed in mid-stream.
    std::vector<float> samples;
};

/// A packet as far as it tells about the time line.
struct PacketStamp {
    std::int64_t tick = 0;
    std::int64_t ticksLong = 0;
    /// Frames at its start and end that are coding delay and not sound.
    std::int64_t skippedAtStart = 0;
    std::int64_t skippedAtEnd = 0;
    /// Decoded for its successor's sake only.
    bool isUnheard = false;
};

/// Threads: one at a time. Ownership: owns the open file and its decoder.
class LibavStream {
public:
    /// Opens the best stream of sound and decodes its first piece, which alone tells rate and channels for
    /// certain. Only local files are touched, whatever the container refers to. Errors: Malformed,
    /// Unsupported.
    static Result<std::unique_ptr<LibavStream>> open(const std::filesystem::path& path);
    ~LibavStream();

    SampleRate rate() const { return soundRate; }
    int channels() const { return fold->channelsOut(); }
    /// Frames of the first piece: what every packet holds in codings with equal packets.
    Frames framesOfFirstPiece() const { return firstPiece; }
    /// Places of packets are whole multiples of this many frames.
    Frames packetGrid() const;
    std::int64_t tickNumerator() const;
    std::int64_t tickDenominator() const;
    /// Ticks the container promises; nothing where it doesn't say.
    std::optional<std::int64_t> promisedTicks() const;
    /// Frames the coding adds at the start, by the container's account.
    Frames codingDelay() const;

    /// Goes to a packet at or before a tick, the first one where there is none. False at damage.
    bool seek(std::int64_t tick);
    bool seekToStart();
    /// The next packet's stamp, without decoding. Nothing at the end.
    std::optional<PacketStamp> skim();
    /// Decodes on. Nothing at the end. Damaged packets are passed over.
    std::optional<DecodedPiece> decode();

private:
    struct Free {
        void operator()(AVFormatContext* context) const;
        void operator()(AVCodecContext* context) const;
        void operator()(AVPacket* packet) const;
        void operator()(AVFrame* frame) const;
        void operator()(SwrContext* context) const;
    };
    LibavStream() = default;
    std::optional<Error> openContainer(const std::string& name);
    std::optional<Error> openDecoder(const std::string& name);
    std::optional<Error> hearFirstPiece(const std::string& name);
    bool nextPacket();
    bool feed();
    bool keepFormat();
    DecodedPiece pieceOfFrame();

    std::unique_ptr<AVFormatContext, Free> container;
    std::unique_ptr<AVCodecContext, Free> decoder;
    std::unique_ptr<AVPacket, Free> packet;
    std::unique_ptr<AVFrame, Free> frame;
    std::unique_ptr<SwrContext, Free> converter;
    AVStream* stream = nullptr;
    SampleRate soundRate;
    int sampleFormat = -1;
    std::optional<ChannelFold> fold;
    Frames firstPiece;
    bool draining = false;
};

} // namespace earwright
