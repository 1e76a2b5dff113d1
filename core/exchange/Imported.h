// What a file from elsewhere became.
#pragma once

#include "core/exchange/ForeignPart.h"
#include "core/study/Study.h"

#include <string>
#include <vector>

namespace earwright {

/// A study without a recording, and what of the file it could not hold.
struct Imported {
    Study study;
    /// All parts of the file, and the index of the one that became the study's line.
    std::vector<ForeignPart> parts{};
    std::size_t part = 0;
    /// Plain sentences, each said once; empty where nothing was left out.
    std::vector<std::string> leftOut{};
};

/// A note as a file from elsewhere has it, before it joins the line.
struct ForeignNote {
    Beats begin;
    Beats end;
    Pitch pitch;
    double loudness = 0.6;
    Phrasing phrasing{};
};

/// Makes one line of the notes: what still sounds when the next note begins ends there, notes that begin
/// together stay a double stop, and a pitch written twice in it is taken once. Places that a study file
/// cannot hold (parts of a beat beyond 1/960) go to the nearest 1/480, and pitches no line can have are left
/// out; both are said in `leftOut`.
void addLine(Imported& imported, std::vector<ForeignNote> notes);

/// The nearest place that a study file can hold: parts of a beat beyond 1/960 go to the nearest 1/480, and
/// what lies too far from bar 1 for its parts to the nearest beat.
Beats writable(const Beats& place);

/// Puts a chord symbol over a bar, `within` beats behind its bar line, unless one stands there. False where
/// the bar cannot hold it: at more than twelve parts of a beat, or parts that do not go together with those
/// of the chords that stand.
bool addChord(Imported& imported, std::int64_t bar, const Beats& within, const ChordSymbol& symbol);

/// Says in `leftOut` which parts were not taken.
void nameOtherParts(Imported& imported);

/// Adds the sentence unless it stands there.
void leaveOut(Imported& imported, const std::string& sentence);

} // namespace earwright
