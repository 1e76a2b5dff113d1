// The written notes as a file for other programs, of the kind its name says.
#pragma once

#include "core/result/Result.h"
#include "core/study/Study.h"

#include <filesystem>

namespace earwright {

/// Writes .musicxml, .mxl or .mid, whole or not at all. Errors: Unsupported for another ending; those of
/// musicXml(), standardMidi() and replaceFile(). Threads: any; blocks until the disk has it.
Result<Done> writeForeign(const Study& study, const std::filesystem::path& path);

} // namespace earwright
