#include "core/study/NoteVoices.h"

#include <gtest/gtest.h>

namespace earwright {
namespace {

/// A double stop, a single note, three notes together and a double stop, a beat each.
Study changingVoices() {
    Study study;
    int beat = 0;
    for (const std::vector<int>& together : {std::vector{60, 67}, {62}, {60, 64, 69}, {62, 65}}) {
        for (const int midi : together)
            study.notes.push_back({NoteId{study.nextId++}, Beats(beat), Beats(1), Pitch{midi, {}}, 0.6, {}});
        ++beat;
    }
    return study;
}

int midiOf(const Note* note) {
    return note ? note->pitch.midi : 0;
}

TEST(NoteVoices, AreCountedFromTheLowestOfThoseThatBeginTogether) {
    const Study study = changingVoices();
    std::vector<std::size_t> voices;
    for (const Note& note : study.notes)
        voices.push_back(voiceOf(study, note));
    EXPECT_EQ(voices, (std::vector<std::size_t>{0, 1, 0, 0, 1, 2, 0, 1}));
}

// As engravers draw slides and slurs between double stops, and as two fingers move (common practice).
TEST(NoteVoices, LeadEachNoteToItsOwnVoiceOrTheHighest) {
    const Study study = changingVoices();
    std::vector<int> goals;
    std::vector<int> sources;
    for (const Note& note : study.notes) {
        goals.push_back(midiOf(noteAfter(study, note)));
        sources.push_back(midiOf(noteBefore(study, note)));
    }
    EXPECT_EQ(goals, (std::vector{62, 62, 60, 62, 65, 65, 0, 0}));
    EXPECT_EQ(sources, (std::vector{0, 0, 60, 62, 62, 62, 60, 64}));
}

} // namespace
} // namespace earwright
