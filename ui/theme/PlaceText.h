// How places in the music and in the recording are worded, the same everywhere on the desk.
#pragma once

#include "core/music/Meter.h"
#include "core/time/Beats.h"
#include "core/time/Seconds.h"

#include <QString>

namespace earwright::ui {

/// "bar 30, beat 2½": to the nearest third or quarter of a beat, whichever is nearer.
QString placeText(const Beats& place, const Meter& meter);
/// The same at the start of a sentence: "Bar 30, beat 2½".
QString placeSentence(const Beats& place, const Meter& meter);
/// "1:12.4": minutes, seconds and tenths; hours only where there are some.
QString clockText(Seconds time);
/// "4:31": without tenths, for lengths.
QString lengthText(Seconds length);

} // namespace earwright::ui
