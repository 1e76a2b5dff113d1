#include "core/music/TempoFigure.h"

#include <cmath>

namespace earwright {

namespace {

/// How far a stated tempo may lie off its tenth: half of the step between two MIDI tempos (60,000,000 / tempo
/// microseconds a beat), and what the decimals of MusicXML cut off.
double slack(double beatsPerMinute) {
    return beatsPerMinute * beatsPerMinute / 120e6 + 1e-4;
}

long long tenthsOf(double beatsPerMinute) {
    return std::llround(beatsPerMinute * 10);
}

} // namespace

std::string tempoFigure(double beatsPerMinute) {
    const long long tenths = tenthsOf(beatsPerMinute);
    if (isTempoOfFigure(beatsPerMinute) && tenths % 10 != 0)
        return std::to_string(tenths / 10) + "." + std::to_string(tenths % 10);
    return std::to_string(std::llround(beatsPerMinute));
}

bool isTempoOfFigure(double beatsPerMinute) {
    const double stated = static_cast<double>(tenthsOf(beatsPerMinute)) / 10;
    return std::abs(stated - beatsPerMinute) <= slack(beatsPerMinute);
}

} // namespace earwright
