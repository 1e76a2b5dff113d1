#include "core/engraving/PageBars.h"

#include <gtest/gtest.h>
#include <random>

namespace earwright {
namespace {

Note note(const Beats& onset, const Beats& length, int midi = 60) {
    Note made;
    made.onset = onset;
    made.length = length;
    made.pitch = {midi, {}};
    return made;
}

std::vector<PageNotes> lineOf(std::vector<Note> notes) {
    Study study;
    study.notes = std::move(notes);
    return pageLine(study);
}

/// "4" a quarter, "8." a dotted eighth, "8/3" one of a triplet, "r" before a rest, "~" where it is tied on,
/// "|" between bars, "R" a bar of rest.
std::string drawn(std::vector<Note> notes, const Meter& meter = {}, std::optional<Beats> pickup = {}) {
    const auto bars = pageBars(lineOf(std::move(notes)), MeterMap(meter, {}), 1, pickup);
    std::string text;
    for (const PageBar& bar : *bars) {
        if (&bar != &bars->front()) text += "| ";
        for (const PagePiece& piece : bar.pieces) {
            if (piece.value.denominator == 0) {
                text += "R ";
                continue;
            }
            if (!piece.event) text += "r";
            text += std::to_string(piece.value.denominator);
            if (piece.value.dotted) text += ".";
            if (piece.value.tuplet) text += "/" + std::to_string(piece.value.tuplet->actual);
            text += piece.tiedOn ? "~ " : " ";
        }
    }
    return text.substr(0, text.size() - 1);
}

// A pickup is printed as long as it is counted, its bar line where bar 1 begins (common practice).
TEST(PageBars, APickupIsAsLongAsTheUserMadeItAndNeverCutsANote) {
    const Note onOne = note(Beats(0), Beats(4));
    const Note eighth = note(Beats(-1, 2), Beats(1, 2));
    EXPECT_EQ(drawn({eighth, onOne}), "r8 8 | 1") << "the beat of its first note";
    EXPECT_EQ(drawn({eighth, onOne}, {}, Beats(1, 2)), "8 | 1");
    EXPECT_EQ(drawn({eighth, onOne}, {}, Beats(3)), "r4 r4 r8 8 | 1");
    EXPECT_EQ(drawn({eighth, onOne}, {}, Beats(4)), "r2 r4 r8 8 | 1");
    EXPECT_EQ(drawn({onOne}, {}, Beats(1)), "r4 | 1") << "a rest before bar 1";
    EXPECT_EQ(drawn({}, {}, Beats(1)), "r4 | R");
    const Note early = note(Beats(-2), Beats(2));
    EXPECT_EQ(drawn({early, onOne}, {}, Beats(1)), "2 | 1") << "notes before it make it longer";
    EXPECT_EQ(drawn({note(Beats(-1), Beats(1)), note(Beats(0), Beats(6))}, {6, 8}, Beats(2)), "r8 8 | 2.");
}

TEST(PageBars, APickupThatWouldBeginWithinATupletBeginsWithItsBeat) {
    const Note onOne = note(Beats(0), Beats(4));
    EXPECT_EQ(drawn({note(Beats(-1, 3), Beats(1, 3)), onOne}, {}, Beats(1, 2)), "r4/3 8/3 | 1");
    EXPECT_EQ(drawn({note(Beats(-1, 3), Beats(1, 3)), onOne}, {}, Beats(3, 2)), "r8 r4/3 8/3 | 1")
        << "the tuplet lies in another beat";
}

// Three sixteenths of a triplet before or after an eighth, as ornaments are written (common practice); six in
// a beat are one figure.
TEST(PageBars, MakeATupletOfTheHalfOfABeatThatHasOne) {
    const auto sixths = [](std::vector<std::pair<int, int>> beginsAndLengths) {
        std::vector<Note> notes;
        for (const auto& [begin, length] : beginsAndLengths)
            notes.push_back(note(Beats(begin, 6), Beats(length, 6)));
        notes.push_back(note(Beats(1), Beats(3)));
        return drawn(std::move(notes));
    };
    EXPECT_EQ(sixths({{0, 1}, {1, 1}, {2, 1}, {3, 3}}), "16/3 16/3 16/3 8 2.");
    EXPECT_EQ(sixths({{0, 3}, {3, 2}, {5, 1}}), "8 8/3 16/3 2.");
    EXPECT_EQ(sixths({{0, 1}, {1, 1}, {2, 1}, {3, 1}, {4, 1}, {5, 1}}), "16/6 16/6 16/6 16/6 16/6 16/6 2.");
    EXPECT_EQ(sixths({{0, 2}, {2, 2}, {4, 2}}), "8/3 8/3 8/3 2.");
}

TEST(PageLine, EndsANoteWhereTheNextBegins) {
    const auto line = lineOf({note(Beats(0), Beats(3)), note(Beats(1), Beats(1))});
    ASSERT_EQ(line.size(), 2u);
    EXPECT_EQ(line[0].end, Beats(1));
}

TEST(PageLine, JoinsNotesThatBeginTogether) {
    const auto line =
        lineOf({note(Beats(0), Beats(1), 64), note(Beats(0), Beats(2), 60), note(Beats(0), Beats(1), 60)});
    ASSERT_EQ(line.size(), 1u);
    ASSERT_EQ(line[0].notes.size(), 2u);
    EXPECT_EQ(line[0].notes[0].pitch.midi, 60);
    EXPECT_EQ(line[0].end, Beats(2));
}

TEST(PageLine, MovesAPlaceNobodyCanDrawToTheNearest48th) {
    const auto line = lineOf({note(Beats(100, 997), Beats(1))});
    EXPECT_EQ(line[0].begin, Beats(5, 48));
}

TEST(PageBars, ShowsABarWithoutNotesAsOneRest) {
    EXPECT_EQ(drawn({}), "R");
}

TEST(PageBars, TiesANoteOverTheMiddleOfTheBarAndDotsOneThatEndsItsHalf) {
    EXPECT_EQ(
        drawn({note(Beats(0), Beats(3, 2)), note(Beats(3, 2), Beats(1)), note(Beats(5, 2), Beats(3, 2))}),
        "4. 8~ 8 4.");
}

TEST(PageBars, TiesOverTheBarLine) {
    EXPECT_EQ(drawn({note(Beats(3), Beats(2))}), "r2 r4 4~ | 4 r4 r2");
}

TEST(PageBars, DrawsTripletsSextupletsAndQuintupletsWithRests) {
    EXPECT_EQ(drawn({note(Beats(0), Beats(2, 3)), note(Beats(1), Beats(1, 6)), note(Beats(2), Beats(1, 5))}),
              "4/3 r8/3 16/6 r4/6 r16/6 16/5 r4/5 r4");
}

// Each length from a whole note to a thirty-second, one after the other from the bar line on (common
// practice).
TEST(PageBars, DrawsWholeToThirtySecondNotes) {
    EXPECT_EQ(drawn({note(Beats(0), Beats(4)), note(Beats(4), Beats(2)), note(Beats(6), Beats(1)),
                     note(Beats(7), Beats(1, 2)), note(Beats(15, 2), Beats(1, 4)),
                     note(Beats(31, 4), Beats(1, 8)), note(Beats(63, 8), Beats(1, 8))}),
              "1 | 2 4 8 16 32 32");
}

TEST(PageBars, DrawsEveryDivisionOfABeatAsItsOwnFigure) {
    const char* const values[] = {"4",    "8",  "8/3",  "16",    "16/5",  "16/6",
                                  "16/7", "32", "32/9", "32/10", "32/11", "32/12"};
    for (int parts = 1; parts <= 12; ++parts) {
        std::vector<Note> notes;
        std::string expected;
        for (int i = 0; i < parts; ++i) {
            notes.push_back(note(Beats(i, parts), Beats(1, parts)));
            expected += std::string(values[parts - 1]) + " ";
        }
        notes.push_back(note(Beats(1), Beats(3)));
        const std::string line = drawn(notes);
        EXPECT_EQ(line.substr(0, expected.size()), expected) << parts;
    }
}

TEST(PageBars, TiesOutOfAQuintupletOverTheBarLine) {
    EXPECT_EQ(drawn({note(Beats(19, 5), Beats(6, 5))}), "r2 r4 r4/5 16/5~ | 4 r4 r2");
}

TEST(PageBars, TiesIntoATriplet) {
    EXPECT_EQ(drawn({note(Beats(0), Beats(5, 3)), note(Beats(5, 3), Beats(1, 3))}), "4~ 4/3 8/3 r2");
}

/// Notes one after the other from bar 1 on; lengths in beats, negative for rests.
std::string drawnInRow(const std::vector<Beats>& lengths, const Meter& meter = {}) {
    std::vector<Note> notes;
    Beats at;
    for (const Beats& length : lengths) {
        const bool isRest = length < Beats(0);
        if (!isRest) notes.push_back(note(at, length));
        at += isRest ? -length : length;
    }
    return drawn(std::move(notes), meter);
}

const Beats twoThirds(2, 3);
const Beats fourThirds(4, 3);

// Quarter-note triplets fill half a bar, half-note triplets a bar (common practice).
TEST(PageBars, DrawsTripletsOverTwoBeatsAndOverFour) {
    EXPECT_EQ(drawnInRow({twoThirds, twoThirds, twoThirds, Beats(2)}), "4/3 4/3 4/3 2");
    EXPECT_EQ(drawnInRow({Beats(2), twoThirds, twoThirds, twoThirds}), "2 4/3 4/3 4/3");
    EXPECT_EQ(drawnInRow(std::vector<Beats>(6, twoThirds)), "4/3 4/3 4/3 4/3 4/3 4/3");
    EXPECT_EQ(drawnInRow({fourThirds, fourThirds, fourThirds}), "2/3 2/3 2/3");
    EXPECT_EQ(drawnInRow(std::vector<Beats>(3, twoThirds), {2, 4}), "4/3 4/3 4/3");
    EXPECT_EQ(drawnInRow({twoThirds, twoThirds, twoThirds}, {2, 2}), "2/3 2/3 2/3");
    // In three, over the first two beats or the last.
    EXPECT_EQ(drawnInRow({twoThirds, twoThirds, twoThirds, Beats(1)}, {3, 4}), "4/3 4/3 4/3 4");
    EXPECT_EQ(drawnInRow({Beats(1), twoThirds, twoThirds, twoThirds}, {3, 4}), "4 4/3 4/3 4/3");
}

TEST(PageBars, DrawsQuintupletsOverTwoBeatsAndOverFour) {
    EXPECT_EQ(drawnInRow(std::vector<Beats>(5, Beats(2, 5))) + " ", "8/5 8/5 8/5 8/5 8/5 r2 ");
    EXPECT_EQ(drawnInRow(std::vector<Beats>(5, Beats(4, 5))), "4/5 4/5 4/5 4/5 4/5");
}

TEST(PageBars, DrawsLongNotesRestsAndHalvesInATripletOverTwoBeats) {
    EXPECT_EQ(drawnInRow({fourThirds, twoThirds, Beats(2)}), "2/3 4/3 2");
    EXPECT_EQ(drawnInRow({twoThirds, fourThirds, Beats(2)}), "4/3 2/3 2");
    EXPECT_EQ(drawnInRow({-twoThirds, twoThirds, twoThirds, Beats(2)}), "r4/3 4/3 4/3 2");
    EXPECT_EQ(drawnInRow({twoThirds, -twoThirds, twoThirds, Beats(2)}), "4/3 r4/3 4/3 2");
    EXPECT_EQ(drawnInRow({Beats(1, 3), Beats(1, 3), twoThirds, twoThirds, Beats(2)}), "8/3 8/3 4/3 4/3 2");
    EXPECT_EQ(drawnInRow({twoThirds, twoThirds, Beats(8, 3)}), "4/3 4/3 4/3~ 2");
}

// Where a beat is begun on, or one note reaches far beyond, each beat has its own triplet; over the middle of
// the bar, or over beats two and three, none is drawn (common practice).
TEST(PageBars, ShowsTheBeatsThatATripletWouldHide) {
    EXPECT_EQ(drawnInRow({twoThirds, Beats(1, 3), twoThirds, Beats(1, 3), Beats(2)}), "4/3 8/3 4/3 8/3 2");
    EXPECT_EQ(drawnInRow({twoThirds, Beats(10, 3)}), "4/3 8/3~ 2.");
    EXPECT_EQ(drawnInRow({twoThirds, -fourThirds, Beats(2)}), "4/3 r8/3 r4 2");
    EXPECT_EQ(drawnInRow({Beats(1), twoThirds, twoThirds, twoThirds, Beats(1)}), "4 4/3 8/3~ 8/3 4/3 4");
}

TEST(PageBars, BeginsThePickupWithTheBeatOfItsFirstNote) {
    EXPECT_EQ(drawn({note(Beats(-3, 2), Beats(3, 2))}), "r8 4. | R");
}

TEST(PageBars, ShowsTheDottedPulseOfCompoundMeters) {
    EXPECT_EQ(drawn({note(Beats(0), Beats(6)), note(Beats(6), Beats(2)), note(Beats(8), Beats(4))}, {12, 8}),
              "2. 4 8~ 4.");
}

TEST(PageBars, DrawsEveryLineWithoutGapAndWithItsExactLengths) {
    std::mt19937 random(20);
    const std::vector<Meter> meters{{4, 4}, {3, 4}, {7, 4}, {6, 8}, {12, 8}, {2, 2}, {5, 16}};
    const std::vector<int> divisions{1, 2, 3, 4, 5, 6, 7, 8, 12};
    for (int round = 0; round < 300; ++round) {
        const Meter meter = meters[random() % meters.size()];
        std::vector<Note> notes;
        Beats at(static_cast<std::int64_t>(random() % 5) - 4);
        for (int i = 0; i < 20; ++i) {
            const int parts = divisions[random() % divisions.size()];
            const Beats length(1 + static_cast<int>(random() % 9), parts);
            notes.push_back(note(at, length));
            at = Beats::nearest((at + length).toDouble(), divisions[random() % divisions.size()]);
            if (at <= notes.back().onset) at = notes.back().onset + Beats(1);
        }
        const auto line = lineOf(notes);
        const auto bars = pageBars(line, MeterMap(meter, {}), 1);
        ASSERT_TRUE(bars.ok());
        std::vector<Beats> lengths(line.size());
        for (const PageBar& bar : *bars) {
            Beats place = bar.begin;
            for (const PagePiece& piece : bar.pieces) {
                EXPECT_EQ(piece.begin, place);
                place = piece.end;
                if (piece.event) lengths[*piece.event] += piece.end - piece.begin;
                if (piece.value.denominator == 0) continue;
                // What the value means by itself: a fraction of a whole note, in beats.
                Beats meant(meter.beatUnit, piece.value.denominator);
                if (piece.value.dotted) meant = meant * 3 / 2;
                if (piece.value.tuplet)
                    meant = meant * piece.value.tuplet->normal / piece.value.tuplet->actual;
                EXPECT_EQ(piece.end - piece.begin, meant);
            }
            EXPECT_EQ(place, bar.end);
        }
        for (std::size_t i = 0; i < line.size(); ++i)
            EXPECT_EQ(lengths[i], line[i].end - line[i].begin);
    }
}

// A bar of 6/8 in a piece that began in 4/4 lasts three of its beats and is beamed and dotted in threes.
TEST(PageBars, FollowAChangeOfMeter) {
    const auto line =
        lineOf({note(Beats(0), Beats(4)), note(Beats(4), Beats(3, 2)), note(Beats(11, 2), Beats(1, 2)),
                note(Beats(6), Beats(1)), note(Beats(7), Beats(4))});
    const auto bars = pageBars(line, MeterMap({4, 4}, {{2, {6, 8}}, {3, {4, 4}}}), 1);
    ASSERT_TRUE(bars);
    ASSERT_EQ(bars->size(), 3u);
    EXPECT_EQ((*bars)[1].end - (*bars)[1].begin, Beats(3));
    ASSERT_EQ((*bars)[1].pieces.size(), 3u);
    EXPECT_EQ((*bars)[1].pieces[0].value, (NoteValue{4, true, {}}));
    EXPECT_EQ((*bars)[1].pieces[1].value, (NoteValue{8, false, {}}));
    EXPECT_EQ((*bars)[1].pieces[2].value, (NoteValue{4, false, {}}));
    EXPECT_EQ((*bars)[2].pieces[0].value, (NoteValue{1, false, {}}));
}

} // namespace
} // namespace earwright
