#include "core/study/RhythmProposal.h"

#include "core/study/DivisionEdits.h"
#include "core/study/NoteEdits.h"

namespace earwright {

Study writeProposal(const Study& study, const RhythmProposal& proposal) {
    if (proposal.notes.empty()) return study;
    Study edited = study;
    const Range<Beats> span{proposal.notes.front().onset, proposal.notes.back().onset};
    std::erase_if(edited.notes,
                  [&](const Note& note) { return note.onset >= span.begin && note.onset <= span.end; });
    for (const auto& [beat, division] : proposal.divisions) {
        // A beat with nothing off it can stay divided as it was, for what is written next.
        if (division != BeatDivision::One) edited = setDivision(edited, beat, division);
    }
    for (const ProposedNote& note : proposal.notes)
        edited = addNote(edited, {{note.midi, {}}, note.onset, note.length}).study;
    return edited;
}

} // namespace earwright
