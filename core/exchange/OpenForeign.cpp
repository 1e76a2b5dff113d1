#include "core/exchange/OpenForeign.h"

#include "core/exchange/CompressedMusicXml.h"
#include "core/exchange/MusicXmlReading.h"
#include "core/exchange/StandardMidiReading.h"

#include <algorithm>
#include <cctype>
#include <fstream>
#include <iterator>

namespace earwright {

namespace {

namespace fs = std::filesystem;

std::string kindOf(const fs::path& path) {
    std::string kind = path.extension().string();
    std::transform(kind.begin(), kind.end(), kind.begin(),
                   [](unsigned char c) { return static_cast<char>(std::tolower(c)); });
    return kind;
}

bool isMidi(const std::string& kind) {
    return kind == ".mid" || kind == ".midi";
}

} // namespace

bool isMidiFile(const fs::path& path) {
    return isMidi(kindOf(path));
}

bool isForeign(const fs::path& path) {
    const std::string kind = kindOf(path);
    return isMidi(kind) || kind == ".musicxml" || kind == ".xml" || kind == ".mxl";
}

Result<Imported> openForeign(const fs::path& path, const std::string& wish, MidiRhythm rhythm) {
    std::error_code failure;
    const std::string name = path.string();
    if (!fs::exists(path, failure)) return Error{ErrorKind::NotFound, "There is no file " + name + ".", ""};
    if (!fs::is_regular_file(path, failure))
        return Error{ErrorKind::Unreadable, name + " is not a file that can be read.", ""};
    // Either reader refuses more than this by itself, but it should not be read in first.
    if (fs::file_size(path, failure) > std::max(largestMidiBytes, largestMusicXmlBytes) || failure)
        return Error{ErrorKind::Malformed, name + " is far too large to be a line of notes.", ""};
    std::ifstream file(path, std::ios::binary);
    const std::string bytes{std::istreambuf_iterator<char>(file), std::istreambuf_iterator<char>()};
    if (!file) return Error{ErrorKind::Unreadable, name + " cannot be read; check its permissions.", ""};
    if (isMidiFile(path)) return readStandardMidi(bytes, name, wish, rhythm);
    if (!isArchive(bytes)) return readMusicXml(bytes, name, wish);
    const auto score = musicXmlIn(bytes, name);
    return score ? readMusicXml(*score, name, wish) : score.error();
}

} // namespace earwright
