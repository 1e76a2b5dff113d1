// What a script asks the player to do, and when.
#pragma once

#include "core/engine/Engine.h"
#include "core/result/Result.h"

#include <filesystem>
#include <string>
#include <vector>

namespace earwright::batch {

/// One step. Times in seconds of the recording, except `at`, in seconds from the start of the script.
struct PlayStep {
    enum class Kind {
        Play,
        Pause,
        Seek,
        Speed,
        Semitones,
        Cents,
        Loop,
        LoopOff,
        Focus,
        Band,
        BandOff,
        Hold,
        HoldOff,
        Balance,
        Quit
    };
    double at = 0;
    Kind kind = Kind::Play;
    /// Place, speed, semitones, cents or decibels; the loop's start.
    double value = 0;
    double loopEnd = 0;
    earwright::Focus focus = earwright::Focus::All;
    earwright::Band band;
};

/// Reads a table `at_s command value`, in order of time. A value may be left out where the command takes
/// none. Errors: NotFound, Unreadable; Malformed: an unknown command, a value missing or out of range, with
/// its line.
Result<std::vector<PlayStep>> readPlayScript(const std::filesystem::path& path);
/// The same from text; `name` stands for the file in messages.
Result<std::vector<PlayStep>> parsePlayScript(const std::string& text, const std::string& name);

} // namespace earwright::batch
