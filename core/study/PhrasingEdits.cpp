#include "core/study/PhrasingEdits.h"

#include <algorithm>
#include <utility>

namespace earwright {

namespace {

constexpr int widestTrill = 4;

bool isInRange(int midi) {
    return midi >= lowestMidi && midi <= highestMidi;
}

/// The study with the phrasing of some notes changed by `change(Note&)`.
template <class Change>
Study rephrased(const Study& study, const std::vector<NoteId>& notes, Change change) {
    Study edited = study;
    for (Note& note : edited.notes)
        if (std::find(notes.begin(), notes.end(), note.id) != notes.end()) change(note);
    return edited;
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

Phrasing withMark(Phrasing phrasing, bool Phrasing::*mark, bool wanted) {
    phrasing.*mark = wanted;
    if (wanted) {
        for (const auto& [one, other] : exclusive) {
            if (mark == one) phrasing.*other = false;
            if (mark == other) phrasing.*one = false;
        }
        if (mark == &Phrasing::fall || mark == &Phrasing::slidesToNext) phrasing.slideOut.reset();
        if (mark == &Phrasing::scoop) phrasing.slideIn.reset();
    }
    return withoutContradictions(std::move(phrasing));
}

KeySignature keyAt(const Study& study, const Note& note) {
    return study.page.keyAt(study.meters().barOf(note.onset));
}

/// How the left hand slurs into a note, by where the line comes from.
SlurBy slurInto(const Study& study, const Note& note) {
    const Note* before = nullptr;
    for (const Note& other : study.notes) {
        if (!(other.onset < note.onset)) break;
        before = &other;
    }
    return before && before->pitch.midi > note.pitch.midi ? SlurBy::PullOff : SlurBy::HammerOn;
}

// Settings ----------------------------------------------------------------------------------------------
// Each answers with the note's phrasing in every setting of a mark, the one without it first.

using Settings = std::vector<Phrasing>;

template <class Value>
Settings settingsOf(const Phrasing& base, Value Phrasing::*member, const std::vector<Value>& values) {
    Settings settings;
    for (const Value& value : values) {
        settings.push_back(base);
        settings.back().*member = value;
    }
    return settings;
}

Settings slideSettings(const Phrasing& base) {
    Settings settings(5, base);
    for (Phrasing& each : settings) {
        each.slideIn.reset();
        each.slideOut.reset();
    }
    settings[1].slideIn = SlideFrom::Below;
    settings[2].slideIn = SlideFrom::Above;
    settings[3].slideOut = SlideTo::Up;
    settings[4].slideOut = SlideTo::Down;
    for (const std::size_t in : {1u, 2u})
        settings[in].scoop = false;
    for (const std::size_t out : {3u, 4u})
        settings[out].fall = settings[out].slidesToNext = false;
    return settings;
}

Settings graceSettings(const Note& note) {
    std::vector<std::vector<int>> round{{}};
    for (const int midi : {note.pitch.midi - 1, note.pitch.midi + 1})
        if (isInRange(midi)) round.push_back({midi});
    return settingsOf(note.phrasing, &Phrasing::graceNotes, round);
}

Settings trillSettings(const Study& study, const Note& note) {
    const int inKey = keyAt(study, note).upperNeighbour(note.pitch.midi) - note.pitch.midi;
    const int first = std::min(inKey, 2);
    return settingsOf<std::optional<int>>(note.phrasing, &Phrasing::trill, {std::nullopt, first, 3 - first});
}

Settings bendSettings(const Phrasing& base) {
    using enum BendShape;
    return settingsOf<std::optional<Bend>>(
        base, &Phrasing::bend,
        {{}, Bend{4, Up}, Bend{2, Up}, Bend{1, Up}, Bend{4, UpAndDown}, Bend{4, PrebentDown}});
}

Settings hammerSettings(const Study& study, const Note& note) {
    const SlurBy first = slurInto(study, note);
    const SlurBy other = first == SlurBy::HammerOn ? SlurBy::PullOff : SlurBy::HammerOn;
    Settings settings =
        settingsOf<std::optional<SlurBy>>(note.phrasing, &Phrasing::slurBy, {std::nullopt, first, other});
    for (const std::size_t by : {1u, 2u}) {
        settings[by].slurred = true;
        settings[by].pickedInSlur = false;
    }
    return settings;
}

/// Null for kinds that are more than there or not.
bool Phrasing::*plainMark(PhrasingKind kind) {
    using enum PhrasingKind;
    switch (kind) {
    case Slur:
        return &Phrasing::slurred;
    case PickedInSlur:
        return &Phrasing::pickedInSlur;
    case Ghost:
        return &Phrasing::ghosted;
    case SlideOn:
        return &Phrasing::slidesToNext;
    case Scoop:
        return &Phrasing::scoop;
    case Fall:
        return &Phrasing::fall;
    case Vibrato:
        return &Phrasing::vibrato;
    case Accent:
        return &Phrasing::accented;
    case Staccato:
        return &Phrasing::staccato;
    case Tenuto:
        return &Phrasing::tenuto;
    case LetRing:
        return &Phrasing::letRing;
    default:
        return nullptr;
    }
}

Settings settingsFor(const Study& study, const Note& note, PhrasingKind kind) {
    const Phrasing& base = note.phrasing;
    if (const auto mark = plainMark(kind)) return {withMark(base, mark, false), withMark(base, mark, true)};
    switch (kind) {
    case PhrasingKind::Slide:
        return slideSettings(base);
    case PhrasingKind::Grace:
        return graceSettings(note);
    case PhrasingKind::Trill:
        return trillSettings(study, note);
    case PhrasingKind::Bend:
        return bendSettings(base);
    case PhrasingKind::Turn:
        return settingsOf<std::optional<Turn>>(base, &Phrasing::turn,
                                               {std::nullopt, Turn::FromAbove, Turn::FromBelow});
    case PhrasingKind::Mordent:
        return settingsOf<std::optional<Mordent>>(base, &Phrasing::mordent,
                                                  {std::nullopt, Mordent::Lower, Mordent::Upper});
    case PhrasingKind::HammerPull:
        return hammerSettings(study, note);
    default:
        return {base};
    }
}

/// The setting that follows the note's own; a value that is none of them leads to the one without the mark.
std::size_t nextSetting(const Study& study, const Note& note, PhrasingKind kind) {
    const Settings settings = settingsFor(study, note, kind);
    const auto found = std::find(settings.begin(), settings.end(), note.phrasing);
    if (found == settings.end()) return carries(note.phrasing, kind) ? 0 : 1;
    return static_cast<std::size_t>(found - settings.begin() + 1) % settings.size();
}

// Values ------------------------------------------------------------------------------------------------

void stepSlideValue(Phrasing& phrasing, int by) {
    if (phrasing.slideIn) phrasing.slideIn = by > 0 ? SlideFrom::Above : SlideFrom::Below;
    if (phrasing.slideOut) phrasing.slideOut = by > 0 ? SlideTo::Up : SlideTo::Down;
}

void stepBendValue(Bend& bend, int by) {
    // Half steps; under the first of them the quarter tone of a blues curl.
    static constexpr int depths[] = {1, 2, 4, 6, 8};
    const auto* at = std::lower_bound(std::begin(depths), std::end(depths), bend.quarterTones);
    if (by > 0 && *at == bend.quarterTones) ++at;
    if (by < 0 && at != std::begin(depths)) --at;
    if (at != std::end(depths)) bend.quarterTones = *at;
}

void stepNoteValue(Note& note, PhrasingKind kind, int by) {
    Phrasing& phrasing = note.phrasing;
    if (!carries(phrasing, kind)) return;
    switch (kind) {
    case PhrasingKind::Slide:
        return stepSlideValue(phrasing, by);
    case PhrasingKind::Bend:
        return stepBendValue(*phrasing.bend, by);
    case PhrasingKind::Trill:
        phrasing.trill = std::clamp(*phrasing.trill + by, 1, widestTrill);
        return;
    case PhrasingKind::Grace:
        phrasing.graceNotes.front() = std::clamp(phrasing.graceNotes.front() + by, lowestMidi, highestMidi);
        return;
    case PhrasingKind::Turn:
        phrasing.turn = by > 0 ? Turn::FromAbove : Turn::FromBelow;
        return;
    case PhrasingKind::Mordent:
        phrasing.mordent = by > 0 ? Mordent::Upper : Mordent::Lower;
        return;
    case PhrasingKind::HammerPull:
        phrasing.slurBy = by > 0 ? SlurBy::HammerOn : SlurBy::PullOff;
        return;
    default:
        return;
    }
}

} // namespace

Study setPhrasing(const Study& study, NoteId id, const Phrasing& phrasing) {
    return rephrased(study, {id}, [&](Note& note) { note.phrasing = withoutContradictions(phrasing); });
}

Study toggleMark(const Study& study, NoteId id, bool Phrasing::*mark) {
    return rephrased(study, {id}, [&](Note& note) {
        note.phrasing = withMark(note.phrasing, mark, !(note.phrasing.*mark));
    });
}

Study stepMark(const Study& study, const std::vector<NoteId>& notes, PhrasingKind kind) {
    const Note* lead = nullptr;
    for (const NoteId id : notes) {
        const Note* note = study.note(id);
        if (!note) continue;
        const bool isFirstWithout = lead && carries(lead->phrasing, kind) && !carries(note->phrasing, kind);
        if (!lead || isFirstWithout) lead = note;
    }
    if (!lead) return study;
    const std::size_t setting = nextSetting(study, *lead, kind);
    return rephrased(study, notes, [&](Note& note) {
        const Settings settings = settingsFor(study, note, kind);
        note.phrasing = settings[std::min(setting, settings.size() - 1)];
    });
}

Study stepValue(const Study& study, const std::vector<NoteId>& notes, PhrasingKind kind, int by) {
    return rephrased(study, notes, [&](Note& note) { stepNoteValue(note, kind, by); });
}

Study addGraceNote(const Study& study, const std::vector<NoteId>& notes) {
    return rephrased(study, notes, [&](Note& note) {
        std::vector<int>& pitches = note.phrasing.graceNotes;
        if (pitches.size() >= mostGraceNotes) return;
        const KeySignature key = keyAt(study, note);
        const int further = pitches.empty()                     ? note.pitch.midi - 1
                            : pitches.front() < note.pitch.midi ? key.lowerNeighbour(pitches.front())
                                                                : key.upperNeighbour(pitches.front());
        if (isInRange(further)) pitches.insert(pitches.begin(), further);
    });
}

} // namespace earwright
