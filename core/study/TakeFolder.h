// Where the sound of takes lies: in a folder beside the study and named after it.
#pragma once

#include "core/result/Result.h"
#include "core/study/Study.h"

#include <filesystem>
#include <string>

namespace earwright {

/// "blues.takes" beside "blues.study". Requires: a study file is named.
std::filesystem::path takeFolderOf(const std::filesystem::path& studyFile);

/// A name no file in the folder has, for a recording begun at a moment in UTC as Take::recorded has it:
/// "2031-05-04 18.22.07.wav", with a number where that is taken.
std::string freshTakeFile(const std::filesystem::path& folder, const std::string& moment);

/// The study gets another file: the sound of its takes goes along, as copies (or links where the disk can),
/// so that the old study keeps its own. Files already there are left alone; a sound file that is missing
/// stays missing. Error: NotWritable, with the file. Blocks on the disk.
Result<Done> bringTakes(const Study& study, const std::filesystem::path& fromFolder,
                        const std::filesystem::path& toFolder);

} // namespace earwright
