// How three notes share a beat: as they are written, and as they are spaced in the recording.
#pragma once

#include "core/listening/PassageEvidence.h"
#include "core/study/Study.h"

#include <array>
#include <map>
#include <optional>
#include <vector>

namespace earwright {

enum class ThreeInABeat {
    Triplet,
    LongFirst,  ///< eighth, sixteenth, sixteenth
    LongMiddle, ///< sixteenth, eighth, sixteenth
    LongLast    ///< sixteenth, sixteenth, eighth
};

/// Three places in one beat (a quarter), and the way they are spaced in the recording instead.
struct HeardThree {
    std::array<Beats, 3> places;
    ThreeInABeat heard = ThreeInABeat::Triplet;
    friend bool operator==(const HeardThree&, const HeardThree&) = default;
};

/// Whether any beat holds three places that are written in one of the four ways and listened for. Requires:
/// notes rise by onset.
bool anyThreeInABeat(const Study& study, const std::vector<Note>& notes);

/// Whether the beat of a note still has notes at just those places. Requires: notes rise by onset.
bool isWrittenSo(const HeardThree& three, const Study& study, const std::vector<Note>& notes,
                 const Note& note);

/// For the notes of beats that hold three places, written in one of the four ways, the one that the onsets of
/// their pitches bear out clearly better: those within 20 ms of its places, the line's usual lag taken off,
/// are more than seven times as probable together, and half as probable as certain ones or more each, as a
/// geometric mean. Style, never judged. Nothing where three of the written counts make one (6/8), or a pitch
/// is not listened for. No span is listened to. A pure function. Requires: study.beatMap.hasTempo(); notes
/// rise by onset and lie in the passage.
std::map<NoteId, HeardThree> threesHeardOtherwise(const Study& study, const std::vector<Note>& notes,
                                                  const PassageEvidence& evidence);

} // namespace earwright
