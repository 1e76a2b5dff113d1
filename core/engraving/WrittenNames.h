// How the notes of a study are called on the page.
#pragma once

#include "core/engraving/PageView.h"
#include "core/study/Study.h"
#include "core/theory/LineSpelling.h"

#include <cstddef>
#include <map>
#include <vector>

namespace earwright {

/// The names of all notes for one reader: as spelledLine() has it, in the key and over the chords as they are
/// read, so that a transposed page is spelled as if it had been written so. A name the user chose goes along
/// by the same interval, without a double accidental it had not before. Grace notes belong to the line and
/// lead to their notes.
///
/// Threads: a value.
class WrittenNames {
public:
    WrittenNames() = default;
    explicit WrittenNames(const Study& study, Reading reading = Reading::Concert);

    /// Requires, both: a note of that study, found by its id; its pitch is the study's. Other notes have
    /// their plain name.
    ReadPitch of(const Note& note) const;
    ReadPitch ofGrace(const Note& note, std::size_t index) const;
    /// What it were called had the user not chosen a name.
    PitchName byItself(const Note& note) const;

private:
    struct Named {
        LineName main;
        std::vector<PitchName> graces;
    };
    std::map<NoteId, Named> names;
    Reading reading = Reading::Concert;
};

} // namespace earwright
