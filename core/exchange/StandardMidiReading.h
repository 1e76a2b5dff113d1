// A Standard MIDI File as a study.
#pragma once

#include "core/exchange/Imported.h"
#include "core/result/Result.h"

#include <cstddef>
#include <string>
#include <string_view>

namespace earwright {

/// A file with more bytes than this is refused.
inline constexpr std::size_t largestMidiBytes = 1u << 20;

/// The notes of one channel of one track: the part that chosenPart() takes for `wish` (channel 10 holds drums
/// by General MIDI), with title, meters, key signatures, tempo (as beat marks, and the first one on the
/// page), and text: what can be read as a chord stands over its bar, the rest as words. A first bar with a
/// shorter meter of its own is a pickup, else time 0 is bar 1. Where ticks count seconds, a quarter is half a
/// second; of format 2 one track is read. Notes stand where `rhythm` says (MidiRhythm); a line that
/// swings, as a hand plays it, in thirds of a beat or as the file says (ToldSwing.h), has its swing on the
/// page. Other channels and tracks, pitch bends and controllers are left out and named.
///
/// Errors: those of midiTracks() and chosenPart(); Malformed for a file without notes or above
/// largestMidiBytes, and for a part of more than 20 000 notes. Threads: any.
Result<Imported> readStandardMidi(std::string_view bytes, const std::string& name,
                                  const std::string& wish = "", MidiRhythm rhythm = MidiRhythm::Fitting);

} // namespace earwright
