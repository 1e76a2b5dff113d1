#include "app/batch/RangeWords.h"

#include "core/check/StudyListening.h"
#include "core/music/HeardRange.h"
#include "core/music/Pitch.h"

#include <cstdio>

namespace earwright::batch {

namespace {

std::string wordsFor(const PitchRange& range) {
    return toString(Pitch{range.lowestMidi, {}}) + " to " + toString(Pitch{range.highestMidi, {}});
}

void tellOfLess(const std::string& word, const PitchRange& heard) {
    std::fprintf(stderr,
                 "earwright-batch: only %s of the range “%s” can be heard, so only that is listened for.\n",
                 wordsFor(heard).c_str(), word.c_str());
}

} // namespace

Result<LineRange> rangeNamed(const std::string& word) {
    if (const auto line = lineInstrumentFrom(word)) {
        const PitchRange range = rangeOf(*line);
        const auto heard = withinHearing(range);
        if (!heard)
            return Error{ErrorKind::OutOfRange,
                         "Of the range “" + word +
                             "” less than two notes can be heard as a line; name a range within " +
                             wordsFor({lowestMidi, highestMidi}) + ".",
                         ""};
        if (*heard != range) tellOfLess(word, *heard);
        return lineRangeOf(*line);
    }
    std::string names;
    for (const NamedInstrument& named : namedInstruments())
        names += (names.empty() ? "" : ", ") + std::string(named.word);
    return Error{ErrorKind::OutOfRange,
                 "The option --range takes the lowest and highest note, E2-E6, or one of " + names +
                     "; not “" + word + "”.",
                 ""};
}

} // namespace earwright::batch
