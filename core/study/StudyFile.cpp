#include "core/study/StudyFile.h"

#include "core/study/AtomicFile.h"

#include <cstdint>
#include <fstream>
#include <iterator>

namespace earwright {

namespace {

/// A long study with every note written is about a megabyte; anything this large is some other file.
constexpr std::uintmax_t largestStudyBytes = 64u << 20;

/// U+FFFD, which text() puts for bytes that are not UTF-8.
bool hasBadText(const std::string& bytes) {
    return bytes.find("\xef\xbf\xbd") != std::string::npos;
}

/// A member of the file, and what it is to the user.
struct Part {
    const char* member;
    const char* words;
};

/// The first that holds something else. Requires: the studies differ.
Part partThatDiffers(const Study& one, const Study& other) {
    if (one.title != other.title) return {"title", "the title"};
    if (one.recording != other.recording) return {"recording", "the recording it is of"};
    if (one.meter != other.meter) return {"meter", "the meter"};
    if (one.beatMap != other.beatMap) return {"beatMarks", "bar lines and beats"};
    if (one.chart.form != other.chart.form) return {"form", "the form"};
    if (one.chart.overrides != other.chart.overrides) return {"overrides", "chords of single bars"};
    if (one.spans != other.spans) return {"spans", "phrases, choruses or sections"};
    if (one.notes != other.notes) return {"notes", "notes"};
    if (one.page != other.page) return {"page", "what is set on the page"};
    if (one.tuning != other.tuning) return {"tuning", "strings and tuning"};
    if (one.players != other.players) return {"players", "who plays"};
    if (one.divisions != other.divisions) return {"divisions", "how beats are divided"};
    if (one.looseEnds != other.looseEnds) return {"looseEnds", "loose ends"};
    if (one.takes != other.takes) return {"takes", "takes"};
    if (one.earRecord != other.earRecord) return {"earRecord", "the record of your ear"};
    if (one.practice != other.practice) return {"practice", "speed, loop and the like"};
    return {"nextId", "the numbers of its parts"};
}

} // namespace

Result<Study> StudyFile::read(const std::filesystem::path& path) {
    namespace fs = std::filesystem;
    std::error_code failure;
    const fs::file_status status = fs::status(path, failure);
    if (!fs::exists(status))
        return Error{ErrorKind::NotFound, "There is no study " + path.string() + ".", ""};
    if (!fs::is_regular_file(status))
        return Error{ErrorKind::Unreadable, path.string() + " is not a file that can be read.", ""};
    const std::uintmax_t size = fs::file_size(path, failure);
    if (!failure && size > largestStudyBytes)
        return Error{ErrorKind::Malformed, path.string() + " is far too large to be a study.", ""};
    std::ifstream file(path, std::ios::binary);
    const std::string bytes{std::istreambuf_iterator<char>(file), std::istreambuf_iterator<char>()};
    if (failure || !file)
        return Error{ErrorKind::Unreadable, path.string() + " cannot be read; check its permissions.", ""};
    return parse(bytes, path.string());
}

Result<std::string> StudyFile::checkedText(const Study& study, const std::filesystem::path& path) {
    std::string bytes = text(study);
    const std::string refused = path.string() + " was not written; what was there before is unchanged. ";
    const Result<Study> readBack = parse(bytes, "The study as it is now");
    if (!readBack)
        return Error{ErrorKind::NotWritable,
                     refused + "It could not be read back: " + readBack.error().message,
                     readBack.error().where};
    if (*readBack == study || (hasBadText(bytes) && text(*readBack) == bytes)) return bytes;
    const Part part = partThatDiffers(study, *readBack);
    return Error{ErrorKind::NotWritable,
                 refused + "Some of it would be lost: " + part.words + ". Undo the last steps and try again.",
                 part.member};
}

Result<Done> StudyFile::write(const Study& study, const std::filesystem::path& path) {
    const Result<std::string> bytes = checkedText(study, path);
    return bytes ? replaceFile(path, *bytes) : Result<Done>(bytes.error());
}

} // namespace earwright
