#include "core/study/StudyFile.h"

#include "core/study/PlayerEdits.h"
#include "tests/core/study/SampleStudy.h"
#include "tests/core/study/TemporaryFolder.h"

#include <gtest/gtest.h>
#include <random>
#include <string>
#include <sys/stat.h>
#include <unistd.h>

namespace earwright {
namespace {

/// The full study's text with the first occurrence of one piece put for another.
std::string textWith(const std::string& piece, const std::string& instead) {
    std::string text = StudyFile::text(fullStudy());
    const std::size_t at = text.find(piece);
    EXPECT_NE(at, std::string::npos) << piece;
    return text.replace(at, piece.size(), instead);
}

/// A page without marks, as it is written.
const std::string emptyPage =
    R"({"keys":[],"meters":[],"swings":[],"tempos":[],"dynamics":[],"hairpins":[],"texts":[],"repeats":[]})";

Error refusalOf(const std::string& text) {
    const Result<Study> study = StudyFile::parse(text, "line.study");
    EXPECT_FALSE(study.ok()) << text.substr(0, 200);
    return study ? Error{ErrorKind::Device, "", ""} : study.error();
}

TEST(StudyFile, WritingAndReadingBackGivesAnEqualStudy) {
    for (const Study& study : {Study{}, eightBarsAt120(), fullStudy()}) {
        const Result<Study> back = StudyFile::parse(StudyFile::text(study), "line.study");
        ASSERT_TRUE(back.ok()) << describe(back.error());
        EXPECT_EQ(*back, study);
        EXPECT_EQ(StudyFile::text(*back), StudyFile::text(study));
    }
}

TEST(StudyFile, ReadsWhatVersionOneWrote) {
    Study study = fullStudy();
    study.takes.clear();
    study.page = {};
    study.tuning = {};
    study.players = {};
    study.notes.resize(2);
    std::string text = StudyFile::text(study);
    const auto put = [&](const std::string& piece, const std::string& instead) {
        const std::size_t at = text.find(piece);
        ASSERT_NE(at, std::string::npos) << piece;
        text.replace(at, piece.size(), instead);
    };
    put("\"version\": 3", "\"version\": 1");
    put("  \"takes\": [],\n", "");
    put("  \"page\": " + emptyPage + ",\n", "");
    const Result<Study> back = StudyFile::parse(text, "line.study");
    ASSERT_TRUE(back.ok()) << describe(back.error());
    EXPECT_EQ(*back, study);
    EXPECT_NE(StudyFile::text(*back).find("\"version\": 3"), std::string::npos);
}

TEST(StudyFile, DropsChordsBehindTheEndOfABarThatIsShorterThanTheFirst) {
    // As files have it that were written while chords were kept up to the length of the first meter's bar.
    Study study;
    study.page.meters = {{2, {3, 4}}, {3, {5, 4}}};
    study.chart.overrides[2] = parseBars("C7 / F7 G7", {}).front();
    study.chart.overrides[3] = parseBars("C7 / / / F7", {5, 4}).front();
    const Result<Study> read = StudyFile::parse(StudyFile::text(study), "line.study");
    ASSERT_TRUE(read.ok()) << describe(read.error());
    study.chart.overrides[2].chords.pop_back();
    EXPECT_EQ(*read, study) << "G7 stood on the fourth of three beats";
    study.chart.overrides[2].chords.push_back({Beats(4), parseChordSymbol("G7")});
    EXPECT_EQ(refusalOf(StudyFile::text(study)).where, "overrides[0].chords[2].at");
}

TEST(StudyFile, ReadsWhatVersionTwoWroteAndNothingNewerInIt) {
    Study study = fullStudy();
    study.page = {};
    study.tuning = {};
    study.players = {};
    study.notes.resize(2);
    const auto asVersionTwo = [](const Study& written) {
        std::string text = StudyFile::text(written);
        const std::string page = "  \"page\": " + emptyPage + ",\n";
        text.erase(text.find(page), page.size());
        return text.replace(text.find("\"version\": 3"), 12, "\"version\": 2");
    };
    const Result<Study> back = StudyFile::parse(asVersionTwo(study), "line.study");
    ASSERT_TRUE(back.ok()) << describe(back.error());
    EXPECT_EQ(*back, study);
    const Study newer = toggleMark(study, study.notes.front().id, &Phrasing::vibrato);
    EXPECT_EQ(refusalOf(asVersionTwo(newer)).where, "notes[0]");
    EXPECT_EQ(refusalOf(asVersionTwo(pinString(study, study.notes.front().id, 2))).where, "notes[0]");
    EXPECT_FALSE(StudyFile::parse(asVersionTwo(setTuning(study, {{40}, 12, 0})), "line.study"));
    EXPECT_FALSE(StudyFile::parse(asVersionTwo(setPlayers(study, {{}, StereoPlace::Left})), "line.study"));
    EXPECT_EQ(refusalOf(asVersionTwo(setDivision(study, -5, BeatDivision::Five))).where,
              "divisions[0].parts");
}

TEST(StudyFile, SaysNothingOfAnInstrumentThatIsAsUsual) {
    const std::string text = StudyFile::text(eightBarsAt120());
    EXPECT_EQ(text.find("tuning"), std::string::npos);
    EXPECT_EQ(StudyFile::parse(text, "line.study")->tuning, StringTuning{});
}

TEST(StudyFile, KeepsAPickupThatTheUserMadeAndRefusesOneThatNoPageCanHave) {
    const std::string text = StudyFile::text(setPickup(fullStudy(), Beats(3, 2)));
    EXPECT_EQ(StudyFile::parse(text, "line.study")->page.pickup, Beats(3, 2));
    EXPECT_EQ(StudyFile::text(fullStudy()).find("pickup\":"), std::string::npos);
    for (const char* wrong : {"5", "0", "-1", "\"1/3\"", "\"1/64\""}) {
        std::string damaged = text;
        damaged.replace(damaged.find("\"pickup\":\"3/2\"") + 9, 5, wrong);
        EXPECT_EQ(refusalOf(damaged).where, "page.pickup") << wrong;
    }
}

TEST(StudyFile, SaysNothingOfPlayersNobodyNamed) {
    EXPECT_EQ(StudyFile::text(eightBarsAt120()).find("players"), std::string::npos);
    for (const Players& players :
         {Players{PitchRange{44, 82}, StereoPlace::Unknown}, Players{std::nullopt, StereoPlace::Centre},
          Players{Instrument::Voice, {}}}) {
        const Study study = setPlayers(eightBarsAt120(), players);
        EXPECT_EQ(StudyFile::parse(StudyFile::text(study), "line.study")->players, players);
    }
}

TEST(StudyFile, BeatsStayExact) {
    const std::string text = StudyFile::text(fullStudy());
    EXPECT_NE(text.find(R"("onset":"-1/3")"), std::string::npos);
    EXPECT_NE(text.find(R"("onset":"7/2","length":5)"), std::string::npos);
    EXPECT_EQ(StudyFile::parse(text, "")->notes.front().onset, Beats(-1, 3));
}

TEST(StudyFile, BrokenJsonIsRefusedWithLineAndColumn) {
    const Error error = refusalOf("{\n  \"format\": \"earwright-study\",\n  \"version\": ?\n}");
    EXPECT_EQ(error.kind, ErrorKind::Malformed);
    EXPECT_EQ(error.where, "line 3, column 14");
    EXPECT_NE(error.message.find("line.study"), std::string::npos);
    std::string half = StudyFile::text(fullStudy());
    half.resize(half.size() / 2);
    EXPECT_TRUE(refusalOf(half).where.starts_with("line "));
    EXPECT_EQ(refusalOf("").where, "line 1, column 1");
}

struct Damage {
    std::string piece;
    std::string instead;
    std::string where;
};

TEST(StudyFile, AWrongValueIsRefusedWithItsPlace) {
    const std::vector<Damage> damages{
        {R"("onset":"7/2")", R"("onset":"7/0")", "notes[1].onset"},
        {R"("onset":"7/2")", R"("onset":3.5)", "notes[1].onset"},
        {R"("onset":"7/2")", R"("onset":"7/2222")", "notes[1].onset"},
        {R"("onset":"7/2")", R"("onset":"9999999999/2")", "notes[1].onset"},
        {R"("length":5)", R"("length":0)", "notes[1].length"},
        {R"("length":5)", R"("length":"-1/2")", "notes[1].length"},
        {R"("midi":60)", R"("midi":1e300)", "notes[1].midi"},
        {R"("midi":60)", R"("midi":"60")", "notes[1].midi"},
        {R"("midi":60)", R"("midi":null)", "notes[1].midi"},
        {R"("loudness":0.6)", R"("loudness":1.5)", "notes[1].loudness"},
        {R"("spelling":"Eb")", R"("spelling":"E")", "notes[0].spelling"},
        {R"("slideIn":"below")", R"("slideIn":"sideways")", "notes[0].slideIn"},
        {R"("graceNotes":[62,61])", R"("graceNotes":[62,6])", "notes[0].graceNotes[1]"},
        {R"("trill":2)", R"("trill":5)", "notes[0].trill"},
        {R"("ghosted":true)", R"("ghosted":1)", "notes[1].ghosted"},
        {R"("ghosted":true)", R"("gosted":true)", "notes[1]"},
        {R"("slurBy":"pullOff",)", R"("slurBy":"picked",)", "notes[2].slurBy"},
        {R"("slurred":true,"slidesToNext":true)", R"("slidesToNext":true)", "notes[2].slurBy"},
        {R"("pickedInSlur":true)", R"("pickedInSlur":true,"slurred":true)", "notes[3].pickedInSlur"},
        {R"("quarterTones":3)", R"("quarterTones":9)", "notes[2].bend.quarterTones"},
        {R"("string":4)", R"("string":9)", "notes[3].string"},
        {R"("capo":2)", R"("capo":24)", "tuning"},
        {R"("strings":[64,)", R"("strings":[640,)", "tuning.strings[0]"},
        {R"("fifths":3)", R"("fifths":8)", "page.keys[1].fifths"},
        {R"({"bar":3,"beatsPerBar":6)", R"({"bar":1,"beatsPerBar":6)", "page.meters[0].bar"},
        {R"("ratio":1.25)", R"("ratio":0.5)", "page.swings[1].ratio"},
        {R"("noteValue":16)", R"("noteValue":12)", "page.swings[1].noteValue"},
        {R"("quartersPerMinute":132.5)", R"("quartersPerMinute":0)", "page.tempos[0].quartersPerMinute"},
        {R"("level":"sfz")", R"("level":"loud")", "page.dynamics[1].level"},
        {R"({"at":"17/2",)", R"({"at":0,)", "page.dynamics[1]"},
        {R"("end":"15/4")", R"("end":2)", "page.hairpins[0].end"},
        {R"("text":"cue")", R"("text":"")", "page.texts[1].text"},
        {R"("endingBars":1)", R"("endingBars":4)", "page.repeats[0].lastBar"},
        {R"("file":"2031)", R"("file":"../2031)", "takes[0].file"},
        {R"("file":"2031-05-04 18.22.07.wav")", R"("file":"..")", "takes[0].file"},
        {R"("recorded":"2031)", R"("recorded":"31)", "takes[0].recorded"},
        {R"("begin":90000,)", R"("begin":180000,)", "takes[1].end"},
        {R"("name":"with the pickup",)", R"("name":"","chosen":true,)", "takes[1].chosen"},
        {R"("kind":"phrase")", R"("kind":"verse")", "spans[0].kind"},
        {R"("end":3.1)", R"("end":-3.1)", "spans[0].end"},
        {R"("begin":-0.25)", R"("begin":-1e7)", "spans[0].begin"},
        {R"("symbol":"Eb7")", R"("symbol":"Eb7 Ab7")", "form[1][0].symbol"},
        {R"({"at":3,"symbol":"Bb7alt"})", R"({"at":4,"symbol":"Bb7alt"})", "form[3][1].at"},
        {R"({"at":3,"symbol":"Bb7alt"})", R"({"at":"1/257","symbol":"Bb7alt"})", "form[3][1].at"},
        {R"({"at":3,"symbol":"Bb7alt"})", R"({"at":0,"symbol":"Bb7alt"})", "form[3][1].at"},
        {R"("position":8)", R"("position":4)", "beatMarks[2]"},
        {R"("position":8)", R"("position":"17/0")", "beatMarks[2].position"},
        {R"("position":8,"time":4.0)", R"("position":8,"time":2.01)", "beatMarks[2]"},
        {R"("position":8,"time":4.0)", R"("position":900000,"time":4.0)", "beatMarks[2]"},
        {R"("parts":3)", R"("parts":13)", "divisions[1].parts"},
        {R"("beat":0)", R"("beat":-1)", "divisions[1].beat"},
        {R"("speed":0.55)", R"("speed":0.05)", "practice.speed"},
        {R"("cents":35)", R"("cents":101)", "practice.cents"},
        {R"("help":"howFar")", R"("help":"all")", "earRecord[0].places[0].help"},
        {R"("unwritten":false,"mistake":"octave")", R"("unwritten":false,"mistake":"wrong")",
         "earRecord[0].places[0].mistake"},
        {R"("day":"2031-05-06")", R"("day":"2031-05-32")", "earRecord[0].found[1].day"},
        {R"("interval":-3)", R"("interval":-300)", "earRecord[0].found[1].interval"},
        {R"("line":"tenor")", R"("line":"kazoo")", "players.line"},
        {R"("line":"tenor")", R"("range":{"lowest":60,"highest":60})", "players.range.highest"},
        {R"("line":"tenor")", R"("line":"tenor","range":{"lowest":60,"highest":61})", "players.range"},
        {R"("bass":"left")", R"("bass":"behind")", "players.bass"},
        {R"("beatUnit":4)", R"("beatUnit":3)", "meter.beatUnit"},
        {R"("contentHash":"0)", R"("contentHash":")", "recording.contentHash"},
        {R"("path":"line.flac")", R"("path":"line\u0000.flac")", "recording.path"},
        {R"("nextId": )", R"("nextId": -)", "nextId"},
        {R"("title")", R"("heading")", ""},
        {R"("id":1)", R"("id":2)", "spans[2].id"},
        {R"("id":1)", R"("id":900)", "spans[1].id"},
        {R"("id":1)", R"("id":18446744073709551615)", "spans[1].id"},
    };
    for (const Damage& damage : damages) {
        const Error error = refusalOf(textWith(damage.piece, damage.instead));
        EXPECT_EQ(error.kind, ErrorKind::Malformed) << damage.instead;
        EXPECT_EQ(error.where, damage.where) << damage.instead << ": " << error.message;
    }
}

TEST(StudyFile, AMemberThatStandsTwiceIsRefused) {
    EXPECT_EQ(refusalOf(textWith(R"("midi":60)", R"("midi":60,"midi":61)")).where, "notes[1].midi");
}

TEST(StudyFile, DeepNestingHugeNumbersAndWrongTextAreRefusedSafely) {
    EXPECT_EQ(refusalOf(std::string(1'000'000, '[')).kind, ErrorKind::Malformed);
    EXPECT_NE(refusalOf(textWith(R"("speed":0.55)", R"("speed":1e999)")).message.find("too large"),
              std::string::npos);
    EXPECT_EQ(refusalOf(textWith(R"("speed":0.55)", R"("speed":NaN)")).kind, ErrorKind::Malformed);
    EXPECT_TRUE(refusalOf(textWith("picked?", "picked\xff")).where.starts_with("line "));
    EXPECT_EQ(refusalOf(StudyFile::text({}) + "{}").kind, ErrorKind::Malformed);
}

TEST(StudyFile, WhatIsNoStudyOrANewerOneIsToldApart) {
    EXPECT_EQ(refusalOf("[]").kind, ErrorKind::Malformed);
    EXPECT_EQ(refusalOf("{}").where, "format");
    const Error newer = refusalOf(R"({"format": "earwright-study", "version": 4, "anything": {}})");
    EXPECT_EQ(newer.kind, ErrorKind::Unsupported);
    EXPECT_EQ(newer.where, "version");
    EXPECT_EQ(refusalOf(R"({"format": "earwright-study", "version": 0})").kind, ErrorKind::Malformed);
    EXPECT_EQ(refusalOf(R"({"format": "earwright-study", "version": "1"})").kind, ErrorKind::Malformed);
}

TEST(StudyFile, ListsInAnyOrderAreReadIntoOrder) {
    Study shuffled = fullStudy();
    std::swap(shuffled.notes.front(), shuffled.notes.back());
    std::swap(shuffled.spans.front(), shuffled.spans.back());
    EXPECT_EQ(*StudyFile::parse(StudyFile::text(shuffled), ""), fullStudy());
}

// Seeded, so that a failure can be repeated: bytes changed, removed and doubled anywhere in a good file.
TEST(StudyFile, NoDamageToTheBytesMakesReadingFailBadly) {
    const std::string good = StudyFile::text(fullStudy());
    std::mt19937 random(5);
    int refused = 0;
    for (int round = 0; round < 3'000; ++round) {
        std::string text = good;
        for (auto changes = 1 + random() % 4; changes > 0; --changes) {
            const std::size_t at = random() % text.size();
            const auto length = std::min<std::size_t>(1 + random() % 30, text.size() - at);
            switch (random() % 4) {
            case 0:
                text[at] = static_cast<char>(random() % 256);
                break;
            case 1:
                text.erase(at, length);
                break;
            case 2:
                text.insert(at, text.substr(random() % text.size(), length));
                break;
            default:
                text[at] = "0123456789-+.eE\"{}[],:/"[random() % 23];
            }
            if (text.empty()) break;
        }
        const Result<Study> study = StudyFile::parse(text, "line.study");
        if (!study) {
            ++refused;
            EXPECT_FALSE(study.error().message.empty());
            continue;
        }
        // What was accepted is a study like any other.
        EXPECT_EQ(*StudyFile::parse(StudyFile::text(*study), ""), *study);
        for (const Note& note : study->notes)
            static_cast<void>(study->chordAt(note.onset));
    }
    EXPECT_GT(refused, 1'000);
    EXPECT_LT(refused, 3'000);
}

TEST(StudyFile, SavesAndOpens) {
    const TemporaryFolder folder;
    ASSERT_TRUE(StudyFile::write(fullStudy(), folder / "line.study").ok());
    EXPECT_EQ(*StudyFile::read(folder / "line.study"), fullStudy());
    EXPECT_EQ(folder.count(), 1u);
}

TEST(StudyFile, WhatCannotBeReadIsSaidAndNeverOverwritten) {
    const TemporaryFolder folder;
    EXPECT_EQ(StudyFile::read(folder / "none.study").error().kind, ErrorKind::NotFound);
    EXPECT_EQ(StudyFile::read(folder.path()).error().kind, ErrorKind::Unreadable);
    fill(folder / "damaged.study", "{ \"format\": ");
    const Error error = StudyFile::read(folder / "damaged.study").error();
    EXPECT_EQ(error.kind, ErrorKind::Malformed);
    EXPECT_NE(error.message.find("damaged.study"), std::string::npos);
    EXPECT_EQ(contentOf(folder / "damaged.study"), "{ \"format\": ");
}

TEST(StudyFile, AFileFarTooLargeIsNotReadIn) {
    const TemporaryFolder folder;
    fill(folder / "film.study", "{");
    std::filesystem::resize_file(folder / "film.study", std::uintmax_t{1} << 33);
    EXPECT_EQ(StudyFile::read(folder / "film.study").error().kind, ErrorKind::Malformed);
}

TEST(StudyFile, AStudyThatCouldNotBeReadBackIsNotWritten) {
    const TemporaryFolder folder;
    ASSERT_TRUE(StudyFile::write(fullStudy(), folder / "line.study").ok());
    Study spoilt = fullStudy();
    spoilt.notes.front().loudness = 7;
    const Result<Done> done = StudyFile::write(spoilt, folder / "line.study");
    ASSERT_FALSE(done.ok());
    EXPECT_EQ(done.error().kind, ErrorKind::NotWritable);
    EXPECT_EQ(done.error().where, "notes[0].loudness");
    EXPECT_EQ(*StudyFile::read(folder / "line.study"), fullStudy());
}

TEST(StudyFile, AStudyThatWouldLoseAPartIsNotWritten) {
    const TemporaryFolder folder;
    ASSERT_TRUE(StudyFile::write(fullStudy(), folder / "line.study").ok());
    // A bar of three beats has no fourth one: reading drops the chord on it.
    Study longer;
    longer.page.meters = {{2, {3, 4}}};
    longer.chart.overrides[2] = parseBars("C7 / F7 G7", {}).front();
    const Result<Done> done = StudyFile::write(longer, folder / "line.study");
    ASSERT_FALSE(done.ok());
    EXPECT_EQ(done.error().kind, ErrorKind::NotWritable);
    EXPECT_EQ(done.error().where, "overrides");
    EXPECT_NE(done.error().message.find("line.study was not written"), std::string::npos);
    EXPECT_EQ(*StudyFile::read(folder / "line.study"), fullStudy());
    // Nor does a title that is no UTF-8 hide it.
    longer.title = "caf\xe9";
    EXPECT_FALSE(StudyFile::checkedText(longer, "line.study").ok());
    longer.chart.overrides[2].chords.pop_back();
    EXPECT_EQ(*StudyFile::checkedText(longer, "line.study"), StudyFile::text(longer));
}

TEST(StudyFile, TextThatIsNotUtf8DoesNotKeepAStudyFromBeingSaved) {
    const TemporaryFolder folder;
    Study study = fullStudy();
    study.title = "caf\xe9";
    ASSERT_TRUE(StudyFile::write(study, folder / "line.study").ok());
    EXPECT_EQ(StudyFile::read(folder / "line.study")->title, "caf\xef\xbf\xbd");
}

} // namespace
} // namespace earwright
