// Where the ear goes when it is moved by beats, bars and phrases.
#pragma once

#include "core/study/Study.h"

#include <optional>

namespace earwright::ui {

// All: kept within the recording. Before bars are marked a beat counts as one second, a bar as four.

/// The next whole beat on (steps > 0), or back.
Seconds stepBeats(const Study& study, Seconds from, int steps, Seconds duration);
/// The next bar line on, or back.
Seconds stepBars(const Study& study, Seconds from, int steps, Seconds duration);
/// The phrase that begins next after a time, or last before it. Points into the study; null where there is
/// none.
const Span* nextPhrase(const Study& study, Seconds from);
const Span* previousPhrase(const Study& study, Seconds from);
/// The loose end nearest to a time, done ones too, within a second. Points into the study.
const LooseEnd* looseEndNear(const Study& study, Seconds time);
/// The innermost span at a time: a phrase before a chorus before a section. Points into the study.
const Span* innermostSpan(const Study& study, Seconds time);

} // namespace earwright::ui
