#include "core/check/HintLadder.h"

#include <algorithm>

namespace earwright {

namespace {

/// Of 98 wrong pitches in three renderings of a solo with its band all suggestions were right, 9 of them at
/// most so sure; of 184 notes written into its rests 26 had one, which was the comping's, 24 of them at most
/// so sure.
constexpr double surelyTheLine = 0.9;

PlaceKind kindOf(const CheckedNote& note) {
    if (note.verdict == Verdict::Unclear) return PlaceKind::Unclear;
    return note.nothingBegins ? PlaceKind::NothingThere : PlaceKind::WrongPitch;
}

/// A note that is unclear and whose trill goes elsewhere is one place.
CheckedPlace placeOf(const OtherTrill& trill) {
    const PlaceKind kind = trill.written == 0 ? PlaceKind::MissingTrill : PlaceKind::OtherTrill;
    CheckedPlace place{kind, trill.range, trill.note, trill.midi + trill.written, trill.midi + trill.heard};
    if (trill.verdict == Verdict::Unclear) place.doubt = Doubt::Another;
    place.trillHeard = trill.heard;
    return place;
}

bool isOfRun(const CheckedNote& note, const std::optional<OffTogether>& run) {
    return run && note.together == run;
}

/// The place of the run that a note is the first one of; nothing where no other note of it is left, or none
/// that is not supported.
std::optional<CheckedPlace> placeOfRun(const CheckedNote& first, const PhraseCheck& check) {
    CheckedPlace place;
    bool isAnyOff = false;
    for (const CheckedNote& note : check.notes) {
        if (!isOfRun(note, first.together)) continue;
        place.notes.push_back(note.note);
        isAnyOff = isAnyOff || note.verdict != Verdict::Supported;
    }
    if (place.notes.size() < 2 || !isAnyOff) return std::nullopt;
    const OffTogether& together = *first.together;
    place.kind = together.isMoved() ? PlaceKind::MovedRun : PlaceKind::OctaveRun;
    place.range = first.range;
    place.note = first.note;
    place.writtenMidi = first.midi;
    place.together = together;
    if (together.isMoved())
        place.beginsAt = first.beginsAt.value_or(first.range.begin + together.later);
    else
        place.heardMidi = first.midi + together.semitones;
    return place;
}

CheckedPlace placeOf(const CheckedNote& note) {
    CheckedPlace place{kindOf(note),       note.range,    note.note,  note.midi,
                       note.suggestedMidi, note.beginsAt, note.doubt, note.behind};
    place.mayBeBand =
        place.kind == PlaceKind::WrongPitch && note.suggestedMidi && note.suggestedScore <= surelyTheLine;
    return place;
}

int sign(int number) {
    return (number > 0) - (number < 0);
}

} // namespace

std::vector<CheckedPlace> placesOf(const PhraseCheck& check) {
    std::vector<CheckedPlace> places;
    std::vector<OffTogether> runs;
    for (const CheckedNote& note : check.notes) {
        if (note.together && std::ranges::find(runs, *note.together) != runs.end()) continue;
        if (const auto run = note.together ? placeOfRun(note, check) : std::nullopt) {
            runs.push_back(*note.together);
            places.push_back(*run);
        } else if (note.verdict != Verdict::Supported && !check.otherTrill(note.note)) {
            places.push_back(placeOf(note));
        }
    }
    for (const UnwrittenSound& sound : check.unwritten)
        places.push_back({PlaceKind::Unwritten, sound.range, std::nullopt, std::nullopt, sound.midi, {}});
    for (const OtherTrill& trill : check.otherTrills)
        places.push_back(placeOf(trill));
    std::stable_sort(places.begin(), places.end(), [](const CheckedPlace& a, const CheckedPlace& b) {
        return a.range.begin < b.range.begin;
    });
    return places;
}

bool CheckedPlace::isAbout(NoteId id) const {
    return note == id || std::ranges::find(notes, id) != notes.end();
}

Hint hintAt(const CheckedPlace& place, HelpStep step, std::optional<int> before) {
    Hint hint;
    hint.step = step;
    hint.range = place.range;
    const bool isOpen =
        place.kind == PlaceKind::Unclear || (place.kind == PlaceKind::OtherTrill && place.doubt);
    hint.isUnsure = isOpen && step >= HelpStep::SomethingOff;
    const std::optional<int> from = place.kind == PlaceKind::Unwritten ? before : place.writtenMidi;
    const std::optional<int> distance =
        from && place.heardMidi ? std::optional<int>(*place.heardMidi - *from) : std::nullopt;
    const Seconds judgedAt = place.range.begin + place.behind;
    if (step >= HelpStep::SomethingOff) hint.notes = static_cast<int>(place.notes.size());
    if (step >= HelpStep::WhichWay) {
        hint.kind = place.kind;
        // That it may be another pitch says more than why it cannot be told.
        hint.doubt = place.doubt && place.heardMidi ? Doubt::Another : place.doubt;
        const bool isTold = place.kind != PlaceKind::OctaveRun || step >= HelpStep::HowFar;
        hint.direction = distance && isTold ? sign(*distance) : 0;
        hint.mayBeBand = place.mayBeBand;
    }
    if (step >= HelpStep::HowFar) {
        hint.semitones = distance;
        hint.trillHeard = place.trillHeard;
        if (place.beginsAt) hint.moved = *place.beginsAt < judgedAt ? -1 : 1;
    }
    if (step >= HelpStep::ShowIt) {
        hint.heardMidi = place.heardMidi;
        hint.beginsAt = place.beginsAt;
        if (place.beginsAt) hint.apart = *place.beginsAt - judgedAt;
        if (place.kind == PlaceKind::MovedRun) {
            hint.apart = place.together->later;
            hint.apartInBeats = place.together->step;
        }
    }
    return hint;
}

} // namespace earwright
