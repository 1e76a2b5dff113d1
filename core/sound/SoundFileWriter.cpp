#include "core/sound/SoundFileWriter.h"

#include <algorithm>
#include <cctype>
#include <optional>
#include <sndfile.h>
#include <string>
#include <system_error>
#include <unistd.h>

namespace earwright {

namespace {

std::optional<int> formatOf(const std::filesystem::path& path) {
    std::string ending = path.extension().string();
    std::transform(ending.begin(), ending.end(), ending.begin(),
                   [](unsigned char c) { return static_cast<char>(std::tolower(c)); });
    if (ending == ".wav") return SF_FORMAT_WAV | SF_FORMAT_PCM_24;
    if (ending == ".flac") return SF_FORMAT_FLAC | SF_FORMAT_PCM_24;
    return std::nullopt;
}

bool isTooLongForWav(int format, int channels, std::int64_t frames) {
    // A little less than 2³² bytes, for the header and other chunks.
    constexpr std::int64_t mostBytes = (std::int64_t{1} << 32) - (1 << 16);
    constexpr int bytesOfSample = 3;
    return (format & SF_FORMAT_TYPEMASK) == SF_FORMAT_WAV && frames > mostBytes / (channels * bytesOfSample);
}

/// The library's reasons end in anything from no full stop to two.
Error notWritable(const std::filesystem::path& path, std::string reason) {
    while (!reason.empty() && (reason.back() == '.' || reason.back() == '\n'))
        reason.pop_back();
    return {ErrorKind::NotWritable, path.string() + " cannot be written: " + reason + ".", ""};
}

} // namespace

void SoundFileWriter::Close::operator()(sf_private_tag* open) const {
    sf_close(open);
}

bool SoundFileWriter::canWrite(const std::filesystem::path& path) {
    return formatOf(path).has_value();
}

SoundFileWriter::SoundFileWriter(std::filesystem::path target, std::filesystem::path beside,
                                 sf_private_tag* open, int channelCount)
    : path(std::move(target)),
      draft(std::move(beside)),
      file(open),
      channels(static_cast<std::size_t>(channelCount)) {}

SoundFileWriter::~SoundFileWriter() {
    file.reset();
    std::error_code ignored;
    if (!draft.empty()) std::filesystem::remove(draft, ignored);
}

Result<std::unique_ptr<SoundFileWriter>> SoundFileWriter::create(const std::filesystem::path& path,
                                                                 SampleRate rate, int channels,
                                                                 std::int64_t expectedFrames) {
    const auto format = formatOf(path);
    if (!format)
        return Error{ErrorKind::Unsupported,
                     path.string() + " ends in neither .wav nor .flac, the kinds that can be written.", ""};
    SF_INFO info{};
    info.samplerate = rate.hertz;
    info.channels = channels;
    info.format = *format;
    if (isTooLongForWav(*format, channels, expectedFrames)) info.format = SF_FORMAT_RF64 | SF_FORMAT_PCM_24;
    std::filesystem::path draft = path;
    draft += ".part" + std::to_string(getpid());
    SNDFILE* file = sf_open(draft.c_str(), SFM_WRITE, &info);
    if (!file) return notWritable(path, sf_strerror(nullptr));
    sf_command(file, SFC_SET_CLIPPING, nullptr, SF_TRUE);
    return std::unique_ptr<SoundFileWriter>(new SoundFileWriter(path, draft, file, channels));
}

Result<std::unique_ptr<SoundFileWriter>> SoundFileWriter::createGrowing(const std::filesystem::path& path,
                                                                        SampleRate rate, int channels) {
    const auto format = formatOf(path);
    if (!format || (*format & SF_FORMAT_TYPEMASK) != SF_FORMAT_WAV)
        return Error{ErrorKind::Unsupported, path.string() + " does not end in .wav.", ""};
    std::error_code ignored;
    if (std::filesystem::exists(path, ignored)) return notWritable(path, "there is such a file already");
    SF_INFO info{};
    info.samplerate = rate.hertz;
    info.channels = channels;
    info.format = *format;
    SNDFILE* file = sf_open(path.c_str(), SFM_WRITE, &info);
    if (!file) return notWritable(path, sf_strerror(nullptr));
    sf_command(file, SFC_SET_CLIPPING, nullptr, SF_TRUE);
    sf_command(file, SFC_SET_UPDATE_HEADER_AUTO, nullptr, SF_TRUE);
    return std::unique_ptr<SoundFileWriter>(new SoundFileWriter(path, {}, file, channels));
}

Result<Done> SoundFileWriter::write(std::span<const float> interleaved) {
    const auto frames = static_cast<sf_count_t>(interleaved.size() / channels);
    if (sf_writef_float(file.get(), interleaved.data(), frames) != frames)
        return notWritable(path, sf_strerror(file.get()));
    return Done{};
}

Result<Done> SoundFileWriter::finish() {
    sf_write_sync(file.get());
    if (sf_close(file.release()) != 0) return notWritable(path, "the file could not be completed");
    if (draft.empty()) return Done{};
    std::error_code failure;
    std::filesystem::rename(draft, path, failure);
    if (failure) return notWritable(path, failure.message());
    draft.clear();
    return Done{};
}

} // namespace earwright
