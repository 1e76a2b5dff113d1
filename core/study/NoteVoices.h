// Which notes belong together where several sound at once: those of one voice.
#pragma once

#include "core/study/Study.h"

#include <algorithm>
#include <cstddef>

namespace earwright {

/// Notes that begin together are voices, counted from the lowest. The voice that one leads to, or comes from,
/// among `count` others: the same one, or else the highest. Requires: count > 0. Threads: any.
inline std::size_t otherVoice(std::size_t voice, std::size_t count) {
    return std::min(voice, count - 1);
}

/// Which of the notes that begin with it a note of the study is.
std::size_t voiceOf(const Study& study, const Note& note);

/// The note of its voice among those that begin next: where a slide leads. Null for the last; points into
/// study.
const Note* noteAfter(const Study& study, const Note& note);
/// The note of its voice among those that began last before it: where a slur comes from. Null for the first;
/// points into study.
const Note* noteBefore(const Study& study, const Note& note);

} // namespace earwright
