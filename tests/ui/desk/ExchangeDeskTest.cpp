#include "ui/desk/ExchangeDesk.h"

#include "core/exchange/OpenForeign.h"
#include "tests/core/study/TemporaryFolder.h"
#include "tests/ui/Picture.h"
#include "tests/ui/desk/TonesDesk.h"

#include <QInputDialog>

namespace earwright::ui {
namespace {

class ExchangeDeskTest : public TonesDesk {
protected:
    QString told() { return window->messages().sentence(QStringLiteral("exchange")); }
    std::filesystem::path score(bool hasTwoParts) {
        const auto part = [](const std::string& id, const char* step) {
            return "<part id=\"" + id + "\"><measure><note><pitch><step>" + step +
                   "</step><octave>4</octave></pitch><duration>4</duration><lyric><text>oh</text></lyric>"
                   "</note></measure></part>";
        };
        const std::string text =
            "<score-partwise><part-list><score-part id=\"a\"><part-name>Horn</part-name></score-part>"
            "<score-part id=\"b\"><part-name>Bass</part-name></score-part></part-list>" +
            part("a", "C") + (hasTwoParts ? part("b", "G") : "") + "</score-partwise>";
        fill(in("line.musicxml"), text);
        return in("line.musicxml");
    }
    int firstPitch() {
        const auto& notes = window->session().study().notes;
        return notes.empty() ? 0 : notes.front().pitch.midi;
    }
};

TEST_F(ExchangeDeskTest, OpensALineWithoutARecordingAndTellsWhatWasLeftOut) {
    window->open(score(false));
    ASSERT_TRUE(soon([&] { return window->session().isOpen(); }));
    EXPECT_EQ(firstPitch(), 60);
    EXPECT_EQ(window->session().study().title, "line");
    EXPECT_TRUE(told().contains("without a recording")) << told().toStdString();
    EXPECT_TRUE(told().contains("Words that are sung were left out.")) << told().toStdString();
    EXPECT_FALSE(window->session().isSaved() && !window->keeping().hasUnsavedWork())
        << "it is nowhere on disk";
    keepPicture(*window, "line-from-elsewhere.png");
}

TEST_F(ExchangeDeskTest, AsksForAPartWhereThereAreSeveral) {
    window->open(score(true));
    QInputDialog* dialog = nullptr;
    ASSERT_TRUE(soon([&] { return (dialog = window->findChild<QInputDialog*>()) != nullptr; }));
    EXPECT_EQ(dialog->comboBoxItems(), (QStringList{"1  Horn (1 notes)", "2  Bass (1 notes)"}));
    EXPECT_FALSE(window->session().isOpen());
    dialog->setTextValue("2  Bass (1 notes)");
    dialog->accept();
    ASSERT_TRUE(soon([&] { return window->session().isOpen(); }));
    EXPECT_EQ(firstPitch(), 67);
    EXPECT_TRUE(told().contains("Horn")) << told().toStdString();
}

TEST_F(ExchangeDeskTest, LeavesUnsavedWorkUntilItIsSettledAndKeepsTheRecording) {
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

TEST_F(ExchangeDeskTest, SaysWhyAFileCannotBeOpened) {
    fill(in("broken.mid"), "MThd");
    window->open(in("broken.mid"));
    ASSERT_TRUE(soon([&] { return told().contains("broken.mid"); }));
    EXPECT_FALSE(window->session().isOpen());
}

TEST_F(ExchangeDeskTest, WritesTheLineForOtherPrograms) {
    window->open(score(false));
    ASSERT_TRUE(soon([&] { return window->session().isOpen(); }));
    for (const char* name : {"out.musicxml", "out.mxl", "out.mid"}) {
        window->exchange().writeTo(in(name));
        ASSERT_TRUE(soon([&] { return told().contains(name); }));
        const auto back = openForeign(in(name));
        ASSERT_TRUE(back.ok()) << describe(back.error());
        EXPECT_EQ(back->study.notes.size(), 1u);
    }
    window->exchange().writeTo(in("nowhere/out.mid"));
    ASSERT_TRUE(soon([&] { return told().contains("nowhere"); }));
    window->exchange().writeTo(in("out.pdf"));
    ASSERT_TRUE(soon([&] { return told().contains("none of"); }));
}

} // namespace
} // namespace earwright::ui
