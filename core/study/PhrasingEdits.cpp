#include "core/study/PhrasingEdits.h"

#include <algorithm>
#include <vector>

namespace earwright {

namespace {

constexpr int widestTrill = 4;

bool isInRange(int midi) {
    return midi >= lowestMidi && midi <= highestMidi;
}

/// The study with one note's phrasing changed by `change(Note&)`.
template <class Change>
Study rephrased(const Study& study, NoteId id, Change change) {
    Study edited = study;
    for (Note& note : edited.notes)
        if (note.id == id) change(note);
    return edited;
}

/// What follows `now` in a round of settings; a setting that is not in it leads to the first.
template <class Setting>
Setting next(const std::vector<Setting>& round, const Setting& now) {
    const auto found = std::find(round.begin(), round.end(), now);
    return found == round.end() || found + 1 == round.end() ? round.front() : *(found + 1);
}

using SlideIn = std::optional<SlideFrom>;
using SlideOut = std::optional<SlideTo>;

} // namespace

Study setPhrasing(const Study& study, NoteId id, const Phrasing& phrasing) {
    return rephrased(study, id, [&](Note& note) {
        note.phrasing = phrasing;
        std::erase_if(note.phrasing.graceNotes, [](int midi) { return !isInRange(midi); });
        if (phrasing.trill && (*phrasing.trill < 1 || *phrasing.trill > widestTrill))
            note.phrasing.trill.reset();
    });
}

Study stepSlide(const Study& study, NoteId id) {
    using Slide = std::pair<SlideIn, SlideOut>;
    static const std::vector<Slide> round{
        {{}, {}}, {SlideFrom::Below, {}}, {SlideFrom::Above, {}}, {{}, SlideTo::Up}, {{}, SlideTo::Down}};
    return rephrased(study, id, [](Note& note) {
        const Slide slide = next(round, Slide{note.phrasing.slideIn, note.phrasing.slideOut});
        note.phrasing.slideIn = slide.first;
        note.phrasing.slideOut = slide.second;
    });
}

Study stepSlideIn(const Study& study, NoteId id) {
    return rephrased(study, id, [](Note& note) {
        note.phrasing.slideIn =
            next<SlideIn>({{}, SlideFrom::Below, SlideFrom::Above}, note.phrasing.slideIn);
    });
}

Study stepSlideOut(const Study& study, NoteId id) {
    return rephrased(study, id, [](Note& note) {
        note.phrasing.slideOut = next<SlideOut>({{}, SlideTo::Up, SlideTo::Down}, note.phrasing.slideOut);
    });
}

Study stepGrace(const Study& study, NoteId id) {
    return rephrased(study, id, [](Note& note) {
        std::vector<std::vector<int>> round{{}};
        for (const int midi : {note.pitch.midi - 1, note.pitch.midi + 1})
            if (isInRange(midi)) round.push_back({midi});
        note.phrasing.graceNotes = next(round, note.phrasing.graceNotes);
    });
}

Study stepTrill(const Study& study, NoteId id) {
    return rephrased(study, id, [](Note& note) {
        note.phrasing.trill = next<std::optional<int>>({std::nullopt, 1, 2}, note.phrasing.trill);
    });
}

Study toggleSlur(const Study& study, NoteId id) {
    return rephrased(study, id, [](Note& note) { note.phrasing.slurred = !note.phrasing.slurred; });
}

Study toggleGhost(const Study& study, NoteId id) {
    return rephrased(study, id, [](Note& note) {
        note.phrasing.ghosted = !note.phrasing.ghosted;
        if (note.phrasing.ghosted) note.phrasing.accented = false;
    });
}

Study toggleAccent(const Study& study, NoteId id) {
    return rephrased(study, id, [](Note& note) {
        note.phrasing.accented = !note.phrasing.accented;
        if (note.phrasing.accented) note.phrasing.ghosted = false;
    });
}

} // namespace earwright
