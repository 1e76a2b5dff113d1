// How long the notes of a MIDI file are meant to be, which sounds shorter than it is written.
#pragma once

#include "core/exchange/Imported.h"

#include <vector>

namespace earwright {

/// Programs let a written note sound for a part of its length, such as nine tenths, or end it some ticks
/// early, so that one is heard apart from the next. Where most notes end early, that is, neither with the
/// next one's beginning nor on the sixteenths or the thirds of eighths of a quarter, they all get the length
/// that makes the usual one of them reach the next note; one that comes close to the next reaches it, others
/// end on a line of the beat, so that no rests of a sixty-fourth stand between them. Where each of them ends
/// just before a line or the next note, three notes tell that it was meant to end there. Else, and where
/// fewer than eight notes tell of it or all are short on purpose, nothing changes; nor does a note that goes
/// on under the next one.
///
/// Notes in the order of their onsets, which stand where they were written. `beatUnit`: what their places are
/// counted in. Threads: any.
std::vector<ForeignNote> writtenLengths(std::vector<ForeignNote> notes, int beatUnit);

} // namespace earwright
