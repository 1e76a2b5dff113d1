#include "core/study/StudyFile.h"

#include "core/study/AtomicFile.h"

#include <cstdint>
#include <fstream>
#include <iterator>

namespace earwright {

namespace {

/// A long study with every note written is about a megabyte; anything this large is some other file.
constexpr std::uintmax_t largestStudyBytes = 64u << 20;

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

Result<Done> StudyFile::write(const Study& study, const std::filesystem::path& path) {
    const std::string bytes = text(study);
    const Result<Study> readBack = parse(bytes, path.string());
    if (!readBack)
        return Error{
            ErrorKind::NotWritable,
            "The study was not saved, because it could not be read back; the file before is unchanged. " +
                readBack.error().message,
            readBack.error().where};
    return replaceFile(path, bytes);
}

} // namespace earwright
