// The commands of a play script: what each is called, takes and does.
#pragma once

#include "app/batch/ScriptedEngine.h"

#include <span>
#include <string>
#include <vector>

namespace earwright::batch {

struct PlayStep;

struct NumberRange {
    double least;
    double most;
    bool isWhole = false;
};

/// A row of the table of commands. Its value is nothing, so many numbers, or one word.
struct PlayVerb {
    std::string name;
    /// For messages, after “NAME takes”.
    std::string takes;
    void (*carryOut)(ScriptedEngine& target, const PlayStep& step) = nullptr;
    std::vector<NumberRange> numbers{};
    /// Words that stand in place of the numbers.
    std::vector<std::string> words{};
    /// A word that may follow the numbers.
    std::string ending{};
    /// The value is the name of a study file.
    bool takesStudy = false;
    /// How the study's notes are played has to be measured beforehand.
    bool isAsPlayed = false;
    /// The name of a sound file comes before the numbers.
    bool takesSound = false;
    /// More that the numbers have to fulfil.
    bool (*fits)(const std::vector<double>& numbers) = nullptr;
    /// The script ends here.
    bool quits = false;
};

std::span<const PlayVerb> playVerbs();

} // namespace earwright::batch
