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

LineCharacter characterOf(const LineInstrument& line) {
    const auto* instrument = std::get_if<Instrument>(&line);
    if (!instrument) return LineCharacter::Unknown;
    switch (*instrument) {
    case Instrument::Guitar:
    case Instrument::Bass:
    case Instrument::AnyPlucked:
        return LineCharacter::Plucked;
    case Instrument::Trumpet:
    case Instrument::Trombone:
    case Instrument::Soprano:
    case Instrument::Alto:
    case Instrument::Tenor:
    case Instrument::Baritone:
    case Instrument::Clarinet:
    case Instrument::Flute:
    case Instrument::AnyWind:
        return LineCharacter::Blown;
    case Instrument::Violin:
    case Instrument::AnyBowed:
    case Instrument::Voice:
        return LineCharacter::Held;
    case Instrument::Piano:
        break;
    }
    return LineCharacter::Unknown;
}

LineCharacter characterOf(const Study& study) {
    return study.players.line ? characterOf(*study.players.line) : LineCharacter::Unknown;
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
