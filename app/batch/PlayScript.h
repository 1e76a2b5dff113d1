// What a script asks the player to do, and when.
#pragma once

#include "app/batch/PlayVerb.h"
#include "core/result/Result.h"
#include "core/study/PlayedNote.h"
#include "core/study/Study.h"

#include <filesystem>
#include <memory>
#include <string>
#include <vector>

namespace earwright::batch {

/// One step, as its command's row in the table says. Times in seconds of the recording, except `at`, in
/// seconds from the start of the script.
struct PlayStep {
    double at = 0;
    const PlayVerb* verb = nullptr;
    std::vector<double> numbers;
    std::string word;
    /// A sound file to play or to write.
    std::filesystem::path file;
    std::shared_ptr<const Study> study;
    /// Measured in the recording before the script starts, where the command asks for it.
    PlayedNotes played;
};

/// Reads a table `at_s command value`, in order of time. A value may be left out where the command takes
/// none. Errors: NotFound, Unreadable; Malformed: an unknown command, a value missing or out of range, or a
/// study that cannot be read, with its line.
Result<std::vector<PlayStep>> readPlayScript(const std::filesystem::path& path);
/// The same from text; `name` stands for the file in messages.
Result<std::vector<PlayStep>> parsePlayScript(const std::string& text, const std::string& name);

} // namespace earwright::batch
