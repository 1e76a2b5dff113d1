#include "core/exchange/WriteForeign.h"

#include "core/exchange/CompressedMusicXml.h"
#include "core/study/AtomicFile.h"

namespace earwright {

Result<ForeignWriter> foreignWriter(const std::filesystem::path& path, const MusicXmlOptions& page,
                                    const MidiOptions& midi) {
    const std::string kind = path.extension().string();
    if (kind == ".mid")
        return ForeignWriter([midi](const Study& study, const PlayedNotes& played) {
            return standardMidi(study, midi, played);
        });
    if (kind == ".musicxml")
        return ForeignWriter(
            [page](const Study& study, const PlayedNotes&) { return musicXml(study, page); });
    if (kind == ".mxl")
        return ForeignWriter([page](const Study& study, const PlayedNotes&) {
            const auto text = musicXml(study, page);
            return text ? compressed(*text) : text;
        });
    return Error{
        ErrorKind::Unsupported,
        path.string() + " ends in none of .musicxml, .mxl and .mid, the kinds that other programs read.", ""};
}

Result<Done> writeForeign(const Study& study, const std::filesystem::path& path, const MusicXmlOptions& page,
                          const MidiOptions& midi, const PlayedNotes& played) {
    const auto write = foreignWriter(path, page, midi);
    if (!write) return write.error();
    const auto bytes = (*write)(study, played);
    return bytes ? replaceFile(path, *bytes) : bytes.error();
}

} // namespace earwright
