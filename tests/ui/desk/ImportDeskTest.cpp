#include "ui/desk/ImportDesk.h"

#include "core/study/MeterEdits.h"
#include "tests/ui/Picture.h"
#include "tests/ui/desk/ForeignLineDesk.h"
#include "ui/page/PageView.h"

#include <QInputDialog>

#include <algorithm>
#include <string>
#include <utility>
#include <vector>

namespace earwright::ui {
namespace {

class ImportDeskTest : public ForeignLineDesk {
protected:
    /// Three bars of a note each, the last of them in 4/4.
    std::filesystem::path scoreIn(const std::string& beats, const std::string& beatType) {
        const auto bar = [](const std::string& top, const std::string& bottom, const char* length) {
            return "<measure><attributes><divisions>2</divisions><time><beats>" + top +
                   "</beats><beat-type>" + bottom +
                   "</beat-type></time></attributes><note><pitch><step>C</step><octave>4</octave></pitch>"
                   "<duration>" +
                   length + "</duration></note></measure>";
        };
        // 3/4 and 6/8 both last six eighths.
        fill(in("line.musicxml"),
             "<score-partwise><part-list><score-part id=\"a\"><part-name>Horn</part-name></score-part>"
             "</part-list><part id=\"a\">" +
                 bar(beats, beatType, "6") + bar(beats, beatType, "6") + bar("4", "4", "8") +
                 "</part></score-partwise>");
        return in("line.musicxml");
    }
    /// Opened in place of what is there, whatever is unsaved.
    void openInstead(const std::filesystem::path& path) {
        window->open(path);
        ASSERT_TRUE(soon([&] { return !window->messages().sentence("losing").isEmpty(); }));
        window->messages().choose("losing", 1); // don't save
        ASSERT_TRUE(soon([&] { return firstPitch() == 60; }));
    }
    /// When each bar begins in the recording.
    std::vector<double> barLines(std::int64_t bars) {
        std::vector<double> lines;
        for (std::int64_t bar = 1; bar <= bars; ++bar)
            lines.push_back(study().beatMap.seconds(study().meters().barStart(bar)).value);
        return lines;
    }
    /// Bar lines every two seconds from 0.5 s on, four of them.
    void markFourBars() {
        markBarsAndPhrase();
        for (const double at : {4.5, 6.5}) {
            earTo(at);
            press(Qt::Key_Return);
        }
        ASSERT_EQ(study().beatMap.marks().size(), 4u);
    }
};

TEST_F(ImportDeskTest, OpensALineWithoutARecordingAndTellsWhatWasLeftOut) {
    window->open(score(false));
    ASSERT_TRUE(soon([&] { return window->session().isOpen(); }));
    EXPECT_EQ(firstPitch(), 60);
    EXPECT_EQ(window->session().study().title, "line");
    EXPECT_TRUE(told().contains("without a recording")) << told().toStdString();
    EXPECT_TRUE(told().contains("Words that are sung were left out.")) << told().toStdString();
    // A line without tempo and recording is there to be read all the same.
    EXPECT_TRUE(told().contains("No tempo is given")) << told().toStdString();
    EXPECT_TRUE(window->panel().grid()->hasColumns());
    const auto isOnPage = [&] { return !window->page().placeOf(study().notes.front().id).isEmpty(); };
    EXPECT_TRUE(!window->page().trouble().isEmpty() || soon(isOnPage));
    EXPECT_TRUE(window->keeping().hasUnsavedWork()) << "it is nowhere on disk";
    EXPECT_FALSE(window->close()) << "closing asks first";
    EXPECT_FALSE(window->messages().sentence("losing").isEmpty());
    window->messages().choose("losing", 2); // stay
    keepPicture(*window, "line-from-elsewhere.png");
}

TEST_F(ImportDeskTest, AsksForAPartWhereThereAreSeveral) {
    window->open(score(true));
    QInputDialog* dialog = nullptr;
    ASSERT_TRUE(soon([&] { return (dialog = window->findChild<QInputDialog*>()) != nullptr; }));
    EXPECT_EQ(dialog->comboBoxItems(), (QStringList{"1  Horn (1 note)", "2  Bass (1 note)"}));
    EXPECT_FALSE(window->session().isOpen());
    dialog->setTextValue("2  Bass (1 note)");
    dialog->accept();
    ASSERT_TRUE(soon([&] { return window->session().isOpen(); }));
    EXPECT_EQ(firstPitch(), 67);
    EXPECT_TRUE(told().contains("Horn")) << told().toStdString();
}

TEST_F(ImportDeskTest, LeavesUnsavedWorkUntilItIsSettledAndKeepsTheRecording) {
    markBarsAndPhrase();
    const auto sound = window->session().recording();
    const auto marks = window->session().study().beatMap;
    window->open(score(false));
    ASSERT_TRUE(soon([&] { return !window->messages().sentence("losing").isEmpty(); }));
    EXPECT_EQ(firstPitch(), 0) << "the study that is open";
    window->messages().choose("losing", 1); // don't save
    ASSERT_TRUE(soon([&] { return firstPitch() == 60; }));
    EXPECT_EQ(window->session().recording(), sound);
    EXPECT_EQ(window->session().study().beatMap, marks) << "bars stay where they were marked";
    EXPECT_TRUE(told().contains("tones.wav")) << told().toStdString();
}

// The bars were tapped in 4/4, which is what a study begins with.
TEST_F(ImportDeskTest, KeepsTheBarLinesAsTappedWhateverMeterThePageHas) {
    for (const auto& [beats, beatType] : {std::pair("3", "4"), {"6", "8"}}) {
        SCOPED_TRACE(beats);
        markFourBars();
        openInstead(scoreIn(beats, beatType));
        EXPECT_EQ(study().meter, (Meter{beats[0] - '0', beatType[0] - '0'}));
        EXPECT_EQ(study().meters().at(3), (Meter{4, 4}));
        EXPECT_EQ(barLines(4), (std::vector<double>{0.5, 2.5, 4.5, 6.5}));
        window->session().giveUp();
        openWindow();
    }
}

// Bar 2 of what is open goes in three, which the page knows nothing of.
TEST_F(ImportDeskTest, KeepsTheBarLinesWhereTheOpenStudyChangedItsMeter) {
    markFourBars();
    const auto inThree = changeMeter(study(), 2, Meter{3, 4}, 1);
    ASSERT_TRUE(inThree);
    window->session().apply("meter", *inThree);
    ASSERT_EQ(barLines(4), (std::vector<double>{0.5, 2.5, 4.5, 6.5}));
    openInstead(scoreIn("6", "8"));
    EXPECT_EQ(barLines(4), (std::vector<double>{0.5, 2.5, 4.5, 6.5}));
}

// Eighths, each up to 22 ms beside its line: 480 ticks a quarter, half a second long.
TEST_F(ImportDeskTest, WritesMidiThatAHandPlayedAsItIsCountedAndOffersItsTicks) {
    std::string events;
    for (const int since : {253, 228, 246, 223, 260, 231, 239, 249, 227, 252, 241, 235})
        events += std::string{static_cast<char>(0x80 | since >> 7), static_cast<char>(since & 0x7F)} +
                  "\x90\x3C\x50" + std::string("\0\x80\x3C\x40", 4);
    events += std::string("\0\xFF\x2F\0", 4);
    fill(in("hand.mid"), std::string("MThd\0\0\0\6\0\0\0\1\x01\xE0MTrk\0\0\0", 21) +
                             static_cast<char>(events.size()) + events);
    window->open(in("hand.mid"));
    ASSERT_TRUE(soon([&] { return window->session().isOpen(); }));
    const auto isOnEighths = [&] {
        return std::all_of(study().notes.begin(), study().notes.end(),
                           [](const Note& note) { return note.onset.denominator() <= 2; });
    };
    EXPECT_EQ(study().notes.size(), 12u);
    EXPECT_TRUE(isOnEighths());
    EXPECT_TRUE(told().contains("count what a hand played")) << told().toStdString();
    keepPicture(*window, "midi-played-by-hand.png");
    window->messages().choose(QStringLiteral("import"), 0);
    ASSERT_TRUE(soon([&] { return !window->messages().sentence("losing").isEmpty(); }));
    window->messages().choose("losing", 1); // don't save
    ASSERT_TRUE(soon([&] { return told().contains("the file's ticks are"); })) << told().toStdString();
    EXPECT_FALSE(isOnEighths());
}

// Twelve beats, each with a note on it and one at two thirds: 480 ticks a quarter.
TEST_F(ImportDeskTest, TellsSwingOfAMidiFileAsSwingAndLeadsBackFromItsTicks) {
    std::string events;
    const std::string onTheBeat("\0\x90\x3C\x50\x82\x40\x80\x3C\x40", 9);
    const std::string atTwoThirds("\0\x90\x3E\x50\x81\x20\x80\x3E\x40", 9);
    for (int beat = 0; beat < 12; ++beat) events.append(onTheBeat).append(atTwoThirds);
    events += std::string("\0\xFF\x2F\0", 4);
    fill(in("swung.mid"), std::string("MThd\0\0\0\6\0\0\0\1\x01\xE0MTrk\0\0\0", 21) +
                              static_cast<char>(events.size()) + events);
    window->open(in("swung.mid"));
    ASSERT_TRUE(soon([&] { return window->session().isOpen(); }));
    const auto swings = [&] { return !study().page.swings.empty(); };
    const auto choose = [&] {
        window->messages().choose(QStringLiteral("import"), 0);
        if (soon([&] { return !window->messages().sentence("losing").isEmpty(); }))
            window->messages().choose("losing", 1); // don't save
    };
    ASSERT_EQ(study().notes.size(), 24u);
    EXPECT_TRUE(swings());
    EXPECT_TRUE(told().contains("Its notes swing")) << told().toStdString();
    EXPECT_FALSE(told().contains("hand")) << told().toStdString();
    choose();
    EXPECT_TRUE(soon([&] { return told().contains("the file's ticks are"); })) << told().toStdString();
    EXPECT_FALSE(swings());
    choose();
    EXPECT_TRUE(soon([&] { return told().contains("Its notes swing"); })) << told().toStdString();
    EXPECT_TRUE(swings());
}

TEST_F(ImportDeskTest, SaysWhyAFileCannotBeOpened) {
    fill(in("broken.mid"), "MThd");
    window->open(in("broken.mid"));
    ASSERT_TRUE(soon([&] { return told().contains("broken.mid"); }));
    EXPECT_FALSE(window->session().isOpen());
}

} // namespace
} // namespace earwright::ui
