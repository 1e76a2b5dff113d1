// A tone that was not made here: a MIDI file of one note, rendered by fluidsynth with a free sound font.
#pragma once

#include "core/sound/Recording.h"

#include <filesystem>
#include <memory>

namespace earwright::tests {

/// Writes the file (44.1 kHz, stereo) and opens it. Nothing where fluidsynth fails. `program` counts from 0
/// in General MIDI.
std::shared_ptr<Recording> renderedTone(const std::filesystem::path& wav, int program, int midi,
                                        double seconds);

} // namespace earwright::tests
