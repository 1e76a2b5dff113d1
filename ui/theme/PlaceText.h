// How places in the music and in the recording are worded, the same everywhere on the desk.
#pragma once

#include "core/music/MeterMap.h"
#include "core/time/Beats.h"
#include "core/time/Seconds.h"

#include <QString>

#include <cstdint>

namespace earwright::ui {

/// "bar 30, beat 2½": to the nearest quarter, third or sixth of a counted beat (in 6/8 a dotted quarter). The
/// bar as barText() words it.
QString placeText(const Beats& place, const MeterMap& meters);
/// The same at the start of a sentence: "Bar 30, beat 2½".
QString placeSentence(const Beats& place, const MeterMap& meters);
/// "bar 30"; the bar before bar 1 is the pickup, and bars before that are counted back from bar 1, as
/// musicians say it: nobody counts bar 0 or bar −1.
QString barText(std::int64_t bar);
/// "bars 9–12", "bar 9" where first and last are the same, "pickup to bar 4".
QString barsText(std::int64_t first, std::int64_t last);
/// "Chords of bar 9", "Chords of the pickup".
QString chordsTitle(std::int64_t bar);
/// "1:12.4": minutes, seconds and tenths; hours only where there are some.
QString clockText(Seconds time);
/// "4:31": without tenths, for lengths.
QString lengthText(Seconds length);

} // namespace earwright::ui
