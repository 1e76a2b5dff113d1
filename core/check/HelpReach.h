// How far help goes beyond what is written: to sounds beside a written note, not to the rest of the solo.
#pragma once

#include "core/check/PhraseCheck.h"
#include "core/study/Study.h"

namespace earwright {

/// A check with the unwritten sounds help may be opened for, and how many are left to the ear.
struct ReachedCheck {
    PhraseCheck check;
    int furtherOn = 0;
};

/// Keeps the unwritten sounds that begin within a beat of a written note: from a beat before its onset to a
/// beat after its end. A note forgotten in a line, before it or after it is found there; one written note
/// does not have the rest of the phrase spelled out, since the ear goes on from what it knows. Requires:
/// study.beatMap.hasTempo().
ReachedCheck withinReach(const PhraseCheck& check, const Study& study);

} // namespace earwright
