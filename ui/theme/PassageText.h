// What is said at the head of a bar, in words: its meter, key, swing, tempo, and where repeats begin and end.
#pragma once

#include "core/study/Study.h"

#include <QString>

#include <cstdint>

namespace earwright::ui {

/// "B♭ major", "F♯ minor".
QString keyText(const KeySignature& key);
/// "swing 2:1", of sixteenths "swing of sixteenths 2:1", "even".
QString swingText(const Swing& swing);
/// What begins at a bar: "3/4 · B♭ major · swing 2:1 · Slowly, ♩ = 72". Empty where nothing does. The meter
/// of bar 1 is told where it is not 4/4 or where others follow; of bar 0, how long the pickup was made.
QString signsAt(const Study& study, std::int64_t bar);

} // namespace earwright::ui
