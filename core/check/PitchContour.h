// The pitch of a note as it was traced, and what its shape says to a mark that is written for it.
#pragma once

#include "core/check/Verdict.h"
#include "core/listening/PitchTrace.h"
#include "core/music/Note.h"
#include "core/time/Range.h"
#include "core/time/Seconds.h"

#include <optional>
#include <vector>

namespace earwright {

/// A place of a traced pitch, PitchTrace::step apart.
struct ContourPoint {
    Seconds time;
    /// Against the written pitch.
    double cents = 0;
    /// 0 to 1, as PitchPoint::clarity.
    double clarity = 0;
};

std::vector<ContourPoint> contourOf(const PitchTrace& trace, int writtenMidi);

/// The way from one note to the next.
struct WayToNext {
    int semitones = 0;
    /// How long the pitch is on its way between the two notes, without leaps: from a fifth to four fifths of
    /// it.
    Seconds between;
    /// How much of the way it is heard to go in that time, 0 to 0.6: a scoop into the next note goes the last
    /// bit only.
    double share = 0;
    /// Whether both notes are heard clearly on either side of the way.
    bool isClear = false;
};

/// `contour`: around the next note's onset, against this one's pitch. Requires: semitones other than 0.
WayToNext wayToNext(const std::vector<ContourPoint>& contour, int semitones);

// Each answers by the contour of a note between its onset and its end: supported where the shape of the mark
// is heard, contradicted where the pitch is clear and stays where a plain note's does, else unclear. How far
// a shape may lie from the mark's ideal was set on notes rendered with two sound fonts.

/// To bends that go up from the written pitch; others are unclear.
Verdict bendVerdict(const Bend& written, const std::vector<ContourPoint>& contour, Range<Seconds> note);
Verdict scoopVerdict(const std::vector<ContourPoint>& contour, Range<Seconds> note);
/// `isFollowed`: another note begins where it ends.
Verdict fallVerdict(const std::vector<ContourPoint>& contour, Range<Seconds> note, bool isFollowed);
Verdict turnVerdict(Turn written, const std::vector<ContourPoint>& contour, Range<Seconds> note);
Verdict mordentVerdict(Mordent written, const std::vector<ContourPoint>& contour, Range<Seconds> note);
Verdict slideToNextVerdict(const std::optional<WayToNext>& way);
/// Whether a slide to the next note is heard so clearly that it is worth listing where none is written.
bool surelySlides(const std::optional<WayToNext>& way);
/// Whether a pitch moves so little that it has no vibrato.
bool standsStill(const std::vector<ContourPoint>& contour, Range<Seconds> note);

} // namespace earwright
