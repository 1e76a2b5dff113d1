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
    CheckedPlace place{PlaceKind::OtherTrill, trill.range, trill.note, trill.midi + trill.written,
                       trill.midi + trill.heard};
    if (trill.verdict == Verdict::Unclear) place.doubt = Doubt::Another;
    place.trillHeard = trill.heard;
    return place;
}

int sign(int number) {
    return (number > 0) - (number < 0);
}

} // namespace

std::vector<CheckedPlace> placesOf(const PhraseCheck& check) {
    std::vector<CheckedPlace> places;
    for (const CheckedNote& note : check.notes)
        if (note.verdict != Verdict::Supported && !check.otherTrill(note.note)) {
            places.push_back({kindOf(note), note.range, note.note, note.midi, note.suggestedMidi,
                              note.beginsAt, note.doubt, note.behind});
            places.back().mayBeBand = places.back().kind == PlaceKind::WrongPitch && note.suggestedMidi &&
                                      note.suggestedScore <= surelyTheLine;
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
    if (step >= HelpStep::WhichWay) {
        hint.kind = place.kind;
        // That it may be another pitch says more than why it cannot be told.
        hint.doubt = place.doubt && place.heardMidi ? Doubt::Another : place.doubt;
        hint.direction = distance ? sign(*distance) : 0;
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
    }
    return hint;
}

} // namespace earwright
