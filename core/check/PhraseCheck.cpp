#include "core/check/PhraseCheck.h"

#include <algorithm>

namespace earwright {

const CheckedNote* PhraseCheck::note(NoteId id) const {
    const auto found =
        std::find_if(notes.begin(), notes.end(), [&](const CheckedNote& n) { return n.note == id; });
    return found == notes.end() ? nullptr : &*found;
}

const OtherTrill* PhraseCheck::otherTrill(NoteId id) const {
    const auto found = std::find_if(otherTrills.begin(), otherTrills.end(),
                                    [&](const OtherTrill& trill) { return trill.note == id; });
    return found == otherTrills.end() ? nullptr : &*found;
}

int PhraseCheck::count(Verdict verdict) const {
    return static_cast<int>(std::count_if(notes.begin(), notes.end(),
                                          [&](const CheckedNote& n) { return n.verdict == verdict; }));
}

std::optional<HeardPart> PhraseCheck::listened() const {
    return notes.empty() ? std::nullopt : std::optional(notes.front().listened);
}

} // namespace earwright
