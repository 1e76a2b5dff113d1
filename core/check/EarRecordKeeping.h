// How checks and opened help turn into the study's record of what was found by ear.
#pragma once

#include "core/check/PhraseCheck.h"
#include "core/study/EarRecord.h"
#include "core/time/Range.h"
#include "core/time/Seconds.h"

namespace earwright {

/// The record after a check of one phrase.
///
/// The phrase's first check opens its entry; what was edited before does not count. Contradicted notes and
/// unwritten sounds become places; an unclear note is none, since nobody can tell whether it was wrong. A
/// place is the same one again if it lies within 60 ms; each note or sound goes with one place only, nearest
/// first.
///
/// A place is settled once a supported note stands there, or, where a note was contradicted, once neither a
/// note nor a sound without one is left there: an extra note was taken out. It is open again if a later check
/// contradicts it; help opened for it stays opened. `checked` is the stretch of the recording that the check
/// answers for; places outside it stay as they are.
///
/// A note that is supported is found, and stays so from `today` on: unaided, or with the help that was opened
/// where it stands or where it was found wanting before it was moved. A helped note that was deleted leaves
/// its help to the nearest note written since, within the 240 ms that the help speaks of: writing anew is
/// moving, too. One that is contradicted later is not found any more until it is put right. It is the same
/// note again by its id, or where it was written anew, by its place.
EarRecord afterCheck(const EarRecord& record, const PhraseCheck& check, const Range<Seconds>& checked,
                     Day today);

/// The record after a step of the hint ladder was opened for a place of a phrase. Help counts for a place
/// that is not settled, and from the highest step that was opened. A place the record does not have yet (an
/// unclear one) is added, so that it cannot count as found by ear later; `note` is the written note there, if
/// any, to which the help belongs wherever it is moved, unless the place is another note's.
EarRecord withHelp(const EarRecord& record, SpanId phrase, Seconds time, HelpStep step,
                   std::optional<NoteId> note = std::nullopt);

} // namespace earwright
