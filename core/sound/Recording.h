// A sound file opened for listening: its samples on demand, never changed.
#pragma once

#include "core/result/Result.h"
#include "core/time/Frames.h"
#include "core/time/Range.h"
#include "core/time/SampleRate.h"
#include "core/time/Seconds.h"

#include <filesystem>
#include <memory>
#include <span>
#include <stop_token>
#include <string>

namespace earwright {

/// A recording, mono or stereo; more channels are folded down to stereo as it is read.
///
/// Threads: read() may be called from several threads (each call is guarded); the rest is fixed at opening.
/// Real time: read() may touch the disk. Never call it from the audio callback.
/// Units: frames at the recording's own rate; samples in −1…1 (float, may exceed for hot files).
class Recording {
public:
    /// Opens a sound file, or the sound of a film. Does not decode it: returns as soon as its length is
    /// known. Errors: NotFound, Unreadable, Malformed (empty, truncated header, no audio), Unsupported (rate
    /// outside 8–192 kHz, a kind that this build leaves out), Cancelled; each names the file and the reason.
    static Result<std::shared_ptr<Recording>> open(const std::filesystem::path& path,
                                                   const std::stop_token& stop = {});

    virtual ~Recording() = default;

    virtual const std::filesystem::path& path() const = 0;
    virtual SampleRate rate() const = 0;
    /// 1 or 2.
    virtual int channels() const = 0;
    virtual Frames length() const = 0;
    Seconds duration() const { return rate().seconds(length()); }

    /// Fills interleaved samples for [from, from + out.size() / channels()). Frames outside the recording,
    /// and frames the file promised but does not hold, are silence. Returns how many frames came from the
    /// file.
    virtual Frames read(Frames from, std::span<float> interleaved) = 0;

    /// While what this returns is alive, sound of the loop that was read once is read again without waiting
    /// for the disk: all of a loop of up to a minute (at 44.1 kHz), the first and last seconds of a longer
    /// one. Where more loops are held than memory is set aside for, the latest come first. May outlive the
    /// recording.
    virtual std::shared_ptr<const void> hold(const Range<Frames>& /*loop*/) { return nullptr; }
};

} // namespace earwright
