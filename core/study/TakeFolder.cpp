#include "core/study/TakeFolder.h"

#include <algorithm>
#include <system_error>

namespace earwright {

namespace fs = std::filesystem;

fs::path takeFolderOf(const fs::path& studyFile) {
    fs::path folder = studyFile;
    folder.replace_extension(".takes");
    return folder;
}

std::string freshTakeFile(const fs::path& folder, const std::string& moment) {
    std::string stem = moment;
    std::replace(stem.begin(), stem.end(), ':', '.');
    std::replace(stem.begin(), stem.end(), 'T', ' ');
    if (stem.ends_with('Z')) stem.pop_back();
    std::string name = stem + ".wav";
    std::error_code ignored;
    for (int number = 2; fs::exists(folder / name, ignored); ++number)
        name = stem + " " + std::to_string(number) + ".wav";
    return name;
}

namespace {

/// The whole file under its new name, or nothing.
std::error_code copyWhole(const fs::path& from, const fs::path& to) {
    fs::path unfinished = to;
    unfinished += ".part";
    std::error_code failure;
    fs::copy_file(from, unfinished, fs::copy_options::overwrite_existing, failure);
    if (!failure) fs::rename(unfinished, to, failure);
    std::error_code ignored;
    if (failure) fs::remove(unfinished, ignored);
    return failure;
}

} // namespace

Result<Done> bringTakes(const Study& study, const fs::path& fromFolder, const fs::path& toFolder) {
    if (fromFolder == toFolder) return Done{};
    for (const Take& take : study.takes) {
        const fs::path from = fromFolder / take.file;
        const fs::path to = toFolder / take.file;
        std::error_code failure;
        if (!fs::exists(from, failure) || fs::exists(to, failure)) continue;
        fs::create_directories(toFolder, failure);
        if (!failure) fs::create_hard_link(from, to, failure);
        if (failure) failure = copyWhole(from, to);
        if (failure)
            return Error{ErrorKind::NotWritable,
                         "The take " + to.string() + " cannot be written: " + failure.message() + ".", ""};
    }
    return Done{};
}

} // namespace earwright
