#include "core/check/StudyListening.h"

namespace earwright {

LineRange lineRangeOf(const Study& study) {
    if (!study.players.line) return {};
    const PitchRange range = rangeOf(*study.players.line);
    return {range.lowestMidi, range.highestMidi};
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
