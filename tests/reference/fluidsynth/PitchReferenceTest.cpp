// Single notes and their tuning, rendered by fluidsynth.
#include "core/listening/PitchHint.h"
#include "tests/reference/fluidsynth/RenderedSound.h"

#include <algorithm>
#include <gtest/gtest.h>
#include <string>

namespace earwright {
namespace {

using namespace tests;

struct Instrument {
    const char* name;
    int program;
    int lowest;
    int highest;
};

class RenderedInstrument : public testing::TestWithParam<Instrument> {};

/// Each note alone, a second apart.
TEST_P(RenderedInstrument, HasItsSingleNotesNamed) {
    MidiFile midi;
    midi.program(0, GetParam().program);
    std::vector<Range<Seconds>> spans;
    for (int note = GetParam().lowest; note <= GetParam().highest; ++note) {
        const Seconds begin(0.5 + (note - GetParam().lowest));
        spans.push_back({begin, begin + Seconds(0.5)});
        midi.note(0, spans.back(), note, 90);
    }
    const RecordingEvidence recording = rendered(midi);
    for (std::size_t i = 0; i < spans.size(); ++i) {
        // Asked for one by one, so that no neighbour helps.
        const auto evidence = recording.passage({spans[i].begin - Seconds(0.4), spans[i].end + Seconds(0.3)});
        ASSERT_TRUE(evidence);
        const int heard = pitchHints(*evidence, {spans[i]})[0].bestMidi;
        const int played = GetParam().lowest + static_cast<int>(i);
        EXPECT_EQ(heard, played);
    }
}

INSTANTIATE_TEST_SUITE_P(Reference, RenderedInstrument,
                         testing::Values(Instrument{"nylon guitar", nylonGuitar, 40, 88},
                                         Instrument{"steel guitar", steelGuitar, 40, 88},
                                         Instrument{"jazz guitar", jazzGuitar, 40, 88},
                                         Instrument{"alto saxophone", altoSaxophone, 49, 81},
                                         Instrument{"trumpet", trumpet, 52, 84},
                                         Instrument{"piano", piano, 40, 88}),
                         [](const auto& instrument) {
                             std::string name = instrument.param.name;
                             std::replace(name.begin(), name.end(), ' ', '_');
                             return name;
                         });

/// A scale over walking bass, the whole band detuned.
RecordingEvidence detunedBand(double cents) {
    MidiFile midi;
    midi.program(0, jazzGuitar);
    midi.program(1, acousticBass);
    midi.tune(0, cents);
    midi.tune(1, cents);
    const std::vector<int> line{60, 62, 63, 65, 67, 68, 70, 72, 70, 68, 67, 65, 63, 62, 60, 58};
    for (std::size_t i = 0; i < line.size(); ++i) {
        const Seconds begin(0.3 + 0.25 * static_cast<double>(i));
        midi.note(0, {begin, begin + Seconds(0.24)}, line[i], 90);
        if (i % 2 == 0) midi.note(1, {begin, begin + Seconds(0.48)}, 36 + static_cast<int>(i) / 2, 80);
    }
    return rendered(midi);
}

TEST(TuningReference, MovesByAsMuchAsTheRecordingIsDetuned) {
    // Against the same rendering unshifted, since the font's own samples are not exactly in tune.
    const double plain = detunedBand(0).tuning().cents;
    for (const double cents : {-35.0, -20.0, -8.0, 11.0, 27.0, 38.0})
        EXPECT_NEAR(detunedBand(cents).tuning().cents - plain, cents, 3) << cents;
}

} // namespace
} // namespace earwright
