#include "core/exchange/MusicXmlReading.h"

#include "core/exchange/MusicXml.h"
#include "core/study/StudyFile.h"

#include <gtest/gtest.h>
#include <random>

namespace earwright {
namespace {

std::string note(const std::string& step, int octave, int duration, const std::string& more = "",
                 const std::string& before = "") {
    return "<note>" + before + "<pitch><step>" + step + "</step><octave>" + std::to_string(octave) +
           "</octave></pitch><duration>" + std::to_string(duration) + "</duration>" + more + "</note>";
}

std::string scoreOf(const std::string& measures, const std::string& more = "") {
    return "<?xml version=\"1.0\"?><score-partwise version=\"4.0\"><part-list/><part id=\"P1\">" + measures +
           "</part>" + more + "</score-partwise>";
}

const std::string fourFour =
    "<attributes><divisions>2</divisions><time><beats>4</beats><beat-type>4</beat-type></time></attributes>";

Imported read(const std::string& text) {
    const auto imported = readMusicXml(text, "line.musicxml");
    EXPECT_TRUE(imported.ok()) << (imported ? "" : describe(imported.error()));
    if (!imported) return {};
    const auto back = StudyFile::parse(StudyFile::text(imported->study), "line.study");
    EXPECT_TRUE(back.ok()) << describe(back.error());
    return *imported;
}

Error refusalOf(const std::string& text) {
    const auto imported = readMusicXml(text, "line.musicxml");
    EXPECT_FALSE(imported.ok());
    return imported ? Error{ErrorKind::Device, "", ""} : imported.error();
}

Note plainNote(Study& study, int midi, const Beats& onset, const Beats& length) {
    return {NoteId{study.nextId++}, onset, length, Pitch{midi, {}}, 0.6, {}};
}

TEST(MusicXmlReading, ReadsBackTheLineThatIsWritten) {
    Study study;
    study.title = "Line";
    study.beatMap = BeatMap({{Beats(0), Seconds(0)}, {Beats(8), Seconds(4)}});
    study.notes = {
        plainNote(study, 65, Beats(-1, 2), Beats(1, 2)), plainNote(study, 70, Beats(0), Beats(1, 3)),
        plainNote(study, 69, Beats(1, 3), Beats(1, 3)),  plainNote(study, 67, Beats(2, 3), Beats(1, 3)),
        plainNote(study, 63, Beats(1), Beats(1, 5)),     plainNote(study, 65, Beats(6, 5), Beats(4, 5)),
        plainNote(study, 58, Beats(5, 2), Beats(5, 2)),  plainNote(study, 62, Beats(5), Beats(3)),
        plainNote(study, 66, Beats(5), Beats(3))};
    study.chart.overrides[1] = parseBars("Bb7 / / Fm7b5", {}).front();
    const auto text = musicXml(study);
    ASSERT_TRUE(text.ok());
    const Imported back = read(*text);
    EXPECT_TRUE(back.leftOut.empty());
    EXPECT_EQ(back.study.title, "Line");
    EXPECT_EQ(back.study.notes, study.notes) << "ties are one note again, and plain spellings need no word";
    ASSERT_EQ(back.study.barChords(1).chords.size(), 2u);
    for (std::size_t i = 0; i < 2; ++i) {
        EXPECT_EQ(back.study.barChords(1).chords[i].withinBar, study.barChords(1).chords[i].withinBar);
        EXPECT_EQ(back.study.barChords(1).chords[i].symbol.chord, study.barChords(1).chords[i].symbol.chord);
    }
    EXPECT_NEAR(back.study.beatMap.seconds(Beats(8)).value, 4, 0.01);
}

TEST(MusicXmlReading, ReadsBackPhrasingKeysAndSwing) {
    Study study;
    for (int i = 0; i < 12; ++i)
        study.notes.push_back(plainNote(study, 60 + i, Beats(3 * i, 2), Beats(3, 2)));
    const auto at = [&](std::size_t i) -> Phrasing& { return study.notes[i].phrasing; };
    at(0).slidesToNext = at(0).staccato = true;
    at(1).slurred = true;
    at(1).slurBy = SlurBy::PullOff;
    at(2).bend = Bend{3, BendShape::PrebentDown};
    at(3).bend = Bend{4, BendShape::UpAndDown};
    at(4).bend = Bend{2, BendShape::Up};
    at(5).vibrato = at(5).tenuto = true;
    at(6).turn = Turn::FromBelow;
    at(7).mordent = Mordent::Upper;
    at(8).fall = at(8).scoop = true;
    at(9).letRing = at(9).accented = true;
    at(10).slideIn = SlideFrom::Above;
    at(10).slideOut = SlideTo::Up;
    at(11).graceNotes = {70, 72};
    at(11).trill = 1;
    study.page.keys = {{1, {-2, Mode::Major}}, {3, {-1, Mode::Minor}}};
    study.page.swings = {{Beats(0), {1.75, 8}}, {Beats(8), {}}};
    const auto text = musicXml(study);
    ASSERT_TRUE(text.ok());
    const Imported back = read(*text);
    ASSERT_EQ(back.study.notes.size(), study.notes.size());
    for (std::size_t i = 0; i < study.notes.size(); ++i)
        EXPECT_EQ(back.study.notes[i], study.notes[i]) << i;
    EXPECT_EQ(back.study.page, study.page);
    EXPECT_TRUE(back.leftOut.empty());
}

// The attributes of <accidental> in the MusicXML 4.0 schema (cautionary, parentheses).
TEST(MusicXmlReading, ReadsBackANoteWithAReminderAsItIs) {
    Study study;
    study.notes = {plainNote(study, 70, Beats(0), Beats(4)), plainNote(study, 71, Beats(4), Beats(2)),
                   plainNote(study, 71, Beats(6), Beats(2))};
    study.notes[0].pitch.spelling = PitchName{Step::B, -1};
    const auto text = musicXml(study);
    ASSERT_TRUE(text);
    const std::string reminder = R"(<accidental cautionary="yes" parentheses="yes">natural</accidental>)";
    const auto at = text->find(reminder);
    ASSERT_NE(at, std::string::npos);
    EXPECT_EQ(text->find(reminder, at + 1), std::string::npos) << "once in the bar";
    const Imported back = read(*text);
    ASSERT_EQ(back.study.notes.size(), 3u);
    for (std::size_t i = 0; i < 3; ++i)
        EXPECT_EQ(back.study.notes[i].pitch.midi, study.notes[i].pitch.midi);
    EXPECT_TRUE(back.leftOut.empty());
}

TEST(MusicXmlReading, ReadsBackWhatItSaysOfSwingAndTempoToReadersWithoutThem) {
    Study study;
    study.meter = {12, 8};
    study.beatMap = BeatMap({{Beats(0), Seconds(0)}, {Beats(12), Seconds(2)}});
    study.notes = {plainNote(study, 65, Beats(0), Beats(3)), plainNote(study, 67, Beats(12), Beats(12))};
    study.page.tempos = {{Beats(0), "", 137.0}};
    study.page.swings = {{Beats(0), {2, 16}}, {Beats(12), {}}};
    const auto text = musicXml(study);
    ASSERT_TRUE(text.ok());
    EXPECT_NE(text->find("Swing 16ths, 2:1"), std::string::npos);
    EXPECT_NE(text->find("Even 8ths"), std::string::npos);
    EXPECT_NE(text->find("<beat-unit-dot"), std::string::npos);
    EXPECT_NE(text->find("<per-minute>91.333333<"), std::string::npos) << "dotted quarters";
    const Study back = read(*text).study;
    EXPECT_EQ(back.page.tempos, study.page.tempos);
    EXPECT_EQ(back.page.swings, study.page.swings);
    EXPECT_TRUE(back.page.texts.empty());
}

TEST(MusicXmlReading, TakesNoWordForANumber) {
    const auto bent = [](const std::string& far) {
        return note("A", 4, 1,
                    "<notations><technical><bend><bend-alter>" + far +
                        "</bend-alter></bend></technical></notations>");
    };
    const Imported imported = read(scoreOf(
        "<measure number=\"1\">" + fourFour +
        "<direction><sound><swing><first>2</first><second>1</second></swing></sound></direction>" +
        bent("nan") +
        "<direction><sound><swing><first>inf</first><second>inf</second></swing></sound></direction>" +
        bent("inf") + bent("some") + "</measure>"));
    ASSERT_EQ(imported.study.notes.size(), 3u);
    for (const Note& each : imported.study.notes)
        EXPECT_EQ(each.phrasing.bend, (Bend{1, BendShape::Up})) << "the least that is told";
    ASSERT_EQ(imported.study.page.swings.size(), 2u);
    EXPECT_TRUE(imported.study.page.swings[1].swing.isEven());
}

// A chord under a slur is slurred as a whole; the slur of a grace note says which note of a chord it leads
// to.
TEST(MusicXmlReading, ReadsSlursOfChordsAndToTheirNotes) {
    const auto in = [](const std::string& notations) { return "<notations>" + notations + "</notations>"; };
    const auto above = [&](const std::string& text) { return "<note><chord/>" + text.substr(6); };
    const Imported imported =
        read(scoreOf("<measure number=\"1\">" + fourFour + note("C", 4, 2, in("<slur type=\"start\"/>")) +
                     above(note("G", 4, 2, "")) + note("D", 4, 2, in("<slur type=\"stop\"/>")) +
                     above(note("A", 4, 2, "")) +
                     "<note><grace/><pitch><step>B</step><octave>3</octave></pitch><voice>1</voice>" +
                     in("<slur type=\"start\" number=\"2\"/>") + "</note>" + note("C", 4, 2, "") +
                     above(note("G", 4, 2, in("<slur type=\"stop\" number=\"2\"/>"))) + "</measure>"));
    const std::vector<Note>& notes = imported.study.notes;
    ASSERT_EQ(notes.size(), 6u);
    for (const std::size_t i : {0u, 1u, 4u, 5u})
        EXPECT_FALSE(notes[i].phrasing.slurred) << i;
    EXPECT_TRUE(notes[2].phrasing.slurred && notes[3].phrasing.slurred);
    EXPECT_TRUE(notes[4].phrasing.graceNotes.empty());
    EXPECT_EQ(notes[5].phrasing.graceNotes, std::vector{59});
}

TEST(MusicXmlReading, ReadsHowNotesArePlayed) {
    const auto in = [](const std::string& notations) { return "<notations>" + notations + "</notations>"; };
    const Imported imported = read(scoreOf(
        "<measure number=\"1\">" + fourFour + note("C", 5, 1, in("<slur type=\"start\"/>")) +
        note("D", 5, 1,
             in("<slur type=\"stop\"/><technical><hammer-on type=\"stop\">H</hammer-on></technical>")) +
        "<note><grace/><pitch><step>E</step><octave>5</octave></pitch></note>" +
        note("F", 5, 1, in("<articulations><staccato/><accent/></articulations>")) +
        note("G", 5, 1, in("<ornaments><inverted-turn/></ornaments>")) +
        note("A", 4, 1, in("<technical><bend><bend-alter>2</bend-alter></bend></technical>")) +
        note("B", 4, 1, in("<slide type=\"start\"/>")) +
        note("C", 5, 2, "<notehead parentheses=\"yes\">normal</notehead>" + in("<slide type=\"stop\"/>")) +
        "</measure>"));
    const std::vector<Note>& notes = imported.study.notes;
    ASSERT_EQ(notes.size(), 7u);
    EXPECT_EQ(notes[0].phrasing, Phrasing{});
    EXPECT_TRUE(notes[1].phrasing.slurred);
    EXPECT_EQ(notes[1].phrasing.slurBy, SlurBy::HammerOn);
    EXPECT_EQ(notes[2].phrasing.graceNotes, std::vector{76});
    EXPECT_TRUE(notes[2].phrasing.staccato && notes[2].phrasing.accented && !notes[2].phrasing.slurred);
    EXPECT_EQ(notes[3].phrasing.turn, Turn::FromBelow);
    EXPECT_EQ(notes[4].phrasing.bend, (Bend{4, BendShape::Up}));
    EXPECT_TRUE(notes[5].phrasing.slidesToNext);
    EXPECT_TRUE(notes[6].phrasing.ghosted);
}

TEST(MusicXmlReading, ReadsPickupMetersKeysSwingDynamicsAndRepeats) {
    const Imported imported = read(
        scoreOf("<measure number=\"0\" "
                "implicit=\"yes\"><attributes><divisions>2</divisions><key><fifths>-2</fifths></key>"
                "<time><beats>4</beats><beat-type>4</beat-type></time></attributes>" +
                note("F", 4, 2) +
                "</measure><measure number=\"1\"><barline><repeat direction=\"forward\"/></barline>"
                "<direction><direction-type><words>Easy</words></"
                "direction-type><direction-type><metronome><beat-unit>quarter"
                "</beat-unit><per-minute>132</per-minute></metronome></direction-type><sound "
                "tempo=\"132\"><swing><first>2"
                "</first><second>1</second></swing></sound></direction>"
                "<direction><direction-type><dynamics><mf/></dynamics></direction-type></direction>" +
                note("B", 4, 8) +
                "</measure><measure number=\"2\"><attributes><time><beats>6</beats><beat-type>8</beat-type>"
                "</time></attributes>" +
                note("C", 5, 6) +
                "<barline><repeat direction=\"backward\"/></barline></measure>"
                "<measure number=\"3\">" +
                note("D", 5, 6) + "</measure>"));
    const Study& study = imported.study;
    ASSERT_EQ(study.notes.size(), 4u);
    EXPECT_EQ(study.notes[0].onset, Beats(-1)) << "a pickup";
    EXPECT_EQ(study.page.pickup, Beats(1)) << "as long as the file has it";
    EXPECT_EQ(study.notes[1].onset, Beats(0));
    EXPECT_EQ(study.notes[3].onset, Beats(7)) << "four quarters, then three for 6/8";
    EXPECT_EQ(study.page.keyAt(1).fifths, -2);
    ASSERT_EQ(study.page.meters.size(), 1u);
    EXPECT_EQ(study.page.meters.front(), (MeterChange{2, {6, 8}}));
    EXPECT_EQ(study.page.swingAt(Beats(0)), (Swing{2, 8}));
    ASSERT_EQ(study.page.tempos.size(), 1u);
    EXPECT_EQ(study.page.tempos.front(), (TempoMark{Beats(0), "Easy", 132.0}));
    ASSERT_EQ(study.page.dynamics.size(), 1u);
    EXPECT_EQ(study.page.repeats, (std::vector<Repeat>{{1, 2, 2, 0}}));
}

TEST(MusicXmlReading, APickupOfAnEighthAloneComesBackAsLongAsItWas) {
    Study study;
    study.notes = {{NoteId{1}, Beats(-1, 2), Beats(1, 2), Pitch{60, {}}, 0.6, {}},
                   {NoteId{2}, Beats(0), Beats(4), Pitch{62, {}}, 0.6, {}}};
    study.page.pickup = Beats(1, 2);
    const Imported back = read(*musicXml(study));
    ASSERT_EQ(back.study.notes.size(), 2u);
    EXPECT_EQ(back.study.page.pickup, Beats(1, 2));
    EXPECT_EQ(back.study.notes.front().onset, Beats(-1, 2));
    EXPECT_EQ(back.study.notes.front().length, Beats(1, 2));
}

TEST(MusicXmlReading, TakesOnePartAtConcertPitchAndSaysWhatItLeftOut) {
    const std::string second =
        "<part id=\"P2\"><measure number=\"1\">" + note("C", 3, 8) + "</measure></part>";
    const Imported imported = read(scoreOf(
        "<measure "
        "number=\"1\"><attributes><divisions>2</divisions><key><fifths>2</fifths></"
        "key><transpose><chromatic>-2"
        "</chromatic></transpose></attributes>" +
            note("D", 5, 8, "<voice>1</voice><lyric><text>oh</text></lyric>") +
            "<backup><duration>8</duration></backup>" + note("F", 4, 8, "<voice>2</voice>") + "</measure>",
        second));
    ASSERT_EQ(imported.study.notes.size(), 1u);
    EXPECT_EQ(imported.study.notes.front().pitch.midi, 72) << "D on a B flat trumpet sounds C";
    EXPECT_EQ(imported.study.page.keyAt(1).fifths, 0);
    ASSERT_EQ(imported.leftOut.size(), 3u);
    EXPECT_TRUE(imported.leftOut[0].starts_with("The part part 1 was taken; another part"));
    EXPECT_TRUE(imported.leftOut[1].starts_with("Other voices"));
    EXPECT_TRUE(imported.leftOut[2].starts_with("Words that are sung"));
}

TEST(MusicXmlReading, RefusesWhatIsMadeToHarmAndWhatIsNoScore) {
    EXPECT_NE(refusalOf("<?xml version=\"1.0\"?><!DOCTYPE a [<!ENTITY b \"cc\"><!ENTITY d \"&b;&b;&b;\">]>"
                        "<score-partwise>&d;</score-partwise>")
                  .message.find("entities"),
              std::string::npos);
    std::string deep;
    for (int i = 0; i < 200'000; ++i)
        deep += "<a>";
    EXPECT_NE(refusalOf(deep).message.find("nested"), std::string::npos);
    std::string many = "<score-partwise>";
    for (int i = 0; i < 1'100'000; ++i)
        many += "<a/>";
    EXPECT_NE(refusalOf(many).message.find("million"), std::string::npos);
    EXPECT_EQ(refusalOf(std::string(largestMusicXmlBytes + 1, ' ')).kind, ErrorKind::Malformed);
    EXPECT_EQ(refusalOf("").kind, ErrorKind::Malformed);
    EXPECT_EQ(refusalOf("<html/>").kind, ErrorKind::Malformed);
    EXPECT_EQ(refusalOf("<score-timewise/>").kind, ErrorKind::Malformed);
    const std::string whole = scoreOf("<measure>" + fourFour + note("C", 4, 8) + "</measure>");
    ASSERT_TRUE(readMusicXml(whole, "").ok());
    EXPECT_FALSE(refusalOf(whole.substr(0, whole.size() / 2)).where.empty());
    EXPECT_EQ(refusalOf(scoreOf("<measure>" + fourFour + "</measure>")).kind, ErrorKind::Malformed)
        << "no notes";
}

TEST(MusicXmlReading, TheUsualDocumentTypeDoesNoHarm) {
    read("<?xml version=\"1.0\"?><!DOCTYPE score-partwise PUBLIC \"-//Recordare//DTD MusicXML 4.0 "
         "Partwise//EN\" "
         "\"http://www.musicxml.org/dtds/partwise.dtd\">" +
         scoreOf("<measure>" + fourFour + note("C", 4, 8) + "</measure>").substr(21));
}

TEST(MusicXmlReading, NoDamageMakesReadingFailBadly) {
    const std::string good =
        scoreOf("<measure number=\"1\">" + fourFour + note("C", 5, 2) + note("E", 5, 2, "", "<chord/>") +
                note("D", 5, 6, "<tie type=\"start\"/>") + "</measure><measure number=\"2\">" +
                note("D", 5, 8, "<tie type=\"stop\"/>") + "</measure>");
    std::mt19937 random(3);
    int opened = 0;
    for (int round = 0; round < 5'000; ++round) {
        std::string text = good;
        for (auto changes = 1 + random() % 3; changes > 0; --changes)
            text[random() % text.size()] = "0123456789-<>/\"abc"[random() % 18];
        const auto imported = readMusicXml(text, "line.musicxml");
        if (!imported) continue;
        ++opened;
        const auto back = StudyFile::parse(StudyFile::text(imported->study), "line.study");
        EXPECT_TRUE(back.ok()) << describe(back.error()) << "\n" << text;
    }
    EXPECT_GT(opened, 100);
}

} // namespace
} // namespace earwright
