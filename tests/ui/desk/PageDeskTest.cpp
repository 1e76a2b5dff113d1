#include "ui/desk/PageDesk.h"

#include "tests/ui/Soon.h"
#include "tests/ui/page/WrittenStudy.h"

#include <QCoreApplication>
#include <QSettings>
#include <QTemporaryDir>

#include <gtest/gtest.h>

namespace earwright::ui {
namespace {

class PageDeskTest : public testing::Test {
protected:
    void SetUp() override {
        if (!view.trouble().isEmpty()) GTEST_SKIP() << view.trouble().toStdString();
        view.resize(440, 200);
        view.setBars(Range<Beats>{Beats(0), Beats(8)});
        show(writtenStudy());
        view.show();
        ASSERT_TRUE(laidOut());
    }
    void show(Study study) { view.setStudy(std::make_shared<const Study>(std::move(study))); }
    bool laidOut() {
        return soon([&] { return !desk.isLayingOut(); });
    }
    /// The phrase with its first note at another pitch.
    static Study withFirst(int midi) {
        Study study = writtenStudy();
        study.notes.front().pitch.midi = midi;
        return study;
    }
    int heightOfFirst() const { return view.placeOf(NoteId{1}).top() - view.placeOf(NoteId{8}).top(); }

    PageView view;
    QTemporaryDir folder;
    QSettings settings{folder.filePath(QStringLiteral("settings.ini")), QSettings::IniFormat};
    PageDesk desk{view, settings};
};

TEST_F(PageDeskTest, KeepsThePageUntilTheNewOneIsThere) {
    const QRect before = view.placeOf(NoteId{1});
    ASSERT_FALSE(before.isEmpty());
    show(withFirst(84));
    EXPECT_TRUE(desk.isLayingOut());
    EXPECT_EQ(view.placeOf(NoteId{1}), before);
    EXPECT_FALSE(view.isHidden());
    ASSERT_TRUE(laidOut());
    EXPECT_LT(heightOfFirst(), 0);
}

TEST_F(PageDeskTest, ShowsWhatWasWantedLast) {
    // Some are overtaken in the same turn of the event loop, some while they are laid out.
    for (int midi = 90; midi >= 67; --midi) {
        show(withFirst(midi));
        if (midi % 3 == 0) QCoreApplication::processEvents();
    }
    ASSERT_TRUE(laidOut());
    EXPECT_NEAR(heightOfFirst(), 0, 1) << "the first note is a G4 again, as the last one is";
}

TEST_F(PageDeskTest, ShowsNothingThatIsReadyAfterThePageWasPutAway) {
    show(withFirst(84));
    view.setWanted(false);
    ASSERT_TRUE(laidOut());
    EXPECT_TRUE(view.isHidden());
}

} // namespace
} // namespace earwright::ui
