// How a note is played, in words.
#pragma once

#include "core/check/PhrasingMark.h"
#include "core/check/PhrasingMeasure.h"
#include "core/check/ThreeInABeat.h"

#include <QString>

#include <optional>

namespace earwright::ui {

/// "28 ms behind · 5 dB softer than the notes around it · lasts 210 ms · slides in over 140 cents from below
/// · slur: unclear": what is measured of one note, then what the recording says to each mark that is written,
/// then marks that are clearly heard and not written. Of what is not heard well enough nothing is said, nor
/// of a note that is heard at another pitch, which is for the check and its steps to tell. `behindSwing`: of
/// an eighth that is written evenly in a line that swings, how far behind the line's swing it lies. `length`:
/// as it is written; said where the note lasts plainly longer or shorter, which may be style.
QString playingText(const Phrasing& written, const NotePlaying& playing,
                    const std::optional<Seconds>& behindSwing = std::nullopt,
                    const std::optional<Seconds>& length = std::nullopt);

/// "the three notes of this beat sound like a triplet".
QString spacingText(ThreeInABeat heard);

/// "slide out", "grace note".
QString markWord(PhrasingMark mark);

} // namespace earwright::ui
