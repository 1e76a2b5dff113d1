#include "core/sound/MpegFile.h"

#include <algorithm>
#include <cmath>
#include <mpg123.h>
#include <string>

namespace earwright {

namespace {

/// Frames decoded ahead of a place that is sought. A frame may borrow 511 bytes from those before it, which
/// at the lowest bit rates is more than the four frames the library takes by itself.
constexpr long preFrames = 12;

/// Once for the program, before any handle is made.
bool libraryIsReady() {
    static const bool ready = mpg123_init() == MPG123_OK;
    return ready;
}

void keepQuietAndGoOn(mpg123_handle* handle) {
    // Float samples, no messages on stderr, and damage never ends the search for the next frame.
    mpg123_param(handle, MPG123_ADD_FLAGS, MPG123_QUIET | MPG123_FORCE_FLOAT | MPG123_GAPLESS, 0);
    mpg123_param(handle, MPG123_RESYNC_LIMIT, -1, 0);
    mpg123_param(handle, MPG123_PREFRAMES, preFrames, 0);
}

bool fixFormat(mpg123_handle* handle, long rate, int channels) {
    return mpg123_format_none(handle) == MPG123_OK &&
           mpg123_format(handle, rate, channels, MPG123_ENC_FLOAT_32) == MPG123_OK;
}

Error notReadable(const std::filesystem::path& path) {
    return {ErrorKind::Malformed, path.string() + " is not an MP3 that can be read.", ""};
}

} // namespace

void MpegFile::Close::operator()(mpg123_handle_struct* handle) const {
    mpg123_close(handle);
    mpg123_delete(handle);
}

Result<std::unique_ptr<MpegFile>> MpegFile::begin(const std::filesystem::path& path) {
    const Error unreadable = notReadable(path);
    std::unique_ptr<MpegFile> file(new MpegFile);
    if (!libraryIsReady()) return unreadable;
    file->filePath = path;
    file->handle.reset(mpg123_new(nullptr, nullptr));
    mpg123_handle* const handle = file->handle.get();
    if (!handle) return unreadable;
    keepQuietAndGoOn(handle);
    long rate = 0;
    int encoding = 0;
    if (mpg123_open(handle, path.c_str()) != MPG123_OK ||
        mpg123_getformat(handle, &rate, &file->channelCount, &encoding) != MPG123_OK ||
        !fixFormat(handle, rate, file->channelCount))
        return unreadable;
    file->fileRate = SampleRate{static_cast<int>(rate)};
    return file;
}

/// Tells the decoder where frames are, so that it need not look for them.
bool MpegFile::takeWalk(std::shared_ptr<const MpegWalk> walk) {
    std::vector<off_t> places(walk->places.begin(), walk->places.end());
    if (mpg123_set_index(handle.get(), places.data(), MpegWalk::step, places.size()) != MPG123_OK)
        return false;
    // With a tag the decoder also takes the coder's delay off.
    frameCount = fileStart.isUntagged ? walk->length : Frames(mpg123_length(handle.get()));
    walked = std::move(walk);
    return true;
}

Result<std::unique_ptr<SoundFile>> MpegFile::open(const std::filesystem::path& path, const MpegStart& start,
                                                  const std::stop_token& stop) {
    auto file = begin(path);
    if (!file) return file.error();
    MpegFile& opened = **file;
    opened.fileStart = start;
    // A tagged file whose tag is wrong is left to the decoder, which then has to set the tag's delay right
    // too.
    if (start.lengthIsReliable || start.isUntagged) {
        auto walk = MpegWalk::through(path, start.firstFrame, !start.isUntagged, stop);
        if (!walk) return walk.error();
        if (*walk) opened.takeWalk(std::make_shared<const MpegWalk>(**std::move(walk)));
    }
    if (!opened.walked) {
        if (!start.lengthIsReliable && mpg123_scan(opened.handle.get()) != MPG123_OK)
            return notReadable(path);
        opened.frameCount = Frames(mpg123_length(opened.handle.get()));
    }
    if (opened.frameCount <= Frames(0))
        return Error{ErrorKind::Malformed, path.string() + " holds no sound.", ""};
    return std::unique_ptr<SoundFile>(*std::move(file));
}

Result<std::unique_ptr<SoundFile>> MpegFile::another() const {
    if (!walked) return open(filePath, fileStart, {});
    auto twin = begin(filePath);
    if (!twin) return twin.error();
    (*twin)->fileStart = fileStart;
    if (!(*twin)->takeWalk(walked)) return notReadable(filePath);
    return std::unique_ptr<SoundFile>(*std::move(twin));
}

Frames MpegFile::read(Frames from, std::span<float> interleaved) {
    mpg123_handle* const mpeg = handle.get();
    if (from != next && mpg123_seek(mpeg, from.value, SEEK_SET) != from.value) {
        next = Frames(-1);
        return Frames(0);
    }
    const std::size_t frameBytes = static_cast<std::size_t>(channelCount) * sizeof(float);
    std::size_t doneBytes = 0;
    int state = MPG123_OK;
    while (doneBytes < interleaved.size_bytes() && (state == MPG123_OK || state == MPG123_NEW_FORMAT)) {
        std::size_t got = 0;
        auto* into = reinterpret_cast<unsigned char*>(interleaved.data()) + doneBytes;
        state = mpg123_read(mpeg, into, interleaved.size_bytes() - doneBytes, &got);
        doneBytes += got;
        if (state == MPG123_NEW_FORMAT && got == 0 && doneBytes > 0) break;
    }
    const auto frames = static_cast<std::int64_t>(doneBytes / frameBytes);
    next = Frames(mpg123_tell(mpeg));
    for (float& sample : interleaved.first(static_cast<std::size_t>(frames * channelCount)))
        if (!std::isfinite(sample)) sample = 0.0f;
    return Frames(frames);
}

} // namespace earwright
