// The written notes as a file for other programs, of the kind its name says.
#pragma once

#include "core/exchange/MusicXml.h"
#include "core/exchange/StandardMidi.h"
#include "core/result/Result.h"
#include "core/study/PlayedNote.h"
#include "core/study/Study.h"

#include <filesystem>
#include <functional>
#include <string>

namespace earwright {

/// The bytes of a file. What was measured of the notes only concerns MIDI. Errors: those of musicXml() and
/// standardMidi().
using ForeignWriter = std::function<Result<std::string>(const Study& study, const PlayedNotes& played)>;

/// For .musicxml, .mxl or .mid. Errors: Unsupported for another ending. Threads: any, the writer too.
Result<ForeignWriter> foreignWriter(const std::filesystem::path& path, const MusicXmlOptions& page = {},
                                    const MidiOptions& midi = {});

/// Writes the file whole or not at all. Errors: those of foreignWriter(), its writer and replaceFile().
/// Threads: any; blocks until the disk has it.
Result<Done> writeForeign(const Study& study, const std::filesystem::path& path,
                          const MusicXmlOptions& page = {}, const MidiOptions& midi = {},
                          const PlayedNotes& played = {});

} // namespace earwright
