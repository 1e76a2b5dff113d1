// What the recording says to written trills: over which interval they go, and which of their notes comes
// first.
#pragma once

#include "core/check/PhraseCheck.h"
#include "core/check/PhrasingMeasure.h"
#include "core/music/Note.h"

#include <vector>

namespace earwright {

/// Whether a note has a written trill that may go elsewhere: one that is contradicted has another mistake,
/// unless what is suggested for it may be the trill's other note.
bool mayTrillElsewhere(const Note& note, const CheckedNote& checked);

/// Whether a note with no sign that moves its pitch is worth measuring as a trill: while it lasts, its own
/// pitch and sounds a little higher come round twice or more.
bool mayBeATrill(const Note& note, const CheckedNote& checked, const std::vector<UnwrittenSound>& sounds);

struct TrillsHeard {
    /// One for each note. Where a trill begins with its other note, that is no other pitch of the note.
    std::vector<CheckedNote> notes;
    /// Those that go to another note than the one written, or are not written.
    std::vector<OtherTrill> trills;
    /// Sounds that belong to none of them.
    std::vector<UnwrittenSound> others;
};

/// Tells of trills with another interval, those as well that would be told as a note left out, or as another
/// pitch. Nothing is told where the trill is measured as it is written, nor where the note is plainly heard
/// without one: then a note is left out indeed. `playing`: one measure for each note; that of notes that
/// can trill in neither way is not asked.
TrillsHeard trillsHeard(const std::vector<UnwrittenSound>& sounds, const std::vector<Note>& notes,
                        std::vector<CheckedNote> checked, const std::vector<NotePlaying>& playing);

} // namespace earwright
