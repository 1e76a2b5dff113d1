#include "core/sound/LibavStream.h"

#include <array>
#include <string>

extern "C" {
#include <libavcodec/avcodec.h>
#include <libavformat/avformat.h>
#include <libavutil/channel_layout.h>
#include <libavutil/intreadwrite.h>
#include <libswresample/swresample.h>
}

namespace earwright {

namespace {

/// Readers that open what we say we open and nothing else: playlists and scripts would lead to other files.
constexpr const char* readers = "mov,mp4,m4a,3gp,3g2,mj2,matroska,webm,aac";
constexpr const char* protocols = "file";
/// Bytes looked through for the coding of a stream that its header leaves open.
constexpr std::int64_t probeBytes = 1 << 20;
/// Pieces decoded at most in search of the first that is sound: some codings start with empty ones.
constexpr int mostEmptyPieces = 64;
/// Sums of two Vorbis blocks of 256 frames or more, quartered.
constexpr Frames vorbisGrid{64};

void keepQuiet() {
    static const bool done = (av_log_set_level(AV_LOG_QUIET), true);
    static_cast<void>(done);
}

std::string reasonOf(int failure) {
    std::array<char, AV_ERROR_MAX_STRING_SIZE> text{};
    av_strerror(failure, text.data(), text.size());
    return text.data();
}

Error notReadable(const std::string& name, int failure) {
    return {ErrorKind::Malformed,
            name + " cannot be read (" + reasonOf(failure) +
                "). It may be damaged or cut off; copy it again, or save it as WAV or FLAC.",
            ""};
}

ChannelPlace placeOf(AVChannel channel, ChannelPlace otherwise) {
    switch (channel) {
    case AV_CHAN_FRONT_LEFT:
    case AV_CHAN_FRONT_LEFT_OF_CENTER:
        return ChannelPlace::Left;
    case AV_CHAN_FRONT_RIGHT:
    case AV_CHAN_FRONT_RIGHT_OF_CENTER:
        return ChannelPlace::Right;
    case AV_CHAN_FRONT_CENTER:
        return ChannelPlace::Centre;
    case AV_CHAN_LOW_FREQUENCY:
        return ChannelPlace::LowFrequency;
    case AV_CHAN_BACK_LEFT:
    case AV_CHAN_SIDE_LEFT:
        return ChannelPlace::SurroundLeft;
    case AV_CHAN_BACK_RIGHT:
    case AV_CHAN_SIDE_RIGHT:
        return ChannelPlace::SurroundRight;
    case AV_CHAN_BACK_CENTER:
        return ChannelPlace::SurroundCentre;
    default:
        return otherwise;
    }
}

ChannelFold foldOf(const AVChannelLayout& layout) {
    std::vector<ChannelPlace> places = ChannelFold::usualPlaces(layout.nb_channels);
    for (std::size_t i = 0; i < places.size(); ++i)
        places[i] =
            placeOf(av_channel_layout_channel_from_index(&layout, static_cast<unsigned>(i)), places[i]);
    return ChannelFold(places);
}

PacketStamp stampOf(const AVPacket& packet) {
    PacketStamp stamp;
    stamp.tick = packet.pts == AV_NOPTS_VALUE ? packet.dts : packet.pts;
    stamp.ticksLong = packet.duration;
    stamp.isUnheard = (packet.flags & AV_PKT_FLAG_DISCARD) != 0;
    std::size_t bytes = 0;
    const std::uint8_t* skips = av_packet_get_side_data(&packet, AV_PKT_DATA_SKIP_SAMPLES, &bytes);
    if (skips && bytes >= 8) {
        stamp.skippedAtStart = AV_RL32(skips);
        stamp.skippedAtEnd = AV_RL32(skips + 4);
    }
    return stamp;
}

} // namespace

void LibavStream::Free::operator()(AVFormatContext* context) const {
    avformat_close_input(&context);
}
void LibavStream::Free::operator()(AVCodecContext* context) const {
    avcodec_free_context(&context);
}
void LibavStream::Free::operator()(AVPacket* spent) const {
    av_packet_free(&spent);
}
void LibavStream::Free::operator()(AVFrame* spent) const {
    av_frame_free(&spent);
}
void LibavStream::Free::operator()(SwrContext* context) const {
    swr_free(&context);
}

LibavStream::~LibavStream() = default;

Result<std::unique_ptr<LibavStream>> LibavStream::open(const std::filesystem::path& path) {
    keepQuiet();
    const std::string name = path.string();
    std::unique_ptr<LibavStream> opened(new LibavStream);
    if (auto problem = opened->openContainer(name)) return *problem;
    if (auto problem = opened->openDecoder(name)) return *problem;
    if (auto problem = opened->hearFirstPiece(name)) return *problem;
    return opened;
}

std::optional<Error> LibavStream::openContainer(const std::string& name) {
    AVFormatContext* opening = avformat_alloc_context();
    if (!opening) return notReadable(name, AVERROR(ENOMEM));
    opening->probesize = probeBytes;
    AVDictionary* options = nullptr;
    av_dict_set(&options, "format_whitelist", readers, 0);
    av_dict_set(&options, "protocol_whitelist", protocols, 0);
    // The prefix keeps a name with a colon from being taken for another protocol.
    const int failure = avformat_open_input(&opening, ("file:" + name).c_str(), nullptr, &options);
    av_dict_free(&options);
    if (failure < 0) return notReadable(name, failure); // the context is freed already
    container.reset(opening);
    // Pictures need no decoding to be left out.
    for (unsigned i = 0; i < container->nb_streams; ++i)
        if (container->streams[i]->codecpar->codec_type != AVMEDIA_TYPE_AUDIO)
            container->streams[i]->discard = AVDISCARD_ALL;
    if (const int unknown = avformat_find_stream_info(container.get(), nullptr); unknown < 0)
        return notReadable(name, unknown);
    return std::nullopt;
}

std::optional<Error> LibavStream::openDecoder(const std::string& name) {
    const AVCodec* codec = nullptr;
    const int best = av_find_best_stream(container.get(), AVMEDIA_TYPE_AUDIO, -1, -1, &codec, 0);
    if (best == AVERROR_DECODER_NOT_FOUND)
        return Error{ErrorKind::Unsupported,
                     name + " holds sound in a coding that cannot be decoded here; save it as WAV or FLAC.",
                     ""};
    if (best < 0) return Error{ErrorKind::Malformed, name + " holds no sound.", ""};
    stream = container->streams[best];
    for (unsigned i = 0; i < container->nb_streams; ++i)
        if (container->streams[i] != stream) container->streams[i]->discard = AVDISCARD_ALL;
    decoder.reset(avcodec_alloc_context3(codec));
    packet.reset(av_packet_alloc());
    frame.reset(av_frame_alloc());
    if (!decoder || !packet || !frame) return notReadable(name, AVERROR(ENOMEM));
    int failure = avcodec_parameters_to_context(decoder.get(), stream->codecpar);
    decoder->pkt_timebase = stream->time_base;
    // Delay is taken off by place, here, so that it is the same after any seek.
    decoder->flags2 |= AV_CODEC_FLAG2_SKIP_MANUAL;
    decoder->thread_count = 1;
    if (failure >= 0) failure = avcodec_open2(decoder.get(), codec, nullptr);
    if (failure < 0) return notReadable(name, failure);
    return std::nullopt;
}

std::optional<Error> LibavStream::hearFirstPiece(const std::string& name) {
    for (int i = 0; i < mostEmptyPieces; ++i) {
        const auto piece = decode();
        if (!piece) break;
        if (piece->samples.empty()) continue;
        firstPiece = Frames(static_cast<std::int64_t>(piece->samples.size()) / channels());
        const bool countsTime =
            stream->time_base.num > 0 && stream->time_base.den > 0 && decoder->sample_rate > 0;
        if (!countsTime) break;
        return std::nullopt;
    }
    return Error{ErrorKind::Malformed,
                 name + " holds no sound that can be decoded. It may be damaged or cut off; copy it again, "
                        "or save it as WAV or FLAC.",
                 ""};
}

Frames LibavStream::packetGrid() const {
    return decoder->codec_id == AV_CODEC_ID_VORBIS ? vorbisGrid : firstPiece;
}

std::int64_t LibavStream::tickNumerator() const {
    return stream->time_base.num;
}

std::int64_t LibavStream::tickDenominator() const {
    return stream->time_base.den;
}

std::optional<std::int64_t> LibavStream::promisedTicks() const {
    if (stream->duration == AV_NOPTS_VALUE || stream->duration <= 0) return std::nullopt;
    return stream->duration;
}

Frames LibavStream::codingDelay() const {
    return Frames(stream->codecpar->initial_padding);
}

bool LibavStream::seek(std::int64_t tick) {
    avcodec_flush_buffers(decoder.get());
    draining = false;
    return av_seek_frame(container.get(), stream->index, tick, AVSEEK_FLAG_BACKWARD) >= 0;
}

bool LibavStream::seekToStart() {
    avcodec_flush_buffers(decoder.get());
    draining = false;
    constexpr std::int64_t anywhere = INT64_MAX;
    return avformat_seek_file(container.get(), stream->index, INT64_MIN, INT64_MIN + 1, anywhere, 0) >= 0 ||
           av_seek_frame(container.get(), stream->index, 0, AVSEEK_FLAG_BACKWARD) >= 0;
}

bool LibavStream::nextPacket() {
    for (;;) {
        av_packet_unref(packet.get());
        if (av_read_frame(container.get(), packet.get()) < 0) return false;
        if (packet->stream_index == stream->index) return true;
    }
}

std::optional<PacketStamp> LibavStream::skim() {
    if (!nextPacket()) return std::nullopt;
    return stampOf(*packet);
}

/// Gives the decoder one more packet, or word that there is none.
bool LibavStream::feed() {
    if (draining) return false;
    if (nextPacket()) {
        // A packet that is refused is damaged; the next one is a new start.
        avcodec_send_packet(decoder.get(), packet.get());
        return true;
    }
    draining = true;
    return avcodec_send_packet(decoder.get(), nullptr) >= 0;
}

std::optional<DecodedPiece> LibavStream::decode() {
    for (;;) {
        const int state = avcodec_receive_frame(decoder.get(), frame.get());
        if (state >= 0) return pieceOfFrame();
        if (state == AVERROR_EOF) return std::nullopt;
        if (!feed()) return std::nullopt;
    }
}

/// Whether a frame is of the kind the first one was, which sets it.
bool LibavStream::keepFormat() {
    if (fold)
        return frame->sample_rate == soundRate.hertz && frame->format == sampleFormat &&
               frame->ch_layout.nb_channels == fold->channelsIn();
    if (frame->sample_rate <= 0 || frame->ch_layout.nb_channels <= 0) return false;
    SwrContext* made = nullptr;
    if (swr_alloc_set_opts2(&made, &frame->ch_layout, AV_SAMPLE_FMT_FLT, frame->sample_rate,
                            &frame->ch_layout, static_cast<AVSampleFormat>(frame->format), frame->sample_rate,
                            0, nullptr) < 0)
        return false;
    converter.reset(made);
    if (swr_init(made) < 0) return false;
    soundRate = SampleRate{frame->sample_rate};
    sampleFormat = frame->format;
    fold.emplace(foldOf(frame->ch_layout));
    return true;
}

DecodedPiece LibavStream::pieceOfFrame() {
    DecodedPiece piece;
    piece.tick = frame->pts == AV_NOPTS_VALUE ? frame->pkt_dts : frame->pts;
    if (!keepFormat()) return piece;
    const auto frames = static_cast<std::size_t>(frame->nb_samples);
    std::vector<float> unfolded(frames * static_cast<std::size_t>(fold->channelsIn()));
    auto* out = reinterpret_cast<std::uint8_t*>(unfolded.data());
    const auto** in = const_cast<const std::uint8_t**>(frame->extended_data);
    if (swr_convert(converter.get(), &out, frame->nb_samples, in, frame->nb_samples) != frame->nb_samples)
        return piece;
    if (!fold->isNeeded()) {
        piece.samples = std::move(unfolded);
        return piece;
    }
    piece.samples.resize(frames * static_cast<std::size_t>(fold->channelsOut()));
    fold->apply(unfolded, piece.samples);
    return piece;
}

} // namespace earwright
