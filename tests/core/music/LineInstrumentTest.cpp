#include "core/music/LineInstrument.h"

#include "core/music/Pitch.h"

#include <gtest/gtest.h>
#include <set>
#include <string>

namespace earwright {
namespace {

TEST(LineInstrument, EveryNamedOneHasItsWordAndARangeOnce) {
    std::set<Instrument> seen;
    std::set<std::string> words;
    for (const NamedInstrument& named : namedInstruments()) {
        EXPECT_TRUE(seen.insert(named.instrument).second) << named.word;
        EXPECT_TRUE(words.insert(named.word).second) << named.word;
        EXPECT_TRUE(isRange(named.range)) << named.word;
        EXPECT_EQ(rangeOf(named.instrument), named.range);
        EXPECT_STREQ(wordFor(named.instrument), named.word);
        EXPECT_EQ(lineInstrumentFrom(named.word), LineInstrument(named.instrument));
    }
    EXPECT_EQ(seen.size(), static_cast<std::size_t>(Instrument::Voice) + 1);
}

TEST(LineInstrument, ATenorSoundsFromItsLowestKeyUp) {
    // The lowest written note of a saxophone is B♭3; a tenor sounds a major
    // ninth lower, A♭2, an alto a major sixth, D♭3 (common practice of transposing instruments).
    EXPECT_EQ(rangeOf(Instrument::Tenor).lowestMidi, *midiNamed("Bb3") - 14);
    EXPECT_EQ(rangeOf(Instrument::Alto).lowestMidi, *midiNamed("Bb3") - 9);
    // A guitar's open strings begin at E2 in the usual tuning (common practice).
    EXPECT_EQ(rangeOf(Instrument::Guitar).lowestMidi, *midiNamed("E2"));
}

TEST(LineInstrument, ReadsNotesAsScientificPitchNotationHasThem) {
    // C4 is middle C, MIDI 60, and A4 is 69 (MIDI 1.0, ISO 16).
    EXPECT_EQ(midiNamed("C4"), 60);
    EXPECT_EQ(midiNamed("a4"), 69);
    EXPECT_EQ(midiNamed("Bb3"), 58);
    EXPECT_EQ(midiNamed("B♭3"), 58);
    EXPECT_EQ(midiNamed("F♯5"), 78);
    EXPECT_EQ(midiNamed("C-1"), 0);
    EXPECT_EQ(midiNamed("G9"), 127);
    for (int midi = 0; midi <= 127; ++midi)
        EXPECT_EQ(midiNamed(toString(Pitch{midi, {}})), midi);
    for (const char* text : {"", "H4", "C", "4", "Cb", "C4x", "G#9", "Cb-1", "C10", "C 4"})
        EXPECT_EQ(midiNamed(text), std::nullopt) << text;
}

TEST(LineInstrument, ReadsTwoNotesAsARange) {
    EXPECT_EQ(lineInstrumentFrom("E2-E6"), LineInstrument(PitchRange{40, 88}));
    EXPECT_EQ(lineInstrumentFrom("B♭3–F5"), LineInstrument(PitchRange{58, 77}));
    EXPECT_EQ(lineInstrumentFrom("C-1-C3"), LineInstrument(PitchRange{0, 48}));
    for (const char* text : {"", "E6-E2", "E2-E2", "E2", "E2-", "-E6", "kazoo"})
        EXPECT_EQ(lineInstrumentFrom(text), std::nullopt) << text;
}

} // namespace
} // namespace earwright
