// The lines of a MIDI file: what one channel of a track plays.
#pragma once

#include "core/exchange/ForeignPart.h"
#include "core/exchange/MidiEvents.h"

#include <cstddef>
#include <utility>
#include <vector>

namespace earwright {

/// A track and a channel of it.
using MidiPart = std::pair<std::size_t, int>;

/// Every track and channel with notes, in the order of the file.
std::vector<MidiPart> midiParts(const MidiTracks& file);

/// The same with their names and how many notes they have.
std::vector<ForeignPart> namedParts(const MidiTracks& file, const std::vector<MidiPart>& parts);

} // namespace earwright
