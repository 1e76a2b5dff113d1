// Files from elsewhere, opened by what they are.
#pragma once

#include "core/exchange/Imported.h"
#include "core/result/Result.h"

#include <filesystem>

namespace earwright {

/// By its name this is a file that openForeign() reads: .musicxml, .xml, .mid or .midi, in any case of
/// letters.
bool isForeign(const std::filesystem::path& path);

/// Reads the file. Requires: isForeign(path). Errors: NotFound, Unreadable, those of readMusicXml() and
/// readStandardMidi(). Threads: any; may take a second.
Result<Imported> openForeign(const std::filesystem::path& path);

} // namespace earwright
