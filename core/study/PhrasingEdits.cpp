#include "core/study/PhrasingEdits.h"

#include <algorithm>
#include <utility>
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

/// Pairs of marks a note never has both of.
constexpr std::pair<bool Phrasing::*, bool Phrasing::*> exclusive[] = {
    {&Phrasing::ghosted, &Phrasing::accented},
    {&Phrasing::slurred, &Phrasing::pickedInSlur},
    {&Phrasing::staccato, &Phrasing::letRing},
    {&Phrasing::fall, &Phrasing::slidesToNext},
};

Phrasing withoutContradictions(Phrasing phrasing) {
    std::erase_if(phrasing.graceNotes, [](int midi) { return !isInRange(midi); });
    if (phrasing.trill && (*phrasing.trill < 1 || *phrasing.trill > widestTrill)) phrasing.trill.reset();
    if (phrasing.bend && (phrasing.bend->quarterTones < 1 || phrasing.bend->quarterTones > widestBend))
        phrasing.bend.reset();
    if (phrasing.slurred) phrasing.pickedInSlur = false;
    if (!phrasing.slurred) phrasing.slurBy.reset();
    return phrasing;
}

using SlideIn = std::optional<SlideFrom>;
using SlideOut = std::optional<SlideTo>;

} // namespace

Study setPhrasing(const Study& study, NoteId id, const Phrasing& phrasing) {
    return rephrased(study, id, [&](Note& note) { note.phrasing = withoutContradictions(phrasing); });
}

Study toggleMark(const Study& study, NoteId id, bool Phrasing::*mark) {
    return rephrased(study, id, [&](Note& note) {
        Phrasing& phrasing = note.phrasing;
        phrasing.*mark = !(phrasing.*mark);
        if (!(phrasing.*mark)) {
            phrasing = withoutContradictions(phrasing);
            return;
        }
        for (const auto& [one, other] : exclusive) {
            if (mark == one) phrasing.*other = false;
            if (mark == other) phrasing.*one = false;
        }
        if (mark == &Phrasing::fall || mark == &Phrasing::slidesToNext) phrasing.slideOut.reset();
        if (mark == &Phrasing::scoop) phrasing.slideIn.reset();
        phrasing = withoutContradictions(phrasing);
    });
}

Study stepBend(const Study& study, NoteId id) {
    using enum BendShape;
    static const std::vector<std::optional<Bend>> round{
        {}, Bend{4, Up}, Bend{2, Up}, Bend{1, Up}, Bend{4, UpAndDown}, Bend{4, PrebentDown}};
    return rephrased(study, id, [](Note& note) { note.phrasing.bend = next(round, note.phrasing.bend); });
}

Study stepTurn(const Study& study, NoteId id) {
    return rephrased(study, id, [](Note& note) {
        note.phrasing.turn =
            next<std::optional<Turn>>({std::nullopt, Turn::FromAbove, Turn::FromBelow}, note.phrasing.turn);
    });
}

Study stepMordent(const Study& study, NoteId id) {
    return rephrased(study, id, [](Note& note) {
        note.phrasing.mordent = next<std::optional<Mordent>>({std::nullopt, Mordent::Lower, Mordent::Upper},
                                                             note.phrasing.mordent);
    });
}

Study stepSlurBy(const Study& study, NoteId id) {
    return rephrased(study, id, [](Note& note) {
        Phrasing& phrasing = note.phrasing;
        phrasing.slurBy =
            next<std::optional<SlurBy>>({std::nullopt, SlurBy::HammerOn, SlurBy::PullOff}, phrasing.slurBy);
        if (!phrasing.slurBy) return;
        phrasing.slurred = true;
        phrasing.pickedInSlur = false;
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
    return toggleMark(study, id, &Phrasing::slurred);
}

Study toggleGhost(const Study& study, NoteId id) {
    return toggleMark(study, id, &Phrasing::ghosted);
}

Study toggleAccent(const Study& study, NoteId id) {
    return toggleMark(study, id, &Phrasing::accented);
}

} // namespace earwright
