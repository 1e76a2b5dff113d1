#include "core/sound/LibsndfileFile.h"

#include "core/sound/FlacLength.h"

#include <algorithm>
#include <cmath>
#include <optional>
#include <sndfile.h>
#include <string>

namespace earwright {

namespace {

constexpr std::size_t foldBlockFrames = 4096;

std::optional<Error> checkHeader(const std::string& name, const SF_INFO& info) {
    if (info.frames <= 0 || info.channels <= 0)
        return Error{ErrorKind::Malformed, name + " holds no sound.", ""};
    if (info.frames == SF_COUNT_MAX)
        return Error{ErrorKind::Unsupported,
                     name + " does not say how long it is; save it anew as WAV or FLAC.", ""};
    return std::nullopt;
}

ChannelPlace placeOf(int libraryPlace, ChannelPlace otherwise) {
    switch (libraryPlace) {
    case SF_CHANNEL_MAP_MONO:
    case SF_CHANNEL_MAP_CENTER:
        return ChannelPlace::Centre;
    case SF_CHANNEL_MAP_LEFT:
    case SF_CHANNEL_MAP_FRONT_LEFT:
    case SF_CHANNEL_MAP_FRONT_LEFT_OF_CENTER:
        return ChannelPlace::Left;
    case SF_CHANNEL_MAP_RIGHT:
    case SF_CHANNEL_MAP_FRONT_RIGHT:
    case SF_CHANNEL_MAP_FRONT_RIGHT_OF_CENTER:
        return ChannelPlace::Right;
    case SF_CHANNEL_MAP_LFE:
        return ChannelPlace::LowFrequency;
    case SF_CHANNEL_MAP_REAR_LEFT:
    case SF_CHANNEL_MAP_SIDE_LEFT:
        return ChannelPlace::SurroundLeft;
    case SF_CHANNEL_MAP_REAR_RIGHT:
    case SF_CHANNEL_MAP_SIDE_RIGHT:
        return ChannelPlace::SurroundRight;
    case SF_CHANNEL_MAP_REAR_CENTER:
        return ChannelPlace::SurroundCentre;
    default:
        return otherwise;
    }
}

ChannelFold foldOf(SNDFILE* file, const SF_INFO& info) {
    std::vector<ChannelPlace> places = ChannelFold::usualPlaces(info.channels);
    std::vector<int> map(static_cast<std::size_t>(info.channels));
    const auto bytes = static_cast<int>(map.size() * sizeof(int));
    if (sf_command(file, SFC_GET_CHANNEL_MAP_INFO, map.data(), bytes) == SF_TRUE)
        for (std::size_t channel = 0; channel < map.size(); ++channel)
            places[channel] = placeOf(map[channel], places[channel]);
    return ChannelFold(places);
}

} // namespace

void LibsndfileFile::Close::operator()(sf_private_tag* file) const {
    sf_close(file);
}

LibsndfileFile::LibsndfileFile(std::filesystem::path filePath, Handle handle, ChannelFold channelFold)
    : path(std::move(filePath)), file(std::move(handle)), fold(std::move(channelFold)) {
    if (fold.isNeeded()) unfolded.resize(foldBlockFrames * static_cast<std::size_t>(fold.channelsIn()));
}

Result<std::unique_ptr<SoundFile>> LibsndfileFile::open(const std::filesystem::path& path) {
    SF_INFO info{};
    Handle handle(sf_open(path.c_str(), SFM_READ, &info));
    if (!handle) {
        std::string reason = sf_strerror(nullptr);
        while (!reason.empty() && (reason.back() == '.' || reason.back() == '\n'))
            reason.pop_back();
        return Error{ErrorKind::Malformed,
                     path.string() + " is not a recording that can be read: " + reason + ".", ""};
    }
    if (info.frames == SF_COUNT_MAX) info.frames = findFlacLength(path).value_or(Frames(SF_COUNT_MAX)).value;
    if (auto problem = checkHeader(path.string(), info)) return *problem;
    ChannelFold fold = foldOf(handle.get(), info);
    std::unique_ptr<LibsndfileFile> opened(new LibsndfileFile(path, std::move(handle), std::move(fold)));
    opened->fileRate = SampleRate{info.samplerate};
    opened->promised = Frames(info.frames);
    opened->seekable = info.seekable != 0;
    return std::unique_ptr<SoundFile>(std::move(opened));
}

bool LibsndfileFile::isWhole() {
    // The number of a FLAC's last frame says it at once; a seek to the end can take half a second there.
    return findFlacLength(path) == promised || SoundFile::isWhole();
}

bool LibsndfileFile::moveTo(Frames place) {
    if (place == next) return true;
    if (seekable) {
        const bool moved = sf_seek(file.get(), place.value, SEEK_SET) == place.value;
        // After a refused seek the decoder stands anywhere; an impossible place makes the next read seek.
        next = moved ? place : Frames(-1);
        return moved;
    }
    if (place < next || next < Frames(0)) {
        SF_INFO info{};
        file.reset(sf_open(path.c_str(), SFM_READ, &info));
        next = Frames(0);
        if (!file) return false;
    }
    return skip(place - next);
}

bool LibsndfileFile::skip(Frames count) {
    std::vector<float> dropped(foldBlockFrames * static_cast<std::size_t>(channels()));
    while (count > Frames(0)) {
        const auto part = static_cast<std::size_t>(std::min<std::int64_t>(count.value, foldBlockFrames));
        const std::size_t got = decode(std::span(dropped).first(part * static_cast<std::size_t>(channels())));
        next += Frames(static_cast<std::int64_t>(got));
        if (got < part) return false;
        count -= Frames(static_cast<std::int64_t>(got));
    }
    return true;
}

std::size_t LibsndfileFile::decode(std::span<float> interleaved) {
    const auto wide = static_cast<std::size_t>(channels());
    const std::size_t wanted = interleaved.size() / wide;
    std::size_t done = 0;
    while (done < wanted) {
        const std::size_t part = fold.isNeeded() ? std::min(wanted - done, foldBlockFrames) : wanted - done;
        float* into = fold.isNeeded() ? unfolded.data() : interleaved.data() + done * wide;
        const sf_count_t got = sf_readf_float(file.get(), into, static_cast<sf_count_t>(part));
        if (got <= 0) break;
        const auto frames = static_cast<std::size_t>(got);
        if (fold.isNeeded())
            fold.apply(std::span(unfolded).first(frames * static_cast<std::size_t>(fold.channelsIn())),
                       interleaved.subspan(done * wide, frames * wide));
        done += frames;
    }
    return done;
}

Frames LibsndfileFile::read(Frames from, std::span<float> interleaved) {
    if (!file || !moveTo(from)) return Frames(0);
    const std::size_t got = decode(interleaved);
    next += Frames(static_cast<std::int64_t>(got));
    for (float& sample : interleaved.first(got * static_cast<std::size_t>(channels())))
        if (!std::isfinite(sample)) sample = 0.0f;
    return Frames(static_cast<std::int64_t>(got));
}

} // namespace earwright
