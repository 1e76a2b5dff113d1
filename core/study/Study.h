// The document: one recording and everything worked out about it. A plain value; edits make new ones.
#pragma once

#include "core/music/BeatMap.h"
#include "core/music/ChordChart.h"
#include "core/music/Meter.h"
#include "core/music/Note.h"
#include "core/music/PageMarks.h"
#include "core/music/Span.h"
#include "core/music/StringTuning.h"
#include "core/study/EarRecord.h"
#include "core/study/Players.h"
#include "core/time/Frames.h"
#include "core/time/Range.h"
#include "core/time/SampleRate.h"
#include "core/time/Seconds.h"

#include <cstdint>
#include <map>
#include <optional>
#include <string>
#include <vector>

namespace earwright {

/// Which recording a study is about, so that a moved file is found again and a different one is noticed.
struct RecordingRef {
    /// Relative to the study file, with forward slashes; UTF-8.
    std::string path;
    /// XXH3-128 of the file's bytes as 32 lower-case hex digits; empty until the file has been read through.
    std::string contentHash;
    SampleRate rate;
    Frames length;
    friend bool operator==(const RecordingRef&, const RecordingRef&) = default;
};

/// Names a loose end for as long as the study lives; never used twice.
struct LooseEndId {
    std::uint64_t value = 0;
    friend auto operator<=>(const LooseEndId&, const LooseEndId&) = default;
};

/// A place to come back to, with a word of text.
struct LooseEnd {
    LooseEndId id;
    Seconds time;
    std::string text;
    bool done = false;
    friend bool operator==(const LooseEnd&, const LooseEnd&) = default;
};

/// Names a take for as long as the study lives; never used twice.
struct TakeId {
    std::uint64_t value = 0;
    friend auto operator<=>(const TakeId&, const TakeId&) = default;
};

/// The user playing along, once through a stretch of the recording; a part of a sound file, which may hold
/// several takes (the passes of a loop).
struct Take {
    TakeId id;
    std::string name;
    /// Name of the sound file in the study's folder of takes (TakeFolder.h), without any folder; UTF-8.
    std::string file;
    /// In frames of that file: what belongs to the take.
    Range<Frames> part;
    /// Place in the recording that was heard while the first frame of the part was played.
    Seconds at;
    /// Played ÷ original of the recording meanwhile: one second of the take covers this many of the
    /// recording. About 0.1 to 2; a millionth off where two devices' clocks differ.
    double speed = 1;
    /// How far the recording was transposed meanwhile, cents as a fraction: −13 to 13.
    double semitones = 0;
    /// When, in UTC: "2031-05-04T18:22:07Z".
    std::string recorded;
    /// This one is heard as "yours". At most one take is.
    bool chosen = false;
    friend bool operator==(const Take&, const Take&) = default;
};

/// How one counted beat is divided in the note grid. A page can draw each of them as one figure.
enum class BeatDivision {
    One = 1,
    Two = 2,
    Three = 3,
    Four = 4,
    Five = 5,
    Six = 6,
    Seven = 7,
    Eight = 8,
    Nine = 9,
    Ten = 10,
    Eleven = 11,
    Twelve = 12
};

/// The division into so many parts, if there is one.
std::optional<BeatDivision> divisionInto(std::int64_t parts);

/// How the user last listened, kept so that the study opens where it was left.
struct Practice {
    std::optional<Range<Seconds>> loop;
    /// Played ÷ original: 0.5 is half speed. 0.1 to 2.
    double speed = 1.0;
    int semitones = 0;
    int cents = 0;
    friend bool operator==(const Practice&, const Practice&) = default;
};

/// One recording and everything worked out about it.
///
/// Invariants: notes sorted by onset, then pitch; spans by start; loose ends by time; ids unique and below
/// nextId. Edits (core/study/*Edits.h) keep them.
/// Threads: a value; share it const.
struct Study {
    std::string title;
    RecordingRef recording;
    /// Of bar 1; page.meters has the changes. Beats are counted in its beat throughout.
    Meter meter;
    BeatMap beatMap;
    ChordChart chart;
    std::vector<Span> spans;
    std::vector<Note> notes;
    PageMarks page;
    /// What tablature and fingering are for. Always playable.
    StringTuning tuning;
    /// Who plays on the recording, as far as it is said.
    Players players;
    /// By the place where a counted beat begins (MeterMap::countStart).
    std::map<Beats, BeatDivision> divisions;
    std::vector<LooseEnd> looseEnds;
    /// In the order in which they were recorded.
    std::vector<Take> takes;
    EarRecord earRecord;
    Practice practice;
    std::uint64_t nextId = 1;

    friend bool operator==(const Study&, const Study&) = default;

    /// Every bar with its meter.
    MeterMap meters() const { return MeterMap(meter, page.meters); }
    /// Of the counted beat that begins here: what the user chose, else two, or three where three units are
    /// counted as one (6/8).
    BeatDivision divisionOf(const Beats& beat) const;
    BeatDivision divisionOf(std::int64_t beat) const { return divisionOf(Beats(beat)); }
    const Span* span(SpanId id) const;
    const Note* note(NoteId id) const;
    const Take* take(TakeId id) const;
    /// The take that is heard as "yours"; null for the written notes.
    const Take* chosenTake() const;
    std::vector<Span> spansOf(SpanKind kind) const;
    /// The innermost span of a kind at a time.
    const Span* spanAt(SpanKind kind, Seconds time) const;
    /// Choruses as bars, by the nearest bar lines. Empty without a tempo.
    std::vector<ChorusBars> chorusBars() const;
    std::optional<ChordSymbol> chordAt(const Beats& place) const;
    BarChords barChords(std::int64_t bar) const;
    /// Beats of a span, to the nearest twelfth of a beat. Requires: beatMap.hasTempo().
    Range<Beats> beatsOf(const Span& span) const;
    /// Written notes whose onset lies in the range.
    std::vector<Note> notesIn(const Range<Beats>& range) const;
};

} // namespace earwright
