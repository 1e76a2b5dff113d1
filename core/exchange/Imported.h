// What a file from elsewhere became.
#pragma once

#include "core/engraving/TabPlace.h"
#include "core/exchange/ForeignPart.h"
#include "core/exchange/MidiRhythm.h"
#include "core/study/Study.h"

#include <optional>
#include <string>
#include <vector>

namespace earwright {

/// How the places of a MIDI file's notes were read.
struct ReadRhythm {
    /// Ticks or ByHand.
    MidiRhythm taken = MidiRhythm::Ticks;
    double onLines = 1;
    /// Whether the ticks themselves swing, as a program writes it: `taken` is ByHand then, played or not.
    bool isSwung = false;
};

/// A study without a recording, and what of the file it could not hold.
struct Imported {
    Study study;
    /// All parts of the file, and the index of the one that became the study's line.
    std::vector<ForeignPart> parts{};
    std::size_t part = 0;
    /// Plain sentences, each said once; empty where nothing was left out.
    std::vector<std::string> leftOut{};
    /// Of a MIDI file: how the places of its notes were read, and what share of them lies where a notation
    /// program would have put it (shareOnLines). Nothing of others.
    std::optional<ReadRhythm> rhythm{};
};

/// A note as a file from elsewhere has it, before it joins the line.
struct ForeignNote {
    Beats begin;
    Beats end;
    Pitch pitch;
    double loudness = 0.6;
    Phrasing phrasing{};
    /// String and fret, where the file says them.
    std::optional<TabPlace> place{};
};

/// Makes one line of the notes: what still sounds when the next note begins ends there, notes that begin
/// together stay a double stop, and a pitch written twice in it is taken once. Places that a study file
/// cannot hold (parts of a beat beyond 1/960) go to the nearest 1/480, and pitches no line can have, also
/// those of grace notes, are left out; all are said in `leftOut`.
void addLine(Imported& imported, std::vector<ForeignNote> notes);

/// The nearest place that a study file can hold: parts of a beat beyond 1/960 go to the nearest 1/480, and
/// what lies too far from bar 1 for its parts to the nearest beat.
Beats writable(const Beats& place);

/// Puts a chord symbol over a bar, `within` beats behind its bar line, unless one stands there. False where
/// the bar cannot hold it: at more than twelve parts of a beat, or parts that do not go together with those
/// of the chords that stand.
bool addChord(Imported& imported, std::int64_t bar, const Beats& within, const ChordSymbol& symbol);

/// Divides each beat of the grid so that its notes begin on lines of it, where its usual lines do not reach
/// them and up to twelve parts do.
void divideBeats(Imported& imported);

/// Says in `leftOut` which parts were not taken.
void nameOtherParts(Imported& imported);

/// The sentence about grace notes that were left out.
inline constexpr const char* gracesLeftOut = "Grace notes beyond what a note here can have were left out.";

/// Adds the sentence unless it stands there.
void leaveOut(Imported& imported, const std::string& sentence);

} // namespace earwright
