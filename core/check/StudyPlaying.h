// How the notes of a study are played in its recording.
#pragma once

#include "core/check/PhrasingMeasure.h"
#include "core/check/ThreeInABeat.h"
#include "core/listening/RecordingEvidence.h"
#include "core/result/Result.h"
#include "core/study/PlayedNote.h"
#include "core/study/Study.h"

#include <map>
#include <optional>
#include <stop_token>
#include <vector>

namespace earwright {

/// What is asked about the playing of notes of a study: where they are written, swing included, and how far
/// off-beat eighths may swing. In the order of the notes. Requires: study.beatMap.hasTempo(); notes rise by
/// onset.
std::vector<PhrasingClaim> phrasingClaims(const Study& study, const std::vector<Note>& notes);

/// Measures notes of a study, in a part of its sound or where the line is clearest; those whose beginning is
/// not heard are left out. Not for the interface's thread. Errors: Cancelled; OutOfRange where the bars are
/// not marked yet. Requires: notes rise by onset.
Result<PlayedNotes> measurePlaying(const Study& study, const std::vector<Note>& notes,
                                   const RecordingEvidence& recording, std::stop_token stop = {},
                                   const Progress& progress = {}, const HeardPart& part = {});

/// What a note is written between, by which its own measure goes: how far its onset is sought, whether it is
/// slurred, and where it slides to.
struct WrittenBetween {
    struct Neighbour {
        int midi;
        Range<Beats> range;
        friend bool operator==(const Neighbour&, const Neighbour&) = default;
    };
    std::optional<Neighbour> before;
    std::optional<Neighbour> after;
    friend bool operator==(const WrittenBetween&, const WrittenBetween&) = default;
};

/// Of its own voice, where several sound at once.
WrittenBetween writtenBetween(const Study& study, const Note& note);

/// A note as it was written when it was measured, and how it is played.
struct MeasuredNote {
    PhrasingClaim claim;
    WrittenBetween between;
    NotePlaying playing;
    /// Where it is one of three in a beat that are spaced in another way than they are written.
    std::optional<HeardThree> three = std::nullopt;
};
using MeasuredNotes = std::map<NoteId, MeasuredNote>;

/// Whether a note itself is as it was when it was measured: its pitch, place and length, and the character of
/// the line.
bool isAsMeasured(const MeasuredNote& measured, const Study& study, const Note& note);

/// Whether a measure still tells of a note: its pitch, place and length, the notes beside it and the
/// character of the line are as they were. Its signs need not be, since they are judged by what was measured
/// and change nothing of it.
bool holdsFor(const MeasuredNote& measured, const Study& study, const Note& note);

/// All that is measured of notes of a study, those among them whose beginning is not heard. Else as
/// measurePlaying.
Result<MeasuredNotes> measureNotes(const Study& study, const std::vector<Note>& notes,
                                   const RecordingEvidence& recording, std::stop_token stop = {},
                                   const Progress& progress = {}, const HeardPart& part = {});

/// What was measured of a note as it can be played back. Requires: playing.begins.
PlayedNote playedNote(const PhrasingClaim& claim, const NotePlaying& playing);

} // namespace earwright
