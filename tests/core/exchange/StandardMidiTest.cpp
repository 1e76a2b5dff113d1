#include "core/exchange/StandardMidi.h"

#include "core/exchange/MidiEvents.h"
#include "core/exchange/PitchGlide.h"
#include "core/study/PlayedTime.h"
#include "tests/core/exchange/ChanceStudy.h"

#include <algorithm>
#include <cmath>
#include <gtest/gtest.h>

namespace earwright {
namespace {

TEST(StandardMidi, WritesVariableLengthQuantitiesAsTheStandardsExamples) {
    // Standard MIDI Files 1.0, table of examples under "Variable-length quantities".
    const std::vector<std::pair<std::uint32_t, std::string>> examples{
        {0x00, std::string(1, '\0')},
        {0x40, "\x40"},
        {0x7F, "\x7F"},
        {0x80, std::string("\x81\x00", 2)},
        {0x2000, std::string("\xC0\x00", 2)},
        {0x3FFF, "\xFF\x7F"},
        {0x4000, std::string("\x81\x80\x00", 3)},
        {0x100000, std::string("\xC0\x80\x00", 3)},
        {0x1FFFFF, "\xFF\xFF\x7F"},
        {0x200000, std::string("\x81\x80\x80\x00", 4)},
        {0x8000000, std::string("\xC0\x80\x80\x00", 4)},
        {0xFFFFFFF, "\xFF\xFF\xFF\x7F"}};
    for (const auto& [value, bytes] : examples)
        EXPECT_EQ(variableLength(value), bytes) << value;
}

TEST(StandardMidi, EndsTheTrackWithItsEndEvent) {
    const auto file = standardMidi(Study{});
    ASSERT_TRUE(file.ok());
    EXPECT_TRUE(file->starts_with("MThd"));
    EXPECT_TRUE(file->ends_with(std::string("\x00\xFF\x2F\x00", 4)));
}

TEST(StandardMidi, RefusesALineOverTooManyBars) {
    Study study;
    Note note;
    note.onset = Beats(900'000'000);
    note.length = Beats(1);
    study.notes = {note};
    const auto file = standardMidi(study);
    ASSERT_FALSE(file.ok());
    EXPECT_EQ(file.error().kind, ErrorKind::OutOfRange);
}

/// Ticks a quarter of the files that are written.
constexpr double quarter = 20160;

std::vector<MidiEvent> eventsOf(const Study& study, const MidiOptions& options = {}) {
    const auto bytes = standardMidi(study, options);
    EXPECT_TRUE(bytes.ok());
    const auto file = midiTracks(*bytes, "line.mid");
    EXPECT_TRUE(file.ok()) << describe(file.error());
    return file && file->tracks.size() == 1 ? file->tracks.front() : std::vector<MidiEvent>{};
}

std::vector<MidiEvent> ofKind(const std::vector<MidiEvent>& events, int kind) {
    std::vector<MidiEvent> found;
    std::copy_if(events.begin(), events.end(), std::back_inserter(found), [&](const MidiEvent& event) {
        return event.status < 0xF0 && (event.status & 0xF0) == kind;
    });
    return found;
}

std::vector<MidiEvent> metas(const std::vector<MidiEvent>& events, int type) {
    std::vector<MidiEvent> found;
    std::copy_if(events.begin(), events.end(), std::back_inserter(found),
                 [&](const MidiEvent& event) { return event.status == 0xFF && event.first == type; });
    return found;
}

/// Eighths from beat 0 on at 120 quarters a minute.
Study eighths(int count) {
    Study study;
    study.beatMap = BeatMap({{Beats(0), Seconds(0)}, {Beats(4), Seconds(2)}});
    for (int i = 0; i < count; ++i)
        study.notes.push_back({NoteId{study.nextId++}, Beats(i, 2), Beats(1, 2), Pitch{60 + i, {}}, 0.6, {}});
    return study;
}

TEST(StandardMidi, SwungEighthsStandWhereTheyArePlayed) {
    Study study = eighths(4);
    study.page.swings = {{Beats(0), {2, 8}}};
    const auto swung = ofKind(eventsOf(study), 0x90);
    ASSERT_EQ(swung.size(), 4u);
    // Two to one: the second of two eighths comes at two thirds of the beat.
    EXPECT_EQ(static_cast<double>(swung[1].tick), std::round(quarter * 2 / 3));
    EXPECT_EQ(static_cast<double>(swung[2].tick), quarter);
    MidiOptions even;
    even.swings = false;
    EXPECT_EQ(static_cast<double>(ofKind(eventsOf(study, even), 0x90)[1].tick), quarter / 2);
}

/// Semitones of a bend, in a file whose range is an octave.
double semitones(const MidiEvent& bend) {
    return (bend.first + 128 * bend.second - 8192) / 8192.0 * widestGlide;
}

TEST(StandardMidi, BendsAndSlidesArePitchBendsInARangeThatTheFileSets) {
    Study study = eighths(4);
    study.notes[0].phrasing.bend = Bend{4, BendShape::UpAndDown};
    study.notes[2].phrasing.slidesToNext = true;
    const auto events = eventsOf(study);
    const auto controls = ofKind(events, 0xB0);
    ASSERT_GE(controls.size(), 3u);
    EXPECT_EQ(controls[0].first, 101);
    EXPECT_EQ(controls[1].first, 100);
    EXPECT_EQ(controls[0].second + controls[1].second, 0) << "registered parameter 0";
    EXPECT_EQ(controls[2].first, 6);
    EXPECT_EQ(controls[2].second, widestGlide);
    double highest = 0;
    double slid = 0;
    double last = 1;
    for (const MidiEvent& bend : ofKind(events, 0xE0)) {
        const auto at = static_cast<double>(bend.tick);
        if (at <= quarter / 2) highest = std::max(highest, semitones(bend));
        if (at >= quarter && at < quarter * 1.5) slid = std::max(slid, semitones(bend));
        // Between the notes that move, nothing does.
        EXPECT_TRUE(at <= quarter / 2 || (at >= quarter && at <= quarter * 1.5)) << at;
        last = semitones(bend);
    }
    EXPECT_NEAR(highest, 2, 0.01) << "a whole tone";
    EXPECT_NEAR(slid, 1, 0.2) << "most of the semitone to the next note";
    EXPECT_EQ(last, 0) << "the next note begins at its own pitch";
    EXPECT_TRUE(ofKind(eventsOf(eighths(4)), 0xB0).empty()) << "plain notes need no range";
}

TEST(StandardMidi, ASlideOverARestBendsNothing) {
    Study study = eighths(2);
    study.notes[0].phrasing.slidesToNext = true;
    EXPECT_FALSE(ofKind(eventsOf(study), 0xE0).empty());
    study.notes[1].onset = Beats(2);
    EXPECT_TRUE(ofKind(eventsOf(study), 0xE0).empty());
}

TEST(StandardMidi, ASlideTakesItsTimeAtTheMarkedTempoWhereNoBeatsAreMarked) {
    // A slide takes 0.12 s (PitchGlide.h): of a beat of one second its last 12 %, of half a second 24 %.
    const auto beginning = [](double quartersPerMinute) {
        Study study = eighths(0);
        study.beatMap = {};
        study.page.tempos = {{Beats(-8), "", 200.0}, {Beats(0), "", quartersPerMinute}, {Beats(2), "", 30.0}};
        for (int i = 0; i < 2; ++i)
            study.notes.push_back(
                {NoteId{study.nextId++}, Beats(i), Beats(1), Pitch{60 + 5 * i, {}}, 0.6, {}});
        study.notes[0].phrasing.slidesToNext = true;
        const auto bends = ofKind(eventsOf(study), 0xE0);
        return bends.empty() ? 0 : static_cast<double>(bends.front().tick) / quarter;
    };
    EXPECT_NEAR(beginning(60), 0.88, 0.02);
    EXPECT_NEAR(beginning(120), 0.76, 0.04);
}

TEST(StandardMidi, ATurnInThePickupGoesByTheKeyOfBarOne) {
    Study study = eighths(0);
    study.page.keys = {{1, {-3, Mode::Major}}};
    study.notes.push_back({NoteId{study.nextId++}, Beats(-1), Beats(1), Pitch{67, {}}, 0.6, {}});
    study.notes.back().phrasing.mordent = Mordent::Upper;
    const auto on = ofKind(eventsOf(study), 0x90);
    ASSERT_EQ(on.size(), 3u);
    EXPECT_EQ(on[1].first, 68) << "A flat, as in bar 1";
}

TEST(StandardMidi, DynamicsShadeTheVelocity) {
    Study study = eighths(8);
    study.page.dynamics = {{Beats(1), Dynamic::p}, {Beats(2), Dynamic::mf}, {Beats(7, 2), Dynamic::sfz}};
    study.page.hairpins = {{{Beats(1), Beats(2)}, HairpinKind::Louder}};
    std::vector<int> velocities;
    for (const MidiEvent& on : ofKind(eventsOf(study), 0x90))
        velocities.push_back(on.second);
    // 0.6 of 127 at mf; p is 49 of 80 of that, and half-way up the hairpin half-way to mf.
    const int medium = 76;
    EXPECT_EQ(velocities, (std::vector<int>{medium, medium, 47, 61, medium, medium, medium, 121}));
}

/// Beats, by where the notes begin: the k-th note on is ended by the next note off of its pitch.
std::vector<double> soundingLengths(const std::vector<MidiEvent>& events) {
    std::vector<double> lengths;
    for (std::size_t i = 0; i < events.size(); ++i) {
        if (events[i].status != 0x90) continue;
        const auto off = std::find_if(
            events.begin() + static_cast<std::ptrdiff_t>(i), events.end(),
            [&](const MidiEvent& event) { return event.status == 0x80 && event.first == events[i].first; });
        lengths.push_back(static_cast<double>(off->tick - events[i].tick) / quarter);
    }
    return lengths;
}

TEST(StandardMidi, LastAsLongAsStaccatoAndRingingSay) {
    Study study = eighths(4);
    study.notes[1].phrasing.staccato = true;
    study.notes[2].phrasing.letRing = true;
    // A quarter lasts half a second, so a string that rings for three lasts six quarters.
    EXPECT_EQ(soundingLengths(eventsOf(study)), (std::vector{0.5, 0.25, 6.0, 0.5}));
    study.page.swings = {{Beats(0), {2, 8}}};
    const auto swung = soundingLengths(eventsOf(study));
    EXPECT_NEAR(swung[0], 2.0 / 3, 1e-4);
    EXPECT_NEAR(swung[1], 1.0 / 6, 1e-4) << "half of the third that is left";
}

TEST(StandardMidi, AShortNoteGivesItsGraceNotesAThirdOfWhatItHas) {
    Study study = eighths(1);
    study.notes[0].phrasing.graceNotes = {57, 58};
    EXPECT_EQ(soundingLengths(eventsOf(study)), (std::vector{1.0 / 12, 1.0 / 12, 1.0 / 3}));
    study.notes[0].phrasing.staccato = true;
    EXPECT_EQ(soundingLengths(eventsOf(study)), (std::vector{1.0 / 24, 1.0 / 24, 1.0 / 6}));
}

/// Beats at which the notes begin.
std::vector<double> onsets(const std::vector<MidiEvent>& events) {
    std::vector<double> places;
    for (const MidiEvent& on : ofKind(events, 0x90))
        places.push_back(static_cast<double>(on.tick) / quarter);
    return places;
}

// A trill or a grace note is no rhythm: the note it belongs to swings, and it goes along.
TEST(StandardMidi, WhatOrnamentsANoteDoesNotSwingOnceMore) {
    Study study = eighths(2);
    study.page.swings = {{Beats(0), {2, 8}}};
    study.notes[0].phrasing.graceNotes = {57, 58};
    study.notes[1].phrasing.trill = 2;
    const auto swung = eventsOf(study);
    // Two thirds of a beat give two ninths to two grace notes; a third has four notes of a trill.
    const std::vector<double> expected{0, 1.0 / 9, 2.0 / 9, 2.0 / 3, 3.0 / 4, 5.0 / 6, 11.0 / 12};
    const auto places = onsets(swung);
    ASSERT_EQ(places.size(), expected.size());
    for (std::size_t i = 0; i < expected.size(); ++i)
        EXPECT_NEAR(places[i], expected[i], 1e-4) << i;
}

TEST(StandardMidi, TrillsOfALongNoteAreThirtySecondsWhereItSwingsToo) {
    Study study = eighths(1);
    study.notes[0].length = Beats(2);
    study.notes[0].phrasing.trill = 1;
    for (const double ratio : {1.0, 2.0}) {
        study.page.swings = {{Beats(0), {ratio, 8}}};
        const auto places = onsets(eventsOf(study));
        ASSERT_EQ(places.size(), 16u);
        for (std::size_t i = 0; i < places.size(); ++i)
            EXPECT_EQ(places[i], static_cast<double>(i) / 8);
    }
}

TEST(StandardMidi, KeysMetersWordsAndTempoGoAlong) {
    Study study = eighths(16);
    study.title = "Line";
    study.page.keys = {{1, {-3, Mode::Minor}}, {2, {2, Mode::Major}}};
    study.page.texts = {{Beats(1), "laid back", false}};
    const auto events = eventsOf(study);
    const auto keys = metas(events, 0x59);
    ASSERT_EQ(keys.size(), 2u);
    EXPECT_EQ(keys[0].data, (std::string{static_cast<char>(-3), 1}));
    EXPECT_EQ(keys[1].data, (std::string{2, 0}));
    EXPECT_EQ(static_cast<double>(keys[1].tick), 4 * quarter);
    EXPECT_EQ(metas(events, 0x03).at(0).data, "Line");
    EXPECT_EQ(metas(events, 0x01).at(0).data, "laid back");
    EXPECT_EQ(metas(events, 0x51).size(), 1u);
    MidiOptions steady;
    steady.tempo = 90;
    // 60 s by 90, in microseconds: 666 667 is 0A 2C 2B.
    EXPECT_EQ(metas(eventsOf(study, steady), 0x51).at(0).data, std::string("\x0A\x2C\x2B", 3));
}

TEST(StandardMidi, EveryNoteThatBeginsEndsInWhateverStudy) {
    for (std::uint32_t seed = 1; seed <= 100; ++seed) {
        std::vector<int> sounding(128);
        std::int64_t last = 0;
        for (const MidiEvent& event : eventsOf(ChanceStudy(seed).make())) {
            ASSERT_GE(event.tick, last);
            last = event.tick;
            int& here = sounding[static_cast<std::size_t>(event.first & 0x7F)];
            if (event.status == 0x90) ++here;
            if (event.status == 0x80) --here;
            ASSERT_TRUE(here == 0 || here == 1) << seed;
        }
        EXPECT_EQ(std::count(sounding.begin(), sounding.end(), 0), 128);
    }
}

TEST(StandardMidi, SoundsAtTheMeasuredTimesWhereTheLineWasMeasured) {
    // Bars of four beats at 60, then at 120 a minute; the first beat mark lies at 1 s.
    Study study;
    study.beatMap = BeatMap({{Beats(0), Seconds(1)}, {Beats(4), Seconds(5)}, {Beats(8), Seconds(7)}});
    for (int i = 0; i < 3; ++i)
        study.notes.push_back(
            {NoteId{static_cast<std::uint64_t>(i) + 1}, Beats(3 * i), Beats(1), Pitch{60 + i, {}}, 0.6, {}});
    const auto writtenAt = [&](std::size_t i) { return playedTime(study, study.notes[i].range()); };
    // 120 ms late at 60 a minute, and the third, in the faster bar, 50 ms ahead; the second is not heard.
    const PlayedNotes played{{NoteId{1}, {writtenAt(0), 60, {Seconds(1.12), Seconds(1.52)}, 0.3}},
                             {NoteId{3}, {writtenAt(2), 62, {Seconds(5.95), Seconds(6.45)}, 0.9}}};
    const auto bytes = standardMidi(study, {}, played);
    ASSERT_TRUE(bytes.ok());
    const auto file = midiTracks(*bytes, "line.mid");
    ASSERT_TRUE(file.ok()) << describe(file.error());
    const auto on = ofKind(file->tracks.at(0), 0x90);
    const auto off = ofKind(file->tracks.at(0), 0x80);
    ASSERT_EQ(on.size(), 3u);
    const auto beat = [](const MidiEvent& event) { return static_cast<double>(event.tick) / quarter; };
    EXPECT_NEAR(beat(on[0]), 0.12, 1 / quarter);
    EXPECT_NEAR(beat(off[0]), 0.52, 1 / quarter);
    EXPECT_EQ(on[0].second, std::lround(0.3 * 127));
    EXPECT_EQ(beat(on[1]), 3);
    EXPECT_EQ(on[1].second, std::lround(0.6 * 127));
    EXPECT_NEAR(beat(on[2]), 5.9, 1 / quarter);
    EXPECT_NEAR(beat(off[2]), 6.9, 1 / quarter);
    EXPECT_EQ(on[2].second, std::lround(0.9 * 127));
}

} // namespace
} // namespace earwright
