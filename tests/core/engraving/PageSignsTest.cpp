// What stands on a line besides its notes: dynamics, words, repeats, bar lines, clefs. Glyph code points are
// those of SMuFL 1.4.
#include "MusicFont.h"
#include "SampleLines.h"
#include "core/engraving/Engraving.h"
#include "core/engraving/Extent.h"
#include "core/engraving/RepeatSigns.h"

#include <algorithm>
#include <gtest/gtest.h>

namespace earwright {
namespace {

/// Four bars of quarters G4 on one line.
Study fourBars() {
    Study study = studyInFour();
    for (int beat = 0; beat < 16; ++beat)
        study.notes.push_back(noteAt(study, Beats(beat), Beats(1), 67));
    return study;
}

EngravedSystem laid(const Study& study, EngravingOptions options = {}) {
    const auto systems = engraveSystems(study, wholeStudy(study), options, musicFont());
    EXPECT_TRUE(systems);
    EXPECT_EQ(systems->size(), 1u);
    return systems->front();
}

std::vector<PlacedGlyph> all(const EngravedSystem& system, char32_t codePoint) {
    std::vector<PlacedGlyph> found;
    for (const PlacedGlyph& glyph : system.shapes.glyphs)
        if (static_cast<char32_t>(glyph.glyph) == codePoint) found.push_back(glyph);
    return found;
}

std::vector<PlacedText> all(const EngravedSystem& system, const std::string& text) {
    std::vector<PlacedText> found;
    for (const PlacedText& one : system.shapes.texts)
        if (one.text == text) found.push_back(one);
    return found;
}

PageBox boxOn(const EngravedSystem& system, NoteId note) {
    for (const NoteBox& box : system.notes)
        if (box.note == note) return box.box;
    ADD_FAILURE() << "no such note";
    return {};
}

std::vector<PlacedLine> hairpinLines(const EngravedSystem& system) {
    std::vector<PlacedLine> found;
    for (const PlacedLine& line : system.shapes.lines)
        if (!line.note && line.from.y != line.to.y && line.from.x != line.to.x) found.push_back(line);
    return found;
}

class PageSigns : public testing::Test {
protected:
    void SetUp() override { NEEDS_MUSIC_FONT; }
};

TEST_F(PageSigns, SetDynamicsCentredUnderTheirNotesOnOneHeight) {
    Study study = fourBars();
    study.page.dynamics = {{Beats(0), Dynamic::p}, {Beats(9), Dynamic::ff}};
    const EngravedSystem system = laid(study);
    ASSERT_EQ(all(system, 0xE520).size(), 1u);
    ASSERT_EQ(all(system, 0xE52F).size(), 1u);
    const PlacedGlyph soft = all(system, 0xE520).front();
    const PlacedGlyph loud = all(system, 0xE52F).front();
    EXPECT_EQ(soft.at.y, loud.at.y);
    EXPECT_GT(soft.at.y, 4);
    const PageBox box = musicFont().box(Smufl::DynamicFF);
    const PageBox head = boxOn(system, study.notes[9].id);
    EXPECT_NEAR(loud.at.x + (box.left + box.right) / 2, (head.left + head.right) / 2, 0.02);
}

TEST_F(PageSigns, LeadAHairpinFromOneDynamicToTheNext) {
    Study study = fourBars();
    study.page.dynamics = {{Beats(0), Dynamic::p}, {Beats(8), Dynamic::f}};
    study.page.hairpins = {{{Beats(0), Beats(8)}, HairpinKind::Louder}};
    const EngravedSystem system = laid(study);
    const auto lines = hairpinLines(system);
    ASSERT_EQ(lines.size(), 2u);
    // Louder: closed at the left, open at the right.
    EXPECT_EQ(lines[0].from, lines[1].from);
    EXPECT_GT(std::abs(lines[0].to.y - lines[1].to.y), 1);
    const FontMetrics font = musicFont();
    EXPECT_GT(lines[0].from.x, all(system, 0xE520).front().at.x + font.box(Smufl::DynamicPiano).right);
    EXPECT_LT(lines[0].to.x, all(system, 0xE522).front().at.x + font.box(Smufl::DynamicForte).left);
}

TEST_F(PageSigns, KeepAShortHairpinWhereADynamicStandsElsewhere) {
    Study study = fourBars();
    study.page.hairpins = {{{Beats(8), Beats(17, 2)}, HairpinKind::Louder}};
    const auto alone = hairpinLines(laid(study));
    ASSERT_EQ(alone.size(), 2u);
    study.page.dynamics = {{Beats(0), Dynamic::p}};
    const auto beside = hairpinLines(laid(study));
    ASSERT_EQ(beside.size(), 2u);
    EXPECT_NEAR(beside[0].to.x - beside[0].from.x, alone[0].to.x - alone[0].from.x, 0.1);
}

TEST_F(PageSigns, ShortHairpinsInARowDoNotMeet) {
    Study study = fourBars();
    study.page.hairpins = {{{Beats(8), Beats(33, 4)}, HairpinKind::Louder},
                           {{Beats(33, 4), Beats(17, 2)}, HairpinKind::Softer}};
    const auto lines = hairpinLines(laid(study));
    ASSERT_EQ(lines.size(), 4u);
    for (const PlacedLine& line : lines)
        EXPECT_LT(line.from.x, line.to.x);
    EXPECT_LT(lines[0].to.x, lines[2].from.x);
}

TEST_F(PageSigns, MakeRoomForAHairpinBetweenTwoDynamicsThatStandClose) {
    Study study = studyInFour();
    for (int quarter = 0; quarter < 32; ++quarter)
        study.notes.push_back(noteAt(study, Beats(quarter, 2), Beats(1, 2), 67));
    study.page.dynamics = {{Beats(4), Dynamic::mf}, {Beats(9, 2), Dynamic::ff}};
    study.page.hairpins = {{{Beats(4), Beats(9, 2)}, HairpinKind::Louder}};
    const EngravedSystem system = laid(study);
    const auto lines = hairpinLines(system);
    ASSERT_EQ(lines.size(), 2u);
    const FontMetrics font = musicFont();
    EXPECT_GT(lines[0].from.x, all(system, 0xE52D).front().at.x + font.box(Smufl::DynamicMF).right);
    EXPECT_LT(lines[0].to.x, all(system, 0xE52F).front().at.x + font.box(Smufl::DynamicFF).left);
    EXPECT_GT(lines[0].to.x - lines[0].from.x, 1);
    // One that begins behind the first dynamic, where no column is.
    study.page.hairpins = {{{Beats(35, 8), Beats(9, 2)}, HairpinKind::Softer}};
    EXPECT_EQ(hairpinLines(laid(study)).size(), 2u);
    // And one between the last dynamic and the line's end.
    study.page.dynamics = {{Beats(31, 2), Dynamic::ff}};
    study.page.hairpins = {{{Beats(31, 2), Beats(16)}, HairpinKind::Softer}};
    EXPECT_EQ(hairpinLines(laid(study)).size(), 2u);
}

TEST_F(PageSigns, KeepChordSymbolsWithinTheirLine) {
    Study study = fourBars();
    study.chart.overrides[4] = parseBars("Dbmaj7 Eb7 Abm11 Db13sus4", {}).front();
    const EngravedSystem system = laid(study);
    const auto last = all(system, "13sus4");
    ASSERT_EQ(last.size(), 1u);
    EXPECT_LT(boxOf(last.front()).right, system.bars.back().right + 0.1);
}

// Tempo upright and bold, other words sloping (common practice): they are told apart by what they are.
TEST_F(PageSigns, TellTempoFromOtherWords) {
    Study study = fourBars();
    study.page.tempos = {{Beats(0), "Fast", 200.0}};
    study.page.texts = {{Beats(4), "growl", false}};
    const EngravedSystem system = laid(study);
    EXPECT_EQ(all(system, "Fast").at(0).role, TextRole::Tempo);
    EXPECT_EQ(all(system, "growl").at(0).role, TextRole::Words);
}

TEST_F(PageSigns, BreakAHairpinOverTwoLinesHalfOpen) {
    Study study = fourBars();
    study.page.hairpins = {{{Beats(4), Beats(12)}, HairpinKind::Louder}};
    EngravingOptions options;
    options.barsPerLine = 2;
    const auto systems = engraveSystems(study, wholeStudy(study), options, musicFont());
    ASSERT_TRUE(systems);
    ASSERT_EQ(systems->size(), 2u);
    const auto above = hairpinLines(systems->at(0));
    const auto below = hairpinLines(systems->at(1));
    ASSERT_EQ(above.size(), 2u);
    ASSERT_EQ(below.size(), 2u);
    EXPECT_EQ(above[0].from, above[1].from);
    EXPECT_GT(std::abs(below[0].from.y - below[1].from.y), 0.3);
    EXPECT_LT(std::abs(below[0].from.y - below[1].from.y), std::abs(below[0].to.y - below[1].to.y));
}

TEST_F(PageSigns, SetFreeWordsOverAndUnderTheLine) {
    Study study = fourBars();
    study.page.texts = {{Beats(4), "over", false}, {Beats(4), "under", true}};
    const EngravedSystem system = laid(study);
    ASSERT_EQ(all(system, "over").size(), 1u);
    ASSERT_EQ(all(system, "under").size(), 1u);
    EXPECT_LT(all(system, "over").front().at.y, 0);
    EXPECT_GT(all(system, "under").front().at.y, 5);
}

TEST_F(PageSigns, CloseRepeatsWithTwoDotsInTheMiddleSpaces) {
    Study study = fourBars();
    study.page.repeats = {{1, 2, 2, 0}, {3, 4, 3, 0}};
    const EngravedSystem system = laid(study);
    // Begin, end and begin in one, end: two dots on each side.
    const auto dots = all(system, 0xE044);
    ASSERT_EQ(dots.size(), 8u);
    for (const PlacedGlyph& dot : dots)
        EXPECT_TRUE(dot.at.y == 1.5 || dot.at.y == 2.5);
    EXPECT_EQ(
        std::count_if(dots.begin(), dots.end(),
                      [&](const auto& dot) { return dot.at.x < boxOn(system, study.notes[0].id).left; }),
        2);
    EXPECT_EQ(all(system, "3×").size(), 1u);
}

TEST_F(PageSigns, SetEndingsUnderBrackets) {
    Study study = fourBars();
    study.page.repeats = {{1, 3, 2, 1}};
    const EngravedSystem system = laid(study);
    ASSERT_EQ(all(system, "1.").size(), 1u);
    ASSERT_EQ(all(system, "2.").size(), 1u);
    EXPECT_GT(all(system, "1.").front().at.x, system.bars[2].left);
    EXPECT_LT(all(system, "1.").front().at.x, system.bars[2].right);
    EXPECT_GT(all(system, "2.").front().at.x, system.bars[3].left);
}

TEST(RepeatSigns, NumberTheEndings) {
    const std::vector<Repeat> repeats{{1, 8, 4, 2}, {10, 12, 3, 0}};
    EXPECT_TRUE(repeatSignsAt(repeats, 1).opens);
    EXPECT_FALSE(repeatSignsAt(repeats, 6).ending);
    EXPECT_EQ(repeatSignsAt(repeats, 7).ending, (EndingPart{"1.–3.", true, false, true}));
    EXPECT_EQ(repeatSignsAt(repeats, 8).ending, (EndingPart{"1.–3.", false, true, true}));
    // Two bars would reach into the next repeat.
    EXPECT_EQ(repeatSignsAt(repeats, 9).ending, (EndingPart{"4.", true, true, false}));
    EXPECT_FALSE(repeatSignsAt(repeats, 10).ending);
    EXPECT_EQ(repeatSignsAt(repeats, 8).saidTimes, 0);
    EXPECT_EQ(repeatSignsAt(repeats, 12).saidTimes, 3);
}

/// Vertical lines over the height of the staff, by x.
std::vector<PlacedLine> barLinesOf(const EngravedSystem& system) {
    std::vector<PlacedLine> found;
    for (const PlacedLine& line : system.shapes.lines)
        if (!line.note && line.from.x == line.to.x && line.from.y < 0 && line.to.y > 4) found.push_back(line);
    std::sort(found.begin(), found.end(), [](const auto& a, const auto& b) { return a.from.x < b.from.x; });
    return found;
}

// A thin and a thick line end a piece, and nothing else (common practice).
TEST_F(PageSigns, CloseThePieceWithAFinalBarLineAndAnExcerptWithAPlainOne) {
    const Study study = fourBars();
    const double thick = musicFont().usual("thickBarlineThickness");
    EXPECT_EQ(barLinesOf(laid(study)).back().thickness, thick);
    const auto cut = engraveSystems(study, barsAround(study, {Beats(0), Beats(8)}), {}, musicFont());
    ASSERT_TRUE(cut);
    const auto lines = barLinesOf(cut->front());
    ASSERT_EQ(lines.size(), 2u) << "one to a bar";
    EXPECT_LT(lines.back().thickness, thick);
}

TEST_F(PageSigns, SetAClefThatSoundsAnOctaveLower) {
    const Study study = fourBars();
    EngravingOptions options;
    options.clef = Clef::TrebleOctaveLower;
    const EngravedSystem system = laid(study, options);
    EXPECT_EQ(all(system, 0xE052).size(), 1u);
    // G4 is read as G5, over the top line; without the 8 it stands on the second line from below.
    EXPECT_EQ(all(system, 0xE0A4).front().at.y, -0.5);
    // For a guitar it says what the reading would.
    options.reading = Reading::GuitarOctave;
    EXPECT_EQ(all(laid(study, options), 0xE0A4).front().at.y, -0.5);
    options.clef = Clef::Treble;
    EXPECT_EQ(all(laid(study, options), 0xE0A4).front().at.y, -0.5);
    options.reading = Reading::Concert;
    EXPECT_EQ(all(laid(study, options), 0xE0A4).front().at.y, 3);
}

TEST_F(PageSigns, LeaveEmptyBarsAndLateBeginningsOutOfAnExcerpt) {
    Study study = studyInFour();
    study.chart.form = parseBars("C7", study.meter);
    study.notes = {noteAt(study, Beats(7), Beats(1), 67), noteAt(study, Beats(8), Beats(4), 69)};
    PageExcerpt excerpt = barsAround(study, {Beats(0), Beats(16)});
    EXPECT_EQ(excerpt.lastBar, 4);
    excerpt.only = Range<Beats>{Beats(0), Beats(16)};
    const auto systems = engraveSystems(study, excerpt, {}, musicFont());
    ASSERT_TRUE(systems);
    // The fourth beat of bar 2 as a pickup, and bar 3.
    ASSERT_EQ(systems->front().bars.size(), 2u);
    EXPECT_TRUE(all(systems->front(), 0xE4E3).empty() && all(systems->front(), 0xE4E4).empty());
    EXPECT_EQ(all(systems->front(), "3").size(), 1u);
    // Kept where the excerpt is a stretch of bars.
    excerpt.only = {};
    EXPECT_EQ(engraveSystems(study, excerpt, {}, musicFont())->front().bars.size(), 4u);
}

TEST_F(PageSigns, SayLetRingWithDashesToItsEnd) {
    Study study = fourBars();
    for (const std::size_t i : {4u, 5u, 6u})
        study.notes[i].phrasing.letRing = true;
    const EngravedSystem system = laid(study);
    ASSERT_EQ(all(system, "let ring").size(), 1u);
    EXPECT_NEAR(all(system, "let ring").front().at.x, boxOn(system, study.notes[4].id).left, 0.1);
    double furthest = 0;
    for (const PlacedLine& line : system.shapes.lines)
        if (line.note == study.notes[4].id && line.from.y == line.to.y)
            furthest = std::max(furthest, line.to.x);
    EXPECT_GT(furthest, boxOn(system, study.notes[6].id).right);
    EXPECT_LT(furthest, boxOn(system, study.notes[7].id).left);
}

TEST_F(PageSigns, ShowSlashesForTheBeatsOfBarsThatHaveOnlyChords) {
    Study study = fourBars();
    study.chart.form = parseBars("C7 | F7 | C7 | C7", study.meter);
    study.spans.push_back({{study.nextId++}, SpanKind::Chorus, "", {Seconds(0), Seconds(8)}});
    std::erase_if(study.notes, [](const Note& note) { return note.onset >= Beats(8); });
    EngravingOptions options;
    EXPECT_TRUE(all(laid(study, options), 0xE101).empty());
    options.slashes = true;
    EXPECT_EQ(all(laid(study, options), 0xE101).size(), 2u * 4u);
}

// In C major a trill of a half step over G needs a flat before A; a whole step needs nothing. A minor third
// is no trill that a sign can say: its note is shown, small.
TEST_F(PageSigns, SayWhichNoteATrillGoesTo) {
    Study study = fourBars();
    study.notes[1].phrasing.trill = 2;
    EXPECT_TRUE(all(laid(study), 0xE260).empty());
    study.notes[1].phrasing.trill = 1;
    ASSERT_EQ(all(laid(study), 0xE260).size(), 1u);
    EXPECT_LT(all(laid(study), 0xE260).front().at.y, 0);
    study.notes[1].phrasing.trill = 3;
    const EngravedSystem wide = laid(study);
    ASSERT_EQ(all(wide, 0xE260).size(), 1u);
    // B flat on the middle line.
    EXPECT_EQ(all(wide, 0xE260).front().at.y, 2);
    EXPECT_LT(all(wide, 0xE260).front().scale, 1);
}

TEST_F(PageSigns, KeepLinesBeginningWhereTheFormDoes) {
    Study study = studyInFour();
    // Sixteenths have no room four bars to a line; quarters have.
    for (int part = 0; part < 64; ++part)
        study.notes.push_back(noteAt(study, Beats(part, 4), Beats(1, 4), 60 + part % 12));
    for (int beat = 16; beat < 32; ++beat)
        study.notes.push_back(noteAt(study, Beats(beat), Beats(1), 67));
    const auto systems = engraveSystems(study, wholeStudy(study), {}, musicFont());
    ASSERT_TRUE(systems);
    std::vector<std::size_t> counts;
    for (const EngravedSystem& system : *systems)
        counts.push_back(system.bars.size());
    EXPECT_EQ(counts, (std::vector<std::size_t>{2, 2, 4}));
}

/// Bar lines as thick as those at the end of a piece.
int thickLines(const EngravedSystem& system) {
    const double thick = musicFont().usual("thickBarlineThickness");
    return static_cast<int>(
        std::count_if(system.shapes.lines.begin(), system.shapes.lines.end(), [&](const PlacedLine& line) {
            return line.from.x == line.to.x && line.thickness == thick;
        }));
}

TEST_F(PageSigns, EndAnExcerptPlainlyThoughNothingIsWrittenBehindIt) {
    const Study study = fourBars();
    PageExcerpt excerpt;
    excerpt.firstBar = 3;
    excerpt.lastBar = 4;
    const auto systems = engraveSystems(study, excerpt, {}, musicFont());
    ASSERT_TRUE(systems);
    EXPECT_EQ(thickLines(systems->back()), 0);
}

TEST_F(PageSigns, EndAnExcerptWithAFinalBarLineWhereTheLastChorusEnds) {
    Study study = fourBars();
    study.chart.form = parseBars("G7 | C7 | G7 | C7", study.meter);
    study.spans.push_back({{study.nextId++}, SpanKind::Chorus, "", {Seconds(0), Seconds(8)}});
    PageExcerpt excerpt;
    excerpt.firstBar = 3;
    excerpt.lastBar = 4;
    const auto systems = engraveSystems(study, excerpt, {}, musicFont());
    ASSERT_TRUE(systems);
    EXPECT_EQ(thickLines(systems->back()), 1);
}

TEST_F(PageSigns, NumberThePagesWhereThereAreSeveral) {
    const auto feet = [](const EngravingOptions& options) {
        Study study = fourBars();
        const auto pages = engravePages(study, options, musicFont());
        EXPECT_TRUE(pages);
        std::vector<std::string> numbers;
        for (const EngravedPage& page : *pages)
            for (const PlacedText& text : page.shapes.texts)
                if (text.role == TextRole::PageFoot && text.at.y > page.height - options.margin)
                    numbers.push_back(text.text);
        return numbers;
    };
    EngravingOptions options;
    options.pageHeight = 170;
    EXPECT_EQ(feet(options), std::vector<std::string>{});
    options.barsPerLine = 1;
    options.pageHeight = 60;
    const auto numbers = feet(options);
    ASSERT_GE(numbers.size(), 2u);
    EXPECT_EQ(numbers[0], "1");
    EXPECT_EQ(numbers[1], "2");
}

} // namespace
} // namespace earwright
