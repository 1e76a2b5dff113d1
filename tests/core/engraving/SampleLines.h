// Lines of our own to engrave: a blues chorus, and phrases thrown together.
#pragma once

#include "core/engraving/TabPlace.h"
#include "core/study/Study.h"

#include <map>
#include <random>
#include <set>
#include <string>
#include <utility>
#include <vector>

namespace earwright {

/// A study with bars of 4/4 at 120, so that choruses can lie on them.
inline Study studyInFour() {
    Study study;
    study.beatMap = BeatMap({{Beats(0), Seconds(0)}, {Beats(48), Seconds(24)}});
    return study;
}

inline Note noteAt(Study& study, const Beats& onset, const Beats& length, int midi) {
    Note note;
    note.id = {study.nextId++};
    note.onset = onset;
    note.length = length;
    note.pitch = {midi, {}};
    return note;
}

/// Twelve-bar blues in B flat, the form that handbooks call the jazz blues (common practice): I7 IV7 I7 I7,
/// IV7 ♯IV° I7 VI7, ii7 V7, I7 VI7, ii7 V7.
inline const char* bluesForm =
    "Bb7 | Eb7 | Bb7 | Fm7 Bb7 | Eb7 | E°7 | Bb7 | G7b9 | Cm7 | F7 | Bb7 G7 | Cm7 F7";

/// A chorus of our own over it: eighths, triplets, sixteenths, ties and rests.
inline Study bluesChorus() {
    Study study = studyInFour();
    study.title = "Twelve Bars for a Rainy Porch";
    study.chart.form = parseBars(bluesForm, study.meter);
    study.spans.push_back({{study.nextId++}, SpanKind::Chorus, "", {Seconds(0), Seconds(24)}});
    struct Written {
        std::int64_t bar;
        Beats onset;
        Beats length;
        int midi;
    };
    const auto b = [](std::int64_t n, std::int64_t d = 1) { return Beats(n, d); };
    const std::vector<Written> line{
        {1, b(0), b(1, 2), 70},      {1, b(1, 2), b(1, 2), 73},   {1, b(1), b(1, 2), 74},
        {1, b(3, 2), b(3, 2), 77},   {1, b(3), b(1, 2), 80},      {1, b(7, 2), b(3, 2), 79},
        {2, b(1), b(1, 3), 75},      {2, b(4, 3), b(1, 3), 77},   {2, b(5, 3), b(1, 3), 79},
        {2, b(2), b(1, 2), 73},      {2, b(5, 2), b(3, 2), 72},   {3, b(0), b(1), 70},
        {3, b(3, 2), b(1, 2), 68},   {3, b(2), b(1, 4), 65},      {3, b(9, 4), b(1, 4), 67},
        {3, b(5, 2), b(1, 4), 68},   {3, b(11, 4), b(1, 4), 69},  {3, b(3), b(1), 70},
        {4, b(0), b(1, 2), 72},      {4, b(1, 2), b(1, 2), 75},   {4, b(1), b(1, 2), 79},
        {4, b(3, 2), b(1, 2), 77},   {4, b(2), b(3, 4), 74},      {4, b(11, 4), b(1, 4), 71},
        {4, b(3), b(1), 72},         {5, b(0), b(2), 79},         {5, b(2), b(1, 6), 79},
        {5, b(13, 6), b(1, 6), 80},  {5, b(7, 3), b(1, 6), 79},   {5, b(5, 2), b(1, 6), 77},
        {5, b(8, 3), b(1, 6), 76},   {5, b(17, 6), b(1, 6), 75},  {5, b(3), b(1), 73},
        {6, b(0), b(1, 2), 76},      {6, b(1, 2), b(1, 2), 79},   {6, b(1), b(1, 2), 82},
        {6, b(3, 2), b(1, 2), 85},   {6, b(2), b(2), 82},         {7, b(1), b(1, 2), 77},
        {7, b(3, 2), b(1, 2), 74},   {7, b(2), b(1), 70},         {7, b(3), b(1, 2), 68},
        {7, b(7, 2), b(1, 2), 65},   {8, b(0), b(1, 2), 71},      {8, b(1, 2), b(1, 2), 74},
        {8, b(1), b(1, 2), 77},      {8, b(3, 2), b(1, 2), 80},   {8, b(2), b(1, 2), 79},
        {8, b(5, 2), b(1, 2), 77},   {8, b(3), b(1, 2), 76},      {8, b(7, 2), b(1), 75},
        {9, b(1, 2), b(1, 2), 74},   {9, b(1), b(1), 72},         {9, b(2), b(2, 3), 67},
        {9, b(8, 3), b(1, 3), 65},   {9, b(3), b(1), 63},         {10, b(0), b(1, 8), 57},
        {10, b(1, 8), b(1, 8), 60},  {10, b(1, 4), b(1, 8), 63},  {10, b(3, 8), b(1, 8), 66},
        {10, b(1, 2), b(1, 2), 69},  {10, b(1), b(1), 68},        {10, b(2), b(1, 5), 67},
        {10, b(11, 5), b(1, 5), 66}, {10, b(12, 5), b(1, 5), 65}, {10, b(13, 5), b(1, 5), 64},
        {10, b(14, 5), b(1, 5), 63}, {10, b(3), b(1), 62},        {11, b(0), b(3, 2), 58},
        {11, b(3, 2), b(1, 2), 62},  {11, b(2), b(2), 65},        {12, b(0), b(1, 2), 67},
        {12, b(1, 2), b(1, 2), 68},  {12, b(1), b(1, 2), 69},     {12, b(3, 2), b(5, 2), 70},
    };
    for (const Written& w : line)
        study.notes.push_back(noteAt(study, study.meter.barStart(w.bar) + w.onset, w.length, w.midi));
    return study;
}

/// Everything that can be said of how a note is played, here and there over the same notes.
inline Study phrasedChorus() {
    Study study = bluesChorus();
    study.title = "The Same with Phrasing";
    auto& notes = study.notes;
    for (const std::size_t i : {1u, 2u, 3u, 7u, 8u, 14u, 15u, 16u, 34u, 35u, 36u, 47u, 48u, 49u})
        notes[i].phrasing.slurred = true;
    notes[3].phrasing.accented = true;
    notes[0].phrasing.slideIn = SlideFrom::Below;
    notes[5].phrasing.trill = 2;
    notes[9].phrasing.graceNotes = {72};
    notes[12].phrasing.ghosted = true;
    notes[22].phrasing.ghosted = true;
    notes[17].phrasing.slideOut = SlideTo::Down;
    notes[25].phrasing.trill = 1;
    notes[37].phrasing.slideOut = SlideTo::Up;
    notes[38].phrasing.graceNotes = {73, 75};
    notes[40].phrasing.accented = true;
    notes[45].phrasing.slideIn = SlideFrom::Above;
    notes[54].phrasing.graceNotes = {66};
    notes[60].phrasing.accented = true;
    return study;
}

/// Any of the marks that may stand at a note.
inline void markByChance(Phrasing& phrasing, std::mt19937& random) {
    const auto pick = [&](int from, int to) { return std::uniform_int_distribution<int>(from, to)(random); };
    const auto isOneIn = [&](int many) { return pick(1, many) == 1; };
    phrasing.letRing = isOneIn(10);
    phrasing.staccato = isOneIn(12);
    phrasing.tenuto = isOneIn(15);
    phrasing.vibrato = isOneIn(20);
    phrasing.slidesToNext = isOneIn(20);
    phrasing.scoop = !phrasing.slideIn && isOneIn(25);
    phrasing.fall = !phrasing.slideOut && !phrasing.slidesToNext && isOneIn(25);
    if (isOneIn(25)) phrasing.turn = isOneIn(2) ? Turn::FromAbove : Turn::FromBelow;
    if (isOneIn(25)) phrasing.mordent = isOneIn(2) ? Mordent::Lower : Mordent::Upper;
    if (isOneIn(20)) phrasing.bend = Bend{pick(1, widestBend), static_cast<BendShape>(pick(0, 3))};
    if (phrasing.slurred && isOneIn(2)) phrasing.slurBy = isOneIn(2) ? SlurBy::HammerOn : SlurBy::PullOff;
}

/// Dynamics, hairpins, words, repeats and changes of key and meter thrown over so many bars of four.
inline PageMarks chancePage(unsigned seed, int bars, PageMarks page) {
    std::mt19937 random(seed + 2000);
    const auto pick = [&](int from, int to) { return std::uniform_int_distribution<int>(from, to)(random); };
    for (int beat = 0; beat < bars * 4; ++beat) {
        if (pick(0, 5) == 0) page.dynamics.push_back({Beats(beat), static_cast<Dynamic>(pick(0, 8))});
        if (pick(0, 9) == 0) page.texts.push_back({Beats(beat), "a word", pick(0, 1) == 0});
    }
    for (int beat = pick(0, 4); beat < bars * 4; beat += pick(5, 12))
        page.hairpins.push_back(
            {{Beats(beat), Beats(beat + pick(1, 5))}, static_cast<HairpinKind>(pick(0, 1))});
    page.repeats = {{2, 5, 2, pick(0, 2)}, {8, 9, pick(2, 4), pick(0, 1)}};
    page.keys = {{1, {pick(-7, 7), Mode::Major}}, {pick(3, 6), {pick(-7, 7), Mode::Minor}}};
    if (pick(0, 1) == 0) page.meters = {{pick(9, 11), {3, 4}}};
    return page;
}

/// Bars full of chance: any place, length, pitch and phrasing, with double stops.
inline Study chanceStudy(unsigned seed, int bars) {
    std::mt19937 random(seed);
    const auto pick = [&](int from, int to) { return std::uniform_int_distribution<int>(from, to)(random); };
    Study study = studyInFour();
    study.chart.form = parseBars(bluesForm, study.meter);
    study.spans.push_back({{study.nextId++}, SpanKind::Chorus, "", {Seconds(0), Seconds(24)}});
    const std::vector<int> parts{1, 2, 2, 2, 3, 4, 5, 6, 8};
    study.page.swings = {{Beats(0), {2, 8}}, {Beats(9), {1.5, 16}}, {Beats(25), {3, 8}}, {Beats(30), {1, 8}}};
    study.page.tempos = {{Beats(0), "Medium", 132.0}, {Beats(17), "", 96.5}, {Beats(26), "Slower", {}}};
    study.page = chancePage(seed, bars, study.page);
    std::mt19937 marks(seed + 1000);
    int midi = pick(55, 75);
    for (int beat = 0; beat < bars * 4; ++beat) {
        const int division = parts[static_cast<std::size_t>(pick(0, static_cast<int>(parts.size()) - 1))];
        for (int part = 0; part < division; ++part) {
            if (pick(0, 5) == 0) continue;
            midi = std::clamp(midi + pick(-5, 5), 50, 92);
            const int length = pick(0, 3) == 0 ? pick(1, 3 * division) : 1;
            Note note = noteAt(study, Beats(beat * division + part, division), Beats(length, division), midi);
            note.phrasing.slurred = pick(0, 3) == 0;
            note.phrasing.ghosted = pick(0, 11) == 0;
            note.phrasing.accented = !note.phrasing.ghosted && pick(0, 9) == 0;
            if (pick(0, 19) == 0) note.phrasing.graceNotes = {midi - 1};
            if (pick(0, 29) == 0) note.phrasing.graceNotes = {midi - 3, midi - 1};
            if (pick(0, 19) == 0) note.phrasing.slideIn = SlideFrom::Below;
            if (pick(0, 19) == 0) note.phrasing.slideOut = SlideTo::Down;
            if (pick(0, 29) == 0) note.phrasing.trill = pick(1, 2);
            // By a source of its own, so that the notes of a seed stay what they were.
            markByChance(note.phrasing, marks);
            study.notes.push_back(note);
            if (pick(0, 9) == 0) {
                Note other = noteAt(study, note.onset, note.length, midi + pick(1, 9));
                study.notes.push_back(other);
            }
        }
    }
    return study;
}

/// Every mark once and more over the blues, with swing and tempo.
inline Study markedChorus() {
    Study study = bluesChorus();
    study.title = "The Same with Marks";
    study.page.swings = {{Beats(0), {2, 8}}, {Beats(16), {1, 8}}, {Beats(32), {3, 8}}};
    study.page.tempos = {{Beats(0), "Medium", 132.0}};
    auto& notes = study.notes;
    notes[0].phrasing.staccato = true;
    notes[1].phrasing.scoop = true;
    notes[3].phrasing.tenuto = true;
    notes[4].phrasing.slidesToNext = true;
    notes[5].phrasing.vibrato = true;
    notes[10].phrasing.turn = Turn::FromAbove;
    notes[11].phrasing.mordent = Mordent::Lower;
    notes[17].phrasing.fall = true;
    notes[19].phrasing.slurred = true;
    notes[19].phrasing.slurBy = SlurBy::HammerOn;
    notes[21].phrasing.slurred = true;
    notes[21].phrasing.slurBy = SlurBy::PullOff;
    notes[24].phrasing.mordent = Mordent::Upper;
    notes[25].phrasing.bend = Bend{4, BendShape::Up};
    notes[32].phrasing.turn = Turn::FromBelow;
    notes[37].phrasing.bend = Bend{2, BendShape::UpAndDown};
    notes[40].phrasing.bend = Bend{6, BendShape::PrebentDown};
    notes[51].phrasing.bend = Bend{1, BendShape::PrebentHeld};
    return study;
}

/// A place on the guitar for each note, the lowest fret on a free string: no fingering, but something to
/// draw.
inline std::map<NoteId, TabPlace> anyPlaces(const Study& study) {
    std::map<NoteId, TabPlace> places;
    const std::vector<int> open{64, 59, 55, 50, 45, 40};
    std::set<std::pair<Beats, int>> used;
    for (const Note& note : study.notes)
        for (int string = 0; string < 6; ++string) {
            const int fret = note.pitch.midi - 12 - open[static_cast<std::size_t>(string)];
            if (fret < 0 || fret > 40 || used.contains({note.onset, string})) continue;
            places[note.id] = {string, fret};
            used.insert({note.onset, string});
            break;
        }
    return places;
}

} // namespace earwright
