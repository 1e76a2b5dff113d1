// What is measured about the playing of each written note: when, how long, how loud, how its pitch moves.
#pragma once

#include "core/check/PhrasingClaim.h"
#include "core/check/PitchContour.h"
#include "core/listening/RecordingEvidence.h"
#include "core/listening/TraceFeatures.h"
#include "core/result/Result.h"
#include "core/time/Range.h"
#include "core/time/Seconds.h"

#include <optional>
#include <stop_token>
#include <vector>

namespace earwright {

/// How a note is played. Nothing here is right or wrong: a note behind the beat is style.
struct NotePlaying {
    /// Where it sounds in the recording; the claim's own place where no beginning is heard.
    Range<Seconds> heard;
    /// Whether a beginning of its pitch is heard near its place.
    bool begins = false;
    /// Behind the written place (ahead: negative); nearer than the neighbours.
    Seconds behind;
    /// Against the median of the notes within two seconds, up to four before and four after it, dB; nothing
    /// where it has no neighbours.
    std::optional<double> loudnessDb;
    /// Chance that it is slurred from the note before, 0 to 1; nothing where none of another pitch leads up
    /// to it.
    std::optional<double> slurChance;
    TraceFeatures pitch;
    /// Its pitch from 120 ms before its onset to a little after its end, cents against the written one.
    std::vector<ContourPoint> contour;
    /// How the pitch goes on to the next note; nothing where none follows at once, or none within reach.
    std::optional<WayToNext> toNext;
    /// Whether another written note follows at once.
    bool isFollowed = false;
    /// Whether the note before surely slides to this one.
    bool isSlidTo = false;
    /// Heard through its onset, for grace notes: pitches (MIDI, rounded) held for 20 ms from 120 ms before to
    /// 120 ms after the onset, other than its own.
    std::vector<int> passingMidi;
};

/// Measures notes of one passage, in the view of the stereo picture in which the line is clearest.
/// Claims in any order; the answers are in the same. A pure function; takes about a twentieth of the notes'
/// length.
std::vector<NotePlaying> measurePhrasing(const StereoViews& views, const TuningCurve& tuning,
                                         const std::vector<PhrasingClaim>& claims);

/// The same for a recording, passage by passage, or for a part of its sound. Not for the interface's thread.
/// Errors: Cancelled.
Result<std::vector<NotePlaying>> measurePhrasing(const RecordingEvidence& recording,
                                                 const std::vector<PhrasingClaim>& claims,
                                                 std::stop_token stop = {}, const Progress& progress = {},
                                                 const HeardPart& part = {});

} // namespace earwright
