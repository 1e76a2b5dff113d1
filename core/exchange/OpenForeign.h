// Files from elsewhere, opened by what they are.
#pragma once

#include "core/exchange/Imported.h"
#include "core/result/Result.h"

#include <filesystem>

namespace earwright {

/// By its name this is a file that openForeign() reads: .musicxml, .xml, .mxl, .mid or .midi, in any
/// case of letters.
bool isForeign(const std::filesystem::path& path);
/// Of those, a MIDI file.
bool isMidiFile(const std::filesystem::path& path);

/// Reads the file, of it the part meant by `wish` (chosenPart). A compressed score is known by its bytes,
/// too; `rhythm` is for MIDI files. Requires: isForeign(path). Errors: NotFound, Unreadable, those of
/// readMusicXml(), musicXmlIn() and readStandardMidi(). Threads: any; may take a second.
Result<Imported> openForeign(const std::filesystem::path& path, const std::string& wish = "",
                             MidiRhythm rhythm = MidiRhythm::Fitting);

} // namespace earwright
