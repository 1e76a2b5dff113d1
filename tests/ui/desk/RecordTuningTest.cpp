#include "tests/ui/desk/TonesDesk.h"
#include "ui/desk/DeskWindow.h"

#include <array>
#include <gtest/gtest.h>

namespace earwright::ui {
namespace {

/// A record that runs 55 cents flat: read by itself it is 45 sharp.
class RecordTuningDesk : public TonesDesk {
protected:
    void SetUp() override {
        std::vector<GeneratedTone> tones;
        for (const auto& [onset, midi] : {std::pair{2.5, 60}, {3.0, 64}, {3.5, 67}, {4.0, 72}})
            tones.push_back({onset, 0.48, midi, -55});
        writeRecording(recording(), 12, tones);
        TonesDesk::SetUp();
    }
    bool isTunedNear(double cents) {
        return soon([&] {
            const auto record = window->tuningDesk().record();
            return record && std::abs(*record - cents) < 10;
        });
    }
};

TEST_F(RecordTuningDesk, FollowsWhatIsWritten) {
    markBarsAndPhrase();
    ASSERT_TRUE(isTunedNear(45)) << "nothing is written yet";
    earTo(2.6);
    for (const auto& [beat, midi] : {std::pair{4, 60}, {5, 64}, {6, 67}, {7, 72}})
        writeNote(Beats(beat), midi);
    EXPECT_TRUE(isTunedNear(-55)) << "so that the written notes sound as the record does";
    Study lower = window->session().study();
    for (Note& note : lower.notes)
        --note.pitch.midi;
    window->session().apply("lower", lower);
    EXPECT_TRUE(isTunedNear(45)) << "a semitone lower the line is as the record was read";
}

TEST_F(RecordTuningDesk, TellsOneReadingOfAStudyThatIsWritten) {
    writeTheLine();
    ASSERT_TRUE(isTunedNear(-55));
    QSignalSpy saved(&window->session(), &DeskSession::saved);
    window->session().saveTo(in("line.study"));
    ASSERT_TRUE(soon([&] { return !saved.isEmpty(); }));
    openWindow();
    std::vector<double> told;
    QObject::connect(&window->tuningDesk(), &TuningDesk::changed, window.get(), [&] {
        if (const auto record = window->tuningDesk().record()) told.push_back(*record);
    });
    open(in("line.study"));
    ASSERT_TRUE(isTunedNear(-55));
    for (const double cents : told)
        EXPECT_NEAR(cents, -55, 10);
}

/// A record that sinks from 20 cents flat to 60, a tone in each half second.
class SinkingRecordDesk : public RecordTuningDesk {
protected:
    static constexpr int tones = 48;
    static int midiAt(int tone) { return std::array{60, 64, 67, 72}[static_cast<std::size_t>(tone % 4)]; }

    void SetUp() override {
        std::vector<GeneratedTone> line;
        for (int i = 0; i < tones; ++i)
            line.push_back({0.5 + 0.5 * i, 0.48, midiAt(i), -20 - 40.0 * i / tones});
        writeRecording(recording(), 25, line);
        TonesDesk::SetUp();
    }
};

TEST_F(SinkingRecordDesk, IsReadAsWhatIsWrittenWhereItLiesBetweenTwoSemitones) {
    markBars();
    ASSERT_TRUE(isTunedNear(-40)) << "nothing is written yet";
    Study higher = window->session().study();
    for (int i = tones - 12; i < tones; ++i)
        higher.notes.push_back(
            {NoteId{higher.nextId++}, Beats(i), Beats(1), Pitch{midiAt(i) - 1, {}}, 0.6, {}});
    window->session().apply("notes", higher);
    EXPECT_TRUE(isTunedNear(60)) << "a semitone lower the end of the record is sharp, and so is all of it";
}

} // namespace
} // namespace earwright::ui
