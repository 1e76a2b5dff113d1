// Writes a sound file that is there whole or not at all, or one that grows while it is played.
#pragma once

#include "core/result/Result.h"
#include "core/time/SampleRate.h"

#include <cstdint>
#include <filesystem>
#include <memory>
#include <span>

struct sf_private_tag;

namespace earwright {

/// Writes 24-bit WAV or FLAC, by the ending of the name, beside the place it belongs and moves it there when
/// it is complete; what was there before stays until then. Without finish() nothing is left.
///
/// Threads: one at a time. Ownership: owns the open file.
/// Units: interleaved samples in −1…1; what is louder is clipped.
class SoundFileWriter {
public:
    /// Whether the name ends in .wav or .flac (in any case of letters).
    static bool canWrite(const std::filesystem::path& path);
    /// expectedFrames: how many will come. Where they need more than the 4 GiB that the sizes in a WAV file
    /// can count, it is written as RF64 (EBU Tech 3306), under the same name. Errors: Unsupported (another
    /// ending), NotWritable.
    static Result<std::unique_ptr<SoundFileWriter>> create(const std::filesystem::path& path, SampleRate rate,
                                                           int channels, std::int64_t expectedFrames);
    /// Writes in place from the start and keeps the header true, so that all that was written is there
    /// whatever happens: for what cannot be played again. Errors: Unsupported (another ending than .wav),
    /// NotWritable (also where such a file is there already).
    static Result<std::unique_ptr<SoundFileWriter>> createGrowing(const std::filesystem::path& path,
                                                                  SampleRate rate, int channels);
    ~SoundFileWriter();
    SoundFileWriter(const SoundFileWriter&) = delete;
    SoundFileWriter& operator=(const SoundFileWriter&) = delete;

    /// Error: NotWritable, for example when the disk is full.
    Result<Done> write(std::span<const float> interleaved);
    /// Error: NotWritable.
    Result<Done> finish();

private:
    struct Close {
        void operator()(sf_private_tag* file) const;
    };
    SoundFileWriter(std::filesystem::path path, std::filesystem::path draft, sf_private_tag* file,
                    int channels);

    std::filesystem::path path;
    std::filesystem::path draft;
    std::unique_ptr<sf_private_tag, Close> file;
    std::size_t channels;
};

} // namespace earwright
