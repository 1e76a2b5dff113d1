#include "core/check/StudyListening.h"

#include "core/music/HeardRange.h"

namespace earwright {

LineRange lineRangeOf(const LineInstrument& line) {
    const auto heard = withinHearing(rangeOf(line));
    return heard ? LineRange{heard->lowestMidi, heard->highestMidi} : LineRange{};
}

LineRange lineRangeOf(const Study& study) {
    return study.players.line ? lineRangeOf(*study.players.line) : LineRange();
}

ListeningWish wishOf(const Study& study, const HeardPart& part) {
    return {part, lineRangeOf(study)};
}

View bassViewOf(const Study& study) {
    switch (study.players.bass) {
    case StereoPlace::Left:
        return View::Left;
    case StereoPlace::Right:
        return View::Right;
    case StereoPlace::Centre:
        return View::Centre;
    case StereoPlace::Unknown:
        break;
    }
    return View::Both;
}

} // namespace earwright
