// What is engraved and what is exported must be the same music: both are counted, bar by bar.
#include "core/engraving/RepeatSigns.h"
#include "core/engraving/StaffBar.h"
#include "core/exchange/MusicXml.h"
#include "core/music/PitchNames.h"
#include "tests/core/engraving/SampleLines.h"

#include <gtest/gtest.h>
#include <iterator>
#include <pugixml.hpp>
#include <string>
#include <vector>

namespace earwright {
namespace {

/// "quarter.", "eighth/3", "eighth r": type, dot, tuplet and whether it is a rest.
std::string exportedValues(const pugi::xml_node& measure) {
    std::string text;
    for (const pugi::xml_node note : measure.children("note")) {
        if (note.child("grace") || note.child("chord") || note.child("rest").attribute("measure")) continue;
        text += note.child("type").child_value();
        if (note.child("dot")) text += ".";
        if (const auto tuplet = note.child("time-modification"))
            text += std::string("/") + tuplet.child("actual-notes").child_value();
        if (note.child("rest")) text += " r";
        text += ", ";
    }
    return text;
}

std::string typeName(int denominator) {
    switch (denominator) {
    case 1:
        return "whole";
    case 2:
        return "half";
    case 4:
        return "quarter";
    case 8:
        return "eighth";
    case 32:
        return "32nd";
    default:
        return std::to_string(denominator) + "th";
    }
}

std::string engravedValues(const StaffBar& bar) {
    std::string text;
    for (const StaffPiece& piece : bar.pieces) {
        const NoteValue& value = piece.page.value;
        if (value.denominator == 0) continue;
        text += typeName(value.denominator);
        if (value.dotted) text += ".";
        if (value.tuplet) text += "/" + std::to_string(value.tuplet->actual);
        if (piece.heads.empty()) text += " r";
        text += ", ";
    }
    return text;
}

int exportedAccidentals(const pugi::xml_node& measure) {
    int count = 0;
    for (const pugi::xml_node note : measure.children("note"))
        count += note.child("accidental") ? 1 : 0;
    return count;
}

int engravedAccidentals(const StaffBar& bar) {
    int count = 0;
    for (const StaffPiece& piece : bar.pieces) {
        for (const StaffHead& head : piece.heads)
            count += head.accidental.has_value();
        for (const StaffHead& grace : piece.graces)
            count += grace.accidental.has_value();
    }
    return count;
}

void expectTheSame(const Study& study, const std::string& what) {
    const auto xml = musicXml(study);
    ASSERT_TRUE(xml);
    pugi::xml_document document;
    ASSERT_TRUE(document.load_string(xml->c_str()));
    const auto line = pageLine(study);
    const auto bars = pageBars(line, study.meters(), 12);
    const auto staff = staffBars(study, line, *bars, Reading::Concert, Clef::Treble);
    std::size_t index = 0;
    for (const pugi::xml_node measure : document.child("score-partwise").child("part").children("measure")) {
        // Marks may stand behind the last note; the engraved page leaves them out, the exported keeps them.
        if (index++ >= staff.size()) {
            EXPECT_TRUE(measure.child("note").child("rest").attribute("measure")) << what;
            continue;
        }
        const StaffBar& engraved = staff[index - 1];
        const std::string where = what + ", bar " + std::to_string(engraved.number);
        EXPECT_EQ(engravedValues(engraved), exportedValues(measure)) << where;
        EXPECT_EQ(engravedAccidentals(engraved), exportedAccidentals(measure)) << where;
    }
    EXPECT_GE(index, staff.size());
}

TEST(EngravedAsExported, AreValuesAndAccidentalsOfTheBlues) {
    expectTheSame(bluesChorus(), "blues");
    expectTheSame(phrasedChorus(), "phrased");
}

TEST(EngravedAsExported, AreValuesAndAccidentalsOfChance) {
    for (unsigned seed = 1; seed <= 30; ++seed)
        expectTheSame(chanceStudy(seed, 12), "seed " + std::to_string(seed));
}

/// Two half notes, the second of which is slurred by a hammer-on.
Study slurredTo(int midi) {
    Study study = studyInFour();
    study.notes = {noteAt(study, Beats(0), Beats(2), 40), noteAt(study, Beats(2), Beats(2), midi)};
    study.notes[1].phrasing.slurred = true;
    study.notes[1].phrasing.slurBy = SlurBy::HammerOn;
    return study;
}

struct Marks {
    std::size_t slurs = 0;
    std::size_t hammers = 0;
    friend bool operator==(const Marks&, const Marks&) = default;
};

/// On the staff, in the tablature.
std::vector<Marks> exportedMarks(const Study& study) {
    MusicXmlOptions options;
    options.tablature = true;
    pugi::xml_document document;
    EXPECT_TRUE(document.load_string(musicXml(study, options)->c_str()));
    std::vector<Marks> marks;
    for (const pugi::xml_node part : document.child("score-partwise").children("part"))
        marks.push_back(
            {part.select_nodes(".//slur[@type='start']").size(), part.select_nodes(".//hammer-on").size()});
    return marks;
}

// The lowest string alone has its open note, and the highest ones what is three octaves above it: no finger
// can hammer that on.
TEST(EngravedAsExported, ASlurThatNoStringHoldsIsWholeOnTheStaffAndNotInTheTablature) {
    EXPECT_EQ(exportedMarks(slurredTo(43)), (std::vector<Marks>{{1, 2}, {1, 2}}));
    EXPECT_EQ(exportedMarks(slurredTo(76)), (std::vector<Marks>{{1, 0}, {0, 0}}));
}

/// "1 start, 1 stop": the endings at the bar lines of a measure.
std::string exportedEndings(const pugi::xml_node& measure) {
    std::string text;
    for (const pugi::xml_node barline : measure.children("barline"))
        for (const pugi::xml_node ending : barline.children("ending"))
            text += (text.empty() ? "" : ", ") + std::string(ending.attribute("number").value()) + " " +
                    ending.attribute("type").value();
    return text;
}

std::vector<std::string> exportedEndings(int lastBar) {
    Study study = studyInFour();
    study.page.repeats = {{1, 4, 3, 2}};
    for (int bar = 1; bar <= lastBar; ++bar)
        study.notes.push_back(noteAt(study, study.meter.barStart(bar), Beats(4), 60));
    pugi::xml_document document;
    EXPECT_TRUE(document.load_string(musicXml(study)->c_str()));
    std::vector<std::string> endings;
    for (const pugi::xml_node measure : document.child("score-partwise").child("part").children("measure"))
        endings.push_back(exportedEndings(measure));
    return endings;
}

TEST(EngravedAsExported, BothEndingsAreAsLongAsOnThePage) {
    const std::vector<Repeat> repeats{{1, 4, 3, 2}};
    EXPECT_TRUE(repeatSignsAt(repeats, 6).ending->ends) << "two bars each";
    EXPECT_EQ(exportedEndings(7),
              (std::vector<std::string>{"", "", "1, 2 start", "1, 2 stop", "3 start", "3 discontinue", ""}));
    EXPECT_EQ(exportedEndings(5),
              (std::vector<std::string>{"", "", "1, 2 start", "1, 2 stop", "3 start, 3 discontinue"}))
        << "no longer than the page";
}

/// The measures of the line.
std::vector<pugi::xml_node> measuresOf(const pugi::xml_document& document) {
    const auto measures = document.child("score-partwise").child("part").children("measure");
    return {measures.begin(), measures.end()};
}

// Our page has a final bar line behind the whole line; others draw what the file says.
TEST(EngravedAsExported, TheLastBarLineIsFinal) {
    for (const bool isRepeated : {false, true}) {
        Study study = studyInFour();
        if (isRepeated) study.page.repeats = {{1, 2, 2, 0}};
        study.notes = {noteAt(study, Beats(0), Beats(4), 60), noteAt(study, Beats(4), Beats(4), 60)};
        pugi::xml_document document;
        ASSERT_TRUE(document.load_string(musicXml(study)->c_str()));
        const auto measures = measuresOf(document);
        ASSERT_EQ(measures.size(), 2u);
        const auto last = measures.back().children("barline");
        ASSERT_EQ(std::distance(last.begin(), last.end()), 1);
        EXPECT_STREQ(last.begin()->child_value("bar-style"), "light-heavy");
        EXPECT_STREQ(last.begin()->attribute("location").value(), "right");
        EXPECT_EQ(std::string(measures.front().child("barline").child_value("bar-style")),
                  isRepeated ? "heavy-light" : "");
    }
}

// A sign beside a trill is for what bar and key do not say already, on both.
TEST(EngravedAsExported, TrillsHaveTheSignsOfThePage) {
    for (const int before : {70, 71, 72})
        for (const int semitones : {1, 2}) {
            Study study = studyInFour();
            study.notes = {noteAt(study, Beats(0), Beats(2), before), noteAt(study, Beats(2), Beats(2), 69)};
            study.notes[0].pitch.spelling = plainName(before);
            study.notes[1].phrasing.trill = semitones;
            const auto line = pageLine(study);
            const auto bars =
                staffBars(study, line, *pageBars(line, study.meters(), 1), Reading::Concert, Clef::Treble);
            const auto sign = bars.front().pieces.back().trillAccidental;
            pugi::xml_document document;
            ASSERT_TRUE(document.load_string(musicXml(study)->c_str()));
            const pugi::xml_node note = measuresOf(document).front().last_child().previous_sibling("note");
            const std::string exported =
                note.child("notations").child("ornaments").child_value("accidental-mark");
            EXPECT_EQ(exported, !sign ? "" : *sign == 0 ? "natural" : "flat") << before << ' ' << semitones;
        }
}

// They are under a beam and slurred to their note.
TEST(EngravedAsExported, GraceNotesHangTogetherWithTheirNote) {
    for (const std::vector<int>& graces : {std::vector{69}, {69, 71}, {69, 71, 70}}) {
        Study study = studyInFour();
        study.notes = {noteAt(study, Beats(0), Beats(4), 72)};
        study.notes[0].phrasing.graceNotes = graces;
        pugi::xml_document document;
        ASSERT_TRUE(document.load_string(musicXml(study)->c_str()));
        std::string beams, slurs;
        for (const pugi::xml_node note : measuresOf(document).front().children("note")) {
            for (const pugi::xml_node beam : note.children("beam"))
                beams += beam.child_value() + std::string(" ");
            const pugi::xml_node slur = note.child("notations").child("slur");
            slurs += slur ? slur.attribute("type").value() + std::string(" ") : "- ";
        }
        const std::string inner = graces.size() == 3 ? "continue continue " : "";
        EXPECT_EQ(beams, graces.size() == 1 ? "" : "begin begin " + inner + "end end ");
        EXPECT_EQ(slurs, graces.size() == 1   ? "start stop "
                         : graces.size() == 2 ? "start - stop "
                                              : "start - - stop ");
    }
}

/// "8:1 10:1 12:1": frets and strings of what the tablature has, grace notes first.
std::string exportedFrets(int midi, const std::vector<int>& graces, const Beats& length = Beats(4)) {
    Study study = studyInFour();
    study.notes = {noteAt(study, Beats(0), length, midi)};
    study.notes[0].phrasing.graceNotes = graces;
    MusicXmlOptions options;
    options.tablature = true;
    pugi::xml_document document;
    EXPECT_TRUE(document.load_string(musicXml(study, options)->c_str()));
    std::string text;
    const pugi::xml_node tablature = document.child("score-partwise").last_child();
    for (const pugi::xml_node note : tablature.child("measure").children("note")) {
        const pugi::xml_node technical = note.child("notations").child("technical");
        text += (note.child("grace") ? "grace " : "") + std::string(technical.child_value("fret")) + ":" +
                technical.child_value("string") + " ";
    }
    return text;
}

// As on our page: on the string of their note, where it reaches them.
TEST(EngravedAsExported, GraceNotesHaveTheirFretsInTheTablature) {
    EXPECT_EQ(exportedFrets(86, {84, 85}), "grace 20:1 grace 21:1 22:1 ");
    EXPECT_EQ(exportedFrets(41, {39}), "1:6 ") << "below the open string";
    EXPECT_EQ(exportedFrets(41, {}), "1:6 ");
}

// E6 is above the twenty-second fret, and a rest in the tablature: the notes beside it have a beam of their
// own.
TEST(EngravedAsExported, BeamsOfTheTablatureEndBeforeANoteThatIsNotOnTheNeck) {
    for (const std::size_t high : {0u, 1u, 3u}) {
        Study study = studyInFour();
        for (int i = 0; i < 4; ++i)
            study.notes.push_back(noteAt(study, Beats(i, 4), Beats(1, 4), 70));
        study.notes[high].pitch = {88, {}};
        MusicXmlOptions options;
        options.tablature = true;
        pugi::xml_document document;
        ASSERT_TRUE(document.load_string(musicXml(study, options)->c_str()));
        const pugi::xml_node tablature = document.child("score-partwise").last_child();
        int open = 0;
        int begun = 0;
        for (const pugi::xml_node note : tablature.child("measure").children("note")) {
            const std::string beam = note.child_value("beam");
            open += (beam == "begin") - (beam == "end");
            begun += beam == "begin";
            EXPECT_EQ(note.child("rest") ? open : 0, 0) << high;
            EXPECT_GE(open, 0) << high;
        }
        EXPECT_EQ(open, 0) << high;
        EXPECT_EQ(begun, 1) << high;
    }
}

// Others draw a note where its string and fret are said, a tied one too.
TEST(EngravedAsExported, TiedNotesHaveTheirFretInTheTablature) {
    EXPECT_EQ(exportedFrets(41, {}, Beats(5, 2)), "1:6 1:6 : : ") << "a half, an eighth and two rests";
}

} // namespace
} // namespace earwright
