#include "core/exchange/WriteForeign.h"

#include "core/exchange/CompressedMusicXml.h"
#include "core/exchange/MusicXml.h"
#include "core/exchange/StandardMidi.h"
#include "core/study/AtomicFile.h"

#include <string>

namespace earwright {

namespace {

Result<std::string> bytesFor(const Study& study, const std::filesystem::path& path) {
    const std::string kind = path.extension().string();
    if (kind == ".mid") return standardMidi(study);
    if (kind != ".musicxml" && kind != ".mxl")
        return Error{
            ErrorKind::Unsupported,
            path.string() + " ends in none of .musicxml, .mxl and .mid, the kinds that can be written.", ""};
    const auto text = musicXml(study);
    return text && kind == ".mxl" ? compressed(*text) : text;
}

} // namespace

Result<Done> writeForeign(const Study& study, const std::filesystem::path& path) {
    const auto bytes = bytesFor(study, path);
    return bytes ? replaceFile(path, *bytes) : bytes.error();
}

} // namespace earwright
