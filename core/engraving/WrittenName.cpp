#include "core/engraving/WrittenName.h"

#include "core/theory/ChordDegree.h"

namespace earwright {

PitchName writtenName(const Note& note, const Study& study) {
    if (note.pitch.spelling) return *note.pitch.spelling;
    const auto symbol = study.chordAt(note.onset);
    return symbol && symbol->chord ? degreeOf(note.pitch.midi, *symbol->chord).name
                                   : plainName(note.pitch.midi);
}

int writtenOctave(const PitchName& name, int midi) {
    return (midi - name.alter - PitchName{name.step, 0}.pitchClass()) / 12 - 1;
}

} // namespace earwright
