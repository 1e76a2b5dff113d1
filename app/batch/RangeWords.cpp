#include "app/batch/RangeWords.h"

#include "core/check/StudyListening.h"

namespace earwright::batch {

Result<LineRange> rangeNamed(const std::string& word) {
    if (const auto line = lineInstrumentFrom(word)) return lineRangeOf(*line);
    std::string names;
    for (const NamedInstrument& named : namedInstruments())
        names += (names.empty() ? "" : ", ") + std::string(named.word);
    return Error{ErrorKind::OutOfRange,
                 "The option --range takes the lowest and highest note, E2-E6, or one of " + names +
                     "; not “" + word + "”.",
                 ""};
}

} // namespace earwright::batch
