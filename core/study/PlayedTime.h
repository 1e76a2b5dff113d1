// When a written place is played: the beat map, and the swing of its passage.
#pragma once

#include "core/study/Study.h"

#include <cstdint>
#include <vector>

namespace earwright {

/// The place as it would be written had the swing been written out, in beats from the start of bar 1. In a
/// swung passage the second of two even notes, and what lies between them in halves, comes later
/// (Swing::played); beats divided in threes, fives and other numbers that are no halves of halves, and places
/// that only such a division reaches, stay where they are: a triplet is written out already (common
/// practice). So does everything where three eighths are counted as one (6/8). Pairs are counted from the bar
/// line.
double playedBeat(const Study& study, const Beats& written);
/// The same for many places; `meters` are the study's, kept at hand.
double playedBeat(const Study& study, const MeterMap& meters, const Beats& written);

/// The same in the recording. Requires: study.beatMap.hasTempo().
Seconds playedTime(const Study& study, const Beats& written);
Range<Seconds> playedTime(const Study& study, const Range<Beats>& written);

/// Where on the page a time would be written, to so many parts of a beat: in a beat that swings at the
/// nearest note that swings and is played within 50 ms of it, if there is one. Requires:
/// study.beatMap.hasTempo(); parts greater than 0.
Beats writtenPlace(const Study& study, Seconds time, std::int64_t parts);

/// How long a note sounds that is written to last so long: one under a staccato dot half of that (common
/// practice), one that is let ring three seconds at least, until it has lost most of its sound.
Seconds soundingLength(const Phrasing& phrasing, Seconds written);

/// Notes whose onsets are played within a stretch of the recording, in the study's order, which is by onset;
/// none before bars are marked.
bool isAnyPlayedIn(const Study& study, const Range<Seconds>& stretch);
std::vector<Note> notesPlayedIn(const Study& study, const Range<Seconds>& stretch);

} // namespace earwright
