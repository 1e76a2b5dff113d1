// The demo study against its recording and against what the tune's script really played.
#include "core/sound/ContentHash.h"
#include "core/sound/Recording.h"
#include "tests/demo/DemoFiles.h"

#include <algorithm>
#include <fstream>
#include <iterator>
#include <set>

namespace earwright::demo {

namespace {

constexpr std::int64_t firstChorusBar = 5;
constexpr std::int64_t lastChorusBar = 16;

std::set<PlacedPitch> writtenPitches(const Study& study) {
    std::set<PlacedPitch> pitches;
    for (const Note& note : study.notes)
        pitches.insert({playedPlace(study, note), note.pitch.midi});
    return pitches;
}

/// What was played up to the end of the first chorus, pickup included.
std::vector<PlayedNote> firstChorus(const Study& study) {
    std::vector<PlayedNote> line;
    std::ranges::copy_if(playedLine(), std::back_inserter(line), [&](const PlayedNote& note) {
        return study.meter.barOf(note.pitch.onset) <= lastChorusBar;
    });
    return line;
}

TEST(DemoStudy, IsLaidOutAsTheProgramItselfWritesIt) {
    std::ifstream file(demoFile(".study"), std::ios::binary);
    const std::string bytes{std::istreambuf_iterator<char>(file), {}};
    ASSERT_FALSE(bytes.empty());
    EXPECT_EQ(StudyFile::text(demoStudy()), bytes);
}

TEST(DemoStudy, KnowsItsRecording) {
    const Study study = demoStudy();
    const auto audio = demoFile(".study").parent_path() / study.recording.path;
    const auto hash = contentHash(audio);
    ASSERT_TRUE(hash) << hash.error().message;
    EXPECT_EQ(study.recording.contentHash, *hash);
    const auto recording = Recording::open(audio);
    ASSERT_TRUE(recording) << recording.error().message;
    EXPECT_EQ(study.recording.rate, (*recording)->rate());
    EXPECT_EQ(study.recording.length, (*recording)->length());
}

TEST(DemoStudy, HasEveryBarMarkedWhereTheBandPlayedIt) {
    const Study study = demoStudy();
    const auto bars = TabTable::read(demoFile(".bars.tsv"), {"bar", "seconds"});
    ASSERT_TRUE(bars) << bars.error().message;
    ASSERT_EQ(study.beatMap.marks().size(), bars->rowCount());
    for (std::size_t row = 0; row < bars->rowCount(); ++row) {
        const Beats start = study.meter.barStart(std::stoll(bars->text(row, "bar")));
        EXPECT_NEAR(study.beatMap.seconds(start).value, std::stod(bars->text(row, "seconds")), 1e-3);
    }
}

TEST(DemoStudy, HasAChordThatCanBeReadOverEveryBar) {
    const Study study = demoStudy();
    for (std::int64_t bar = 1; bar <= 43; ++bar) {
        const BarChords chords = study.barChords(bar);
        EXPECT_FALSE(chords.chords.empty()) << "bar " << bar;
        for (const PlacedChord& chord : chords.chords)
            EXPECT_TRUE(chord.symbol.chord) << chord.symbol.text << " in bar " << bar;
    }
}

TEST(DemoStudy, LaysThreeChorusesOfTwelveBars) {
    const std::vector<ChorusBars> expected{{5, 12}, {17, 12}, {29, 12}};
    EXPECT_EQ(demoStudy().chorusBars(), expected);
}

TEST(DemoStudy, PutsEveryPlayedNoteIntoOnePhrase) {
    const Study study = demoStudy();
    const auto phrases = study.spansOf(SpanKind::Phrase);
    for (const PlayedNote& note : playedLine()) {
        const auto holders = std::ranges::count_if(phrases, [&](const Span& phrase) {
            const Range<Beats> beats = study.beatsOf(phrase);
            return beats.begin <= note.pitch.onset && note.pitch.onset < beats.end;
        });
        EXPECT_EQ(holders, 1) << testing::PrintToString(note.pitch);
    }
}

TEST(DemoStudy, DiffersFromTheLineInThePlantedMistakesOnly) {
    const Study study = demoStudy();
    std::set<PlacedPitch> expected;
    for (const PlayedNote& note : firstChorus(study))
        expected.insert(note.pitch);
    for (const PlantedMistake& mistake : plantedMistakes()) {
        if (mistake.heard) {
            EXPECT_EQ(expected.erase(*mistake.heard), 1U) << mistake.kind;
        }
        if (mistake.written) {
            EXPECT_TRUE(expected.insert(*mistake.written).second) << mistake.kind;
        }
    }
    EXPECT_EQ(writtenPitches(study), expected);
}

TEST(DemoStudy, WritesTheLineWithin50MillisecondsOfTheSound) {
    const Study study = demoStudy();
    const auto written = writtenPitches(study);
    std::size_t compared = 0;
    for (const PlayedNote& note : firstChorus(study)) {
        if (!written.contains(note.pitch)) continue;
        EXPECT_NEAR(study.beatMap.seconds(note.pitch.onset).value, note.time.value, 0.05);
        ++compared;
    }
    EXPECT_GT(compared, 70U);
}

TEST(DemoStudy, WritesSwungEighthsEvenly) {
    const Study study = demoStudy();
    EXPECT_NEAR(study.page.swingAt(Beats(16)).ratio, 1.7, 0.1) << "as the script played it, 1.62 to 1.8";
    const auto onOffBeat = std::ranges::count_if(
        study.notes, [](const Note& note) { return note.onset.fraction() == Beats(1, 2); });
    const auto inTriplets =
        std::ranges::count_if(study.notes, [](const Note& note) { return note.onset.denominator() == 3; });
    EXPECT_GT(onOffBeat, 30);
    EXPECT_LT(inTriplets, 8);
}

TEST(DemoStudy, LeavesTheOtherChorusesToDo) {
    const Study study = demoStudy();
    const auto chorusStart = study.meter.barStart(lastChorusBar + 1);
    EXPECT_TRUE(std::ranges::all_of(study.notes, [&](const Note& note) { return note.onset < chorusStart; }));
    EXPECT_TRUE(std::ranges::any_of(
        study.notes, [&](const Note& note) { return study.meter.barOf(note.onset) == firstChorusBar; }));
    EXPECT_FALSE(study.looseEnds.empty());
    EXPECT_TRUE(study.earRecord.phrases.empty());
}

TEST(DemoStudy, ShowsEveryKindOfPhrasing) {
    const Study study = demoStudy();
    const auto any = [&](auto said) {
        return std::ranges::any_of(study.notes, [&](const Note& note) { return said(note.phrasing); });
    };
    EXPECT_TRUE(any([](const Phrasing& p) { return p.slideIn.has_value(); }));
    EXPECT_TRUE(any([](const Phrasing& p) { return !p.graceNotes.empty(); }));
    EXPECT_TRUE(any([](const Phrasing& p) { return p.trill.has_value(); }));
    EXPECT_TRUE(any([](const Phrasing& p) { return p.slurred; }));
    EXPECT_TRUE(any([](const Phrasing& p) { return p.ghosted; }));
    EXPECT_TRUE(any([](const Phrasing& p) { return p.accented; }));
}

} // namespace

} // namespace earwright::demo
