// A place or stretch of the recording in words: by bars where they are marked, else by the clock.
#pragma once

#include "core/study/Study.h"

#include <QString>

#include <optional>

namespace earwright::ui {

/// "bar 9, beat 3", or "1:12.4" before bars are marked.
QString placeIn(const Study& study, Seconds time);
/// "bar 9, beat 1 to bar 11, beat 1".
QString stretchIn(const Study& study, const Range<Seconds>& stretch);
/// What a screen reader says of a view of the whole recording: the ear's place, to the beat, then what is
/// chosen and what is looped, where anything is.
QString earIn(const Study& study, Seconds ear, const std::optional<Range<Seconds>>& chosen);

} // namespace earwright::ui
