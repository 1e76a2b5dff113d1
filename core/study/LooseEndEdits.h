// Places to come back to: set by hand with a word of text, listed, stepped through and ticked off.
#pragma once

#include "core/study/Study.h"

#include <string>

namespace earwright {

/// A study with a loose end just set in it.
struct StudyWithLooseEnd {
    Study study;
    LooseEndId id;
};

/// Requires: the time is within the limits of a study (Limits.h).
StudyWithLooseEnd addLooseEnd(const Study& study, Seconds time, const std::string& text);
// An id that is not there changes nothing.
Study retextLooseEnd(const Study& study, LooseEndId id, const std::string& text);
/// Ticked off, or open again.
Study setLooseEndDone(const Study& study, LooseEndId id, bool done);
Study removeLooseEnd(const Study& study, LooseEndId id);

/// The first open one after a time, going round to the start of the recording after the last; null if none is
/// open. Points into the study.
const LooseEnd* nextOpenLooseEnd(const Study& study, Seconds after);

} // namespace earwright
