// What the record says to a written chord, in words.
#pragma once

#include "core/check/StudyChords.h"

#include <QString>

#include <vector>

namespace earwright::ui {

/// "Bar 5, D7: contradicted. Heard: D A C; against it: F; missing: F♯; the bass plays D." or "Bar 6, C/G:
/// supported, its bass contradicted. Heard: C E; the bass plays E, not G." Its tones are named as the chord
/// spells them, others plainly, and none with a double accidental.
QString chordAnswerText(const CheckedChord& chord);

/// "12 chords: 9 supported, 2 unclear, 1 contradicted.", each with its bass.
QString chordCountText(const std::vector<CheckedChord>& chords);

} // namespace earwright::ui
