#include "tests/core/exchange/ChanceStudy.h"

#include "core/study/PageOrder.h"

#include <algorithm>
#include <array>

namespace earwright {

Study ChanceStudy::make() {
    study = {};
    study.title = oneIn(3) ? "" : "Line № " + std::to_string(upTo(1000)) + " <for> “you” & ♭";
    study.meter = meter();
    bars = 2 + upTo(6);
    addMeters();
    end = study.meters().barStart(bars + 1);
    addChords();
    addNotes();
    addMarks();
    addHairpins();
    addRepeats();
    addPickup();
    // A beat mark for every bar, at tempos of whole quarters a minute. Marks stand on whole beats.
    std::vector<BeatMark> marks{{Beats(0), Seconds(0)}};
    for (std::int64_t bar = 2; bar <= bars + 1; ++bar) {
        const Beats at(study.meters().barStart(bar).floor());
        if (at <= marks.back().position) continue;
        const double quarters = (at - marks.back().position).toDouble() * 4 / study.meter.beatUnit;
        marks.push_back({at, marks.back().time + Seconds(60 * quarters / (60 + 10 * upTo(20)))});
    }
    study.beatMap = BeatMap(std::move(marks));
    study.page = settled(std::move(study.page));
    return study;
}

Meter ChanceStudy::meter() {
    static constexpr std::array<Meter, 9> meters{
        {{4, 4}, {3, 4}, {2, 4}, {5, 4}, {7, 4}, {6, 8}, {12, 8}, {3, 8}, {9, 8}}};
    return meters[static_cast<std::size_t>(upTo(9))];
}

KeySignature ChanceStudy::key() {
    return {upTo(12) - 6, oneIn(2) ? Mode::Minor : Mode::Major};
}

void ChanceStudy::addMeters() {
    Meter standing = study.meter;
    for (std::int64_t bar = 2; bar <= bars; ++bar) {
        const Meter next = meter();
        if (!oneIn(4) || next == standing) continue;
        study.page.meters.push_back({bar, next});
        standing = next;
    }
    KeySignature key;
    for (std::int64_t bar = 1; bar <= bars; ++bar) {
        const KeySignature next = this->key();
        if (!oneIn(3) || next == key) continue;
        study.page.keys.push_back({bar, next});
        key = next;
    }
}

void ChanceStudy::addNotes() {
    static constexpr std::array<int, 8> parts{1, 1, 2, 2, 3, 4, 5, 6};
    Beats at =
        oneIn(3)
            ? Beats(-1 - upTo(static_cast<int>(std::min(study.meter.barLength().floor(), std::int64_t{3}))))
            : Beats(0);
    while (at < end) {
        const Beats beatEnd = Beats(at.floor() + 1);
        const int division = parts[static_cast<std::size_t>(upTo(8))];
        for (int part = 0; part < division && at < std::min(beatEnd, end); ++part) {
            const int length = 1 + upTo(3);
            Beats until = std::min({beatEnd, end, at + Beats(length, division)});
            // Some go on for whole beats.
            if (until == beatEnd && oneIn(4)) until = std::min(end, beatEnd + Beats(upTo(7)));
            const bool isStart = study.notes.empty();
            if (isStart || !oneIn(5)) addTogether(at, until);
            at = until;
        }
    }
}

void ChanceStudy::addTogether(const Beats& begin, const Beats& until) {
    const bool isFirst = study.notes.empty();
    int midi = 45 + upTo(40);
    const int count = oneIn(8) ? 2 : 1;
    for (int i = 0; i < count; ++i, midi += 3 + upTo(9)) {
        Note note{NoteId{study.nextId++}, begin, until - begin, Pitch{midi, {}}, 0.6, phrasing(isFirst)};
        if (oneIn(4)) note.loudness = upTo(101) / 100.0;
        if (oneIn(5)) {
            // Another name for the same key of the piano.
            const PitchName name = plainName(midi);
            const Step below = static_cast<Step>((static_cast<int>(name.step) + 6) % 7);
            const int alter = (name.pitchClass() - PitchName{below, 0}.pitchClass() + 12) % 12;
            if (alter <= 2) note.pitch.spelling = PitchName{below, alter};
        }
        // A trill has to have a letter above.
        const bool hasLetter = !note.pitch.spelling || note.pitch.spelling->alter < 1;
        if (!hasLetter && note.phrasing.trill) note.phrasing.trill = 1;
        study.notes.push_back(note);
    }
}

Phrasing ChanceStudy::phrasing(bool isFirst) {
    Phrasing made;
    if (oneIn(12)) made.slideIn = oneIn(2) ? SlideFrom::Below : SlideFrom::Above;
    if (oneIn(12)) made.slideOut = oneIn(2) ? SlideTo::Up : SlideTo::Down;
    for (int graces = !oneIn(6) ? 0 : 1 + upTo(3); graces > 0; --graces)
        made.graceNotes.push_back(45 + upTo(40));
    if (oneIn(10)) made.trill = 1 + upTo(3);
    if (oneIn(12)) made.turn = oneIn(2) ? Turn::FromAbove : Turn::FromBelow;
    if (oneIn(12)) made.mordent = oneIn(2) ? Mordent::Lower : Mordent::Upper;
    if (!isFirst && oneIn(3)) {
        made.slurred = true;
        if (oneIn(2)) made.slurBy = oneIn(2) ? SlurBy::HammerOn : SlurBy::PullOff;
    } else if (!isFirst && oneIn(8)) {
        made.pickedInSlur = true;
    }
    if (oneIn(8)) made.bend = Bend{1 + upTo(widestBend), static_cast<BendShape>(upTo(4))};
    made.vibrato = oneIn(8);
    made.fall = oneIn(12);
    made.scoop = oneIn(12);
    made.ghosted = oneIn(8);
    made.accented = !made.ghosted && oneIn(8);
    made.staccato = oneIn(8);
    made.tenuto = oneIn(8);
    made.letRing = oneIn(12);
    made.slidesToNext = oneIn(8);
    return made;
}

void ChanceStudy::addChords() {
    static constexpr std::array<const char*, 14> symbols{"Bb7",   "Eb7",    "Fm7b5",      "C7alt",    "N.C.",
                                                         "Dm7/G", "hm?",    "Gmaj9",      "A\u00b07", "F#m",
                                                         "B7b9",  "Absus4", "C(Italian)", "E7(omit3)"};
    for (std::int64_t bar = 1; bar <= bars; ++bar) {
        const std::int64_t beats = std::min(study.meter.barLength(), study.meters().barLength(bar)).floor();
        for (std::int64_t beat = 0; beat < beats; ++beat)
            if (beat == 0 ? !oneIn(4) : oneIn(6))
                study.chart.overrides[bar].chords.push_back(
                    {Beats(beat), parseChordSymbol(symbols[static_cast<std::size_t>(upTo(14))])});
    }
}

Beats ChanceStudy::place() {
    return Beats(upTo(static_cast<int>((end * 12).floor())), 12);
}

void ChanceStudy::addMarks() {
    Swing standing;
    std::vector<Beats> places{place(), place(), place()};
    std::sort(places.begin(), places.end());
    places.erase(std::unique(places.begin(), places.end()), places.end());
    for (const Beats& at : places) {
        const Swing next{1 + upTo(301) / 100.0, oneIn(3) ? 16 : 8};
        const Swing told = next.isEven() ? Swing{} : next;
        if (!(told == standing)) study.page.swings.push_back({at, told});
        standing = told;
    }
    study.page.tempos.push_back({Beats(0), oneIn(2) ? "Medium “blues” " : "", 40.0 + upTo(400) / 2.0});
    study.page.tempos.push_back({place(), "slower", {}});
    for (int i = upTo(4); i > 0; --i)
        study.page.dynamics.push_back({place(), static_cast<Dynamic>(upTo(9))});
    for (int i = upTo(4); i > 0; --i)
        study.page.texts.push_back({place(), oneIn(2) ? "laid back" : "<b>& so on</b>\u266d", oneIn(2)});
}

void ChanceStudy::addHairpins() {
    std::vector<Beats> places{place(), place(), place(), end};
    std::sort(places.begin(), places.end());
    for (std::size_t i = 0; i < places.size(); i += 2)
        if (places[i] < places[i + 1])
            study.page.hairpins.push_back(
                {{places[i], places[i + 1]}, oneIn(2) ? HairpinKind::Louder : HairpinKind::Softer});
}

void ChanceStudy::addPickup() {
    const Beats length(1 + upTo(12), 1 << upTo(4));
    if (oneIn(3) && isUsablePickup(length, study.meter)) study.page.pickup = length;
}

void ChanceStudy::addRepeats() {
    for (std::int64_t bar = 1; bar <= bars; ++bar) {
        if (!oneIn(3)) continue;
        const std::int64_t last = std::min<std::int64_t>(bars, bar + upTo(4));
        const int endings = last > bar && oneIn(2) ? 1 : 0;
        study.page.repeats.push_back({bar, last, 2 + upTo(3), endings});
        bar = last + 1;
    }
}

} // namespace earwright
