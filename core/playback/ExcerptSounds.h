// The sound that goes with an example: the record at full and chosen speed, and the written notes.
#pragma once

#include "core/result/Result.h"
#include "core/sound/Recording.h"
#include "core/study/Study.h"
#include "core/time/Range.h"
#include "core/time/Seconds.h"

#include <filesystem>
#include <functional>
#include <memory>
#include <stop_token>
#include <vector>

namespace earwright {

struct ExcerptWish {
    /// One example each, in the order they are named.
    std::vector<Range<Seconds>> spans;
    /// Played ÷ original of the slower record, 0.1 to 2; at 1 there is none.
    double speed = 0.5;
    /// Cents by which the recording's own A lies above 440 Hz; the written notes follow it.
    double tuningCents = 0;
};

/// These phrases, in their order, as they are played; the whole written line where none are named.
std::vector<Range<Seconds>> excerptSpans(const Study& study, const std::vector<SpanId>& phrases);

/// The files that writeExcerptSounds() writes, in its order.
std::vector<std::filesystem::path> excerptSoundFiles(const ExcerptWish& wish,
                                                     const std::filesystem::path& sheet);

/// Writes beside `sheet`, and named after it, for each span: NAME.wav (the record), NAME-50.wav (at the
/// chosen speed, in percent) and NAME-notes.wav (what is written there, as the string voice plays it, in
/// stereo's middle). With several spans each NAME has its number: NAME-example-1.wav. Files are written whole
/// or not at all; those that stand there are replaced, except the recording. Returns them in that order.
///
/// `report`: share of the work done, 0 to 1. Errors: OutOfRange where a span lies outside the recording, and
/// NotWritable where a name is the recording's own, both before anything is written; Cancelled once stop is
/// asked for, files finished before stay; NotWritable. Requires:
/// study.beatMap.hasTempo(). Any thread; takes about a tenth of the time the sounds last.
Result<std::vector<std::filesystem::path>>
writeExcerptSounds(const Study& study, const std::shared_ptr<Recording>& recording, const ExcerptWish& wish,
                   const std::filesystem::path& sheet, const std::function<void(double)>& report = {},
                   const std::stop_token& stop = {});

} // namespace earwright
