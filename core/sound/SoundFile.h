// One decoder on one sound file: frames from any place, folded to mono or stereo.
#pragma once

#include "core/result/Result.h"
#include "core/time/Frames.h"
#include "core/time/SampleRate.h"

#include <filesystem>
#include <memory>
#include <span>
#include <stop_token>

namespace earwright {

/// An open sound file.
///
/// Threads: one thread at a time.
/// Real time: reads the disk; never from the audio callback.
/// Ownership: owns the open file.
/// Units: frames at the file's own rate, interleaved samples.
class SoundFile {
public:
    /// Opens the file and understands its header. Errors: NotFound, Unreadable, Malformed (empty, cut short
    /// by its container's account, no sound), Unsupported (rate outside 8–192 kHz, length unknown, a kind
    /// this build leaves out), Cancelled (files whose length has to be counted).
    static Result<std::unique_ptr<SoundFile>> open(const std::filesystem::path& path,
                                                   const std::stop_token& stop = {});

    virtual ~SoundFile() = default;

    virtual SampleRate rate() const = 0;
    /// 1 or 2, after folding.
    virtual int channels() const = 0;
    /// Frames the header promises, or where it cannot be relied on, frames counted.
    virtual Frames length() const = 0;
    /// Where the next frame comes from when nothing is sought.
    virtual Frames position() const = 0;
    /// Decodes frames from a place. Returns how many came; fewer than asked at the end or at damage. The
    /// rest of `interleaved` is left as it was. Samples that are not finite numbers become silence.
    virtual Frames read(Frames from, std::span<float> interleaved) = 0;

    /// Another decoder on the same file, which need not find out again what this one knows of it. Any thread,
    /// also while this one reads. Errors: the file was moved, removed or damaged meanwhile.
    virtual Result<std::unique_ptr<SoundFile>> another() const = 0;

    /// Whether the frame at a place can be decoded.
    bool holds(Frames place);
    /// Whether the file goes on to the length it promises.
    virtual bool isWhole() { return holds(length() - Frames(1)); }
};

} // namespace earwright
