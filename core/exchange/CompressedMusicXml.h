// Compressed MusicXML (.mxl): a score in a zip archive.
#pragma once

#include "core/result/Result.h"

#include <string>
#include <string_view>

namespace earwright {

/// The score in an archive as MusicXML 4.0 (W3C) describes it, "Compressed .mxl files": `mimetype` first and
/// stored as it is, then META-INF/container.xml, which names the score. Threads: any.
Result<std::string> compressed(const std::string& musicXml, const std::string& scoreName = "score.musicxml");

/// The text of the score in an archive: the first root file of its container that is MusicXML, or, where an
/// archive has no container, its only .musicxml or .xml file. Nothing is ever written out, and no more is
/// taken out of the archive than a score may have, whatever the archive says of sizes.
///
/// Errors: Malformed for what is no such archive or is damaged, for names that lead out of it, for one with
/// more than a thousand files, or a score of more than largestMusicXmlBytes. Threads: any.
Result<std::string> musicXmlIn(std::string_view archive, const std::string& name);

/// The bytes begin as zip archives do.
bool isArchive(std::string_view bytes);

} // namespace earwright
