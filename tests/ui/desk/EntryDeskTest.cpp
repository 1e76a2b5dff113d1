// Notes entered by instrument: the sound is handed over as the input would bring it, or comes through a sound
// server of the test's own.
#include "ui/desk/EntryDesk.h"

#include "core/engine/Input.h"
#include "tests/core/engine/PrivateSound.h"
#include "tests/core/listening/OneTone.h"
#include "tests/ui/Picture.h"
#include "tests/ui/desk/TonesDesk.h"

#include <gtest/gtest.h>

namespace earwright::ui {
namespace {

constexpr SampleRate rate{44100};
const auto subject = QStringLiteral("entry");

class EnteringByInstrument : public TonesDesk {
protected:
    EntryDesk& entry() { return window->entry(); }
    QString told() { return window->messages().sentence(subject); }
    NoteGrid& grid() { return *window->panel().grid(); }
};

TEST_F(EnteringByInstrument, OpensNoInputBeforeTheWordAboutTheEarsWasRead) {
    const tests::NoSound silence;
    markBarsAndPhrase();
    press(Qt::Key_I, Qt::AltModifier);
    EXPECT_TRUE(entry().isOn());
    EXPECT_FALSE(window->messages().sentence(QStringLiteral("caution")).isEmpty());
    EXPECT_EQ(window->session().engine().input().report().state, DeviceState::Closed);
    // The question may wait for its answer as long as it likes.
    QTest::qWait(900);
    EXPECT_TRUE(entry().isOn());
    window->messages().choose(QStringLiteral("caution"), 1);
    EXPECT_FALSE(entry().isOn()) << "not now is an answer";
    EXPECT_EQ(window->session().engine().input().report().state, DeviceState::Closed);
}

TEST_F(EnteringByInstrument, EndsWhereTheWordAboutTheEarsIsClosedWithoutAnAnswer) {
    const tests::NoSound silence;
    markBarsAndPhrase();
    press(Qt::Key_I, Qt::AltModifier);
    ASSERT_TRUE(entry().isOn());
    window->messages().close(QStringLiteral("caution"));
    EXPECT_TRUE(soon([&] { return !entry().isOn(); }));
}

TEST_F(EnteringByInstrument, TellsTheOctaveThatIsChosenBeforehand) {
    markBarsAndPhrase();
    press(Qt::Key_O, Qt::AltModifier);
    EXPECT_EQ(entry().octaves(), 1);
    EXPECT_FALSE(entry().isOn());
    const QString said = window->messages().sentence(QStringLiteral("notice"));
    EXPECT_TRUE(said.contains("an octave higher than it sounds")) << said.toStdString();
}

TEST_F(EnteringByInstrument, SaysWhereThereIsNoInput) {
    const tests::NoSound silence;
    settings.setValue("input/cautionRead", true);
    openWindow();
    markBarsAndPhrase();
    press(Qt::Key_I, Qt::AltModifier);
    EXPECT_TRUE(soon([&] { return !entry().isOn(); }));
    EXPECT_FALSE(window->messages().sentence(QStringLiteral("notice")).isEmpty());
}

/// With an input whose source hears what the desk plays; nothing plays, so what the tests hand over is all.
class WithAnInput : public EnteringByInstrument {
protected:
    void SetUp() override {
        if (!tests::PrivateSound::isAvailable()) GTEST_SKIP() << "pulseaudio is not installed";
        sound = std::make_unique<tests::PrivateSound>();
        settings.setValue("input/cautionRead", true);
        applyTheme(*qApp, Appearance::Light);
        openWindow(true);
        markBarsAndPhrase();
        window->goTo(Seconds(2.6));
        ASSERT_TRUE(soon([this] { return grid().hasColumns(); }));
        window->workInGrid();
        grid().goTo(grid().shownBars().begin);
        ASSERT_EQ(grid().cursor().place, grid().shownBars().begin);
        press(Qt::Key_I, Qt::AltModifier);
        ASSERT_TRUE(soon([this] { return told().contains("Play or sing"); })) << told().toStdString();
    }
    void TearDown() override {
        EnteringByInstrument::TearDown();
        window.reset();
    }
    /// Half a second of quiet, then the notes.
    void play(const std::vector<int>& midis) {
        std::vector<float> line(22050, 0.0f);
        for (const int midi : midis) {
            const auto tone = tests::toneOf(tests::timbres()[1], midi, 0.3, rate);
            line.insert(line.end(), tone.begin(), tone.end());
            line.insert(line.end(), 4410, 0.0f);
        }
        entry().hear(line, rate);
    }
    std::vector<int> pitches() {
        std::vector<int> midis;
        for (const Note& note : study().notes)
            midis.push_back(note.pitch.midi);
        return midis;
    }
    std::unique_ptr<tests::PrivateSound> sound;
};

TEST_F(WithAnInput, WritesWhatIsPlayedIntoOneColumnAfterTheOther) {
    play({64, 67, 72});
    EXPECT_EQ(pitches(), (std::vector<int>{64, 67, 72}));
    EXPECT_EQ(study().notes[0].onset, grid().shownBars().begin);
    EXPECT_EQ(study().notes[1].onset, grid().shownBars().begin + Beats(1, 2));
    EXPECT_TRUE(told().contains("C5 heard")) << told().toStdString();
    keepPicture(*window, "entering-by-instrument.png");
    window->session().undo();
    EXPECT_EQ(pitches(), (std::vector<int>{64, 67})) << "each note is a step";
    press(Qt::Key_Escape);
    EXPECT_FALSE(entry().isOn());
    EXPECT_TRUE(told().isEmpty());
    play({60});
    EXPECT_EQ(pitches().size(), 2u) << "it has ended";
}

TEST_F(WithAnInput, WritesAnOctaveHigherForAGuitar) {
    window->messages().choose(subject, 1);
    EXPECT_EQ(entry().octaves(), 1);
    EXPECT_TRUE(told().contains("an octave higher")) << told().toStdString();
    play({52});
    EXPECT_EQ(pitches(), (std::vector<int>{64}));
    for (int i = 0; i < 5; ++i)
        window->messages().choose(subject, 0);
    EXPECT_EQ(entry().octaves(), -2);
    play({45});
    EXPECT_EQ(pitches(), (std::vector<int>{64})) << "A0 is none of a line's pitches";
    EXPECT_TRUE(told().contains("outside")) << told().toStdString();
    EXPECT_EQ(settings.value("input/octaves").toInt(), -2);
}

TEST_F(WithAnInput, ChangesTheOctaveByKey) {
    press(Qt::Key_O, Qt::AltModifier | Qt::ShiftModifier);
    EXPECT_EQ(entry().octaves(), -1);
    EXPECT_TRUE(told().contains("an octave lower")) << told().toStdString();
    play({72});
    EXPECT_EQ(pitches(), (std::vector<int>{60}));
    press(Qt::Key_O, Qt::AltModifier);
    press(Qt::Key_O, Qt::AltModifier);
    EXPECT_EQ(entry().octaves(), 1);
    EXPECT_TRUE(entry().isOn());
    keepPicture(*window, "entry-octave.png");
}

TEST_F(WithAnInput, EndsBehindTheLastColumn) {
    const auto columns = static_cast<std::size_t>((grid().shownBars().length() * 2).floor());
    std::vector<int> line;
    for (std::size_t i = 0; i < columns; ++i)
        line.push_back(i % 2 == 0 ? 60 : 62);
    play(line);
    EXPECT_EQ(pitches(), line);
    EXPECT_FALSE(entry().isOn());
}

// The record's own tones come back through the source, and none of them is written.
TEST_F(WithAnInput, DoesNotTakeTheRecordForTheMusician) {
    earTo(2.5);
    press(Qt::Key_Space);
    ASSERT_TRUE(soon([this] { return told().contains("Waiting"); })) << told().toStdString();
    Input& input = window->session().engine().input();
    float loudest = 0;
    for (int i = 0; i < 150; ++i) {
        QTest::qWait(10);
        loudest = std::max(loudest, input.level().peak);
    }
    EXPECT_GT(loudest, 0.01F) << "the record does reach the input";
    press(Qt::Key_Space);
    ASSERT_TRUE(soon([this] { return told().contains("Play or sing"); })) << told().toStdString();
    QTest::qWait(300);
    EXPECT_TRUE(pitches().empty());
}

// What is pressed is told later: a tenth of a second ago the record at half speed was 50 ms earlier, while it
// plays and where the loop has gone round in between.
TEST_F(WithAnInput, TellsWhereTheEarWasWhenAKeyWentDown) {
    ListeningDesk& ears = window->listening();
    ears.playAt(0.5);
    earTo(2.5);
    press(Qt::Key_Space);
    ASSERT_TRUE(soon([&] { return ears.ear().value > 2.7; }));
    const auto now = std::chrono::steady_clock::now();
    const double here = ears.earAt(now).value;
    EXPECT_GE(here, 2.7);
    EXPECT_NEAR(here - ears.earAt(now - std::chrono::milliseconds(100)).value, 0.05, 0.005);
    ears.loopOver(Range{Seconds(3), Seconds(3.4)});
    // A moment in which the loop has just gone round, however seldom this machine looks.
    double after = 0;
    double before = 0;
    ASSERT_TRUE(soon([&] {
        const auto then = std::chrono::steady_clock::now();
        after = ears.earAt(then).value;
        before = ears.earAt(then - std::chrono::milliseconds(60)).value;
        return after < before && before < 3.4;
    }));
    EXPECT_LT(after, 3.04);
    EXPECT_GT(before, 3.36) << "the end of the pass before";
}

} // namespace
} // namespace earwright::ui
