// Marking phrases, choruses and sections as named spans of the recording.
#pragma once

#include "core/study/Study.h"

#include <cstdint>
#include <string>

namespace earwright {

// A span's ends may be given in either order. Ranges that are empty or beyond the limits of a study
// (Limits.h), and ids that are not there, change
// nothing.

/// A study with a span just marked in it.
struct StudyWithSpan {
    Study study;
    SpanId id;
};

/// Requires: the range is neither empty nor beyond the limits.
StudyWithSpan addSpan(const Study& study, SpanKind kind, const std::string& name,
                      const Range<Seconds>& range);
Study renameSpan(const Study& study, SpanId id, const std::string& name);
Study resizeSpan(const Study& study, SpanId id, const Range<Seconds>& range);
/// What checks found in a phrase stays in the ear record when its span goes.
Study removeSpan(const Study& study, SpanId id);

/// Choruses one after the other: `count` of `barCount` bars each, the first starting at `firstBar`.
///
/// They take the place of choruses they overlap, and are named "Chorus 2" and so on after those before them.
/// None is begun after the recording's end. Nothing changes without a tempo or where a number is below 1
/// (bars may be numbered below 1).
Study layOutChoruses(const Study& study, std::int64_t firstBar, std::int64_t barCount, int count);

} // namespace earwright
