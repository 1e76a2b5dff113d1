#include "ui/grid/PhrasingBar.h"

#include "tests/ui/grid/EditedGrid.h"
#include "ui/theme/QuietButton.h"

#include <QLabel>
#include <QMenu>

#include <set>

namespace earwright::ui {
namespace {

/// The bar in the grid it belongs to.
using PhrasingBarInGrid = EditedGrid;

TEST_F(PhrasingBarInGrid, OffersPhrasingAtTheChosenNoteWithoutCoveringIt) {
    auto* bar = grid.findChild<PhrasingBar*>();
    EXPECT_FALSE(bar->isVisible());
    showWithNote(Beats(5), Beats(1), 67);
    ASSERT_TRUE(bar->isVisible());
    EXPECT_FALSE(QRectF(bar->geometry()).intersects(grid.geometryOfCells().outline(onlyNote())));
    EXPECT_TRUE(grid.viewport()->rect().contains(bar->geometry()));
    QTest::mouseClick(bar->button(PhrasingKind::Trill), Qt::LeftButton);
    // From G to A, the next note of C major.
    EXPECT_EQ(onlyNote().phrasing.trill, 2);
    EXPECT_TRUE(bar->button(PhrasingKind::Trill)->isChecked());
    grid.moveCursor(0, 3);
    EXPECT_FALSE(bar->isVisible());
}

/// A line all over the cells that are seen, in eighths.
Study leapingLine() {
    Study study = emptySample();
    for (int i = 0; i < 16; ++i)
        study.notes.push_back(sampleNote(static_cast<std::uint64_t>(i + 1), Beats(4) + Beats(i, 2),
                                         Beats(1, 2), 60 + 5 * i % 12));
    return study;
}

TEST_F(PhrasingBarInGrid, OffersPhrasingWhereItHidesNoNoteOfTheLineHoweverSmallTheGrid) {
    auto* bar = grid.findChild<PhrasingBar*>();
    for (const QSize size : {QSize(600, 560), QSize(400, 260), grid.minimumSize()}) {
        grid.resize(size);
        qApp->processEvents();
        show(leapingLine());
        for (const Note& note : leapingLine().notes) {
            grid.goToNote(note.id);
            grid.togglePhrasing(PhrasingKind::Trill);
            ASSERT_TRUE(bar->isVisible()) << note.id.value;
            EXPECT_TRUE(grid.viewport()->rect().contains(bar->geometry())) << note.id.value;
            const QRectF cells = grid.geometryOfCells().cells();
            for (const Note& other : current->notes)
                EXPECT_FALSE(
                    QRectF(bar->geometry()).intersects(grid.geometryOfCells().outline(other) & cells))
                    << other.id.value << " beside " << note.id.value;
        }
    }
}

TEST_F(PhrasingBarInGrid, LeavesToTheMenuWhatHasNoRoomInTheRowUnderTheCells) {
    auto* bar = grid.findChild<PhrasingBar*>();
    grid.resize(grid.minimumSize());
    show(leapingLine());
    grid.goToNote(NoteId{4});
    grid.togglePhrasing(PhrasingKind::Accent);
    ASSERT_TRUE(bar->isVisible());
    EXPECT_TRUE(bar->button(PhrasingKind::Accent)->isVisible()) << "a mark that the note has";
    EXPECT_TRUE(bar->button(PhrasingKind::Slide)->isVisible());
    EXPECT_FALSE(bar->button(PhrasingKind::Ghost)->isVisible());
    EXPECT_TRUE(bar->moreButton()->isVisible());
    showWithNote(Beats(5), Beats(1), 67);
    grid.resize(600, 560);
    qApp->processEvents();
    EXPECT_TRUE(bar->button(PhrasingKind::Ghost)->isVisible());
}

TEST_F(PhrasingBarInGrid, OffersNoPhrasingOverTheEvidenceForTheChosenNote) {
    auto* bar = grid.findChild<PhrasingBar*>();
    showWithNote(Beats(5), Beats(1), 67);
    grid.setEvidence(ColumnEvidence{{Beats(6), Beats(7)}, {{66, 0.9}}});
    EXPECT_TRUE(bar->isVisible());
    grid.setEvidence(ColumnEvidence{{Beats(5), Beats(6)}, {{66, 0.9}}});
    EXPECT_FALSE(bar->isVisible());
    grid.setEvidence(std::nullopt);
    EXPECT_TRUE(bar->isVisible());
}

TEST_F(PhrasingBarInGrid, ChangesTheValueOfTheMarkSetLast) {
    auto* bar = grid.findChild<PhrasingBar*>();
    showWithNote(Beats(5), Beats(1), 67);
    EXPECT_EQ(bar->valueText(), QString());
    grid.togglePhrasing(PhrasingKind::Trill);
    grid.togglePhrasing(PhrasingKind::Bend);
    EXPECT_EQ(bar->valueText().toStdString(), "bend up a whole tone");
    grid.stepMark(1);
    EXPECT_EQ(onlyNote().phrasing.bend, (Bend{6, BendShape::Up}));
    EXPECT_EQ(onlyNote().phrasing.trill, 2) << "only the mark set last";
    QTest::mouseClick(bar->lowerButton(), Qt::LeftButton);
    EXPECT_EQ(onlyNote().phrasing.bend, (Bend{4, BendShape::Up}));
    EXPECT_EQ(edits, 4);
    EXPECT_EQ(lastEdit, "bend");
}

TEST_F(PhrasingBarInGrid, ShowsEveryValueWholeInTheNarrowestGrid) {
    auto* bar = grid.findChild<PhrasingBar*>();
    const auto* value = bar->findChild<QLabel*>();
    grid.resize(grid.minimumSize().width(), 560);
    qApp->processEvents();
    for (const PhrasingKind kind : allPhrasingKinds) {
        showWithNote(Beats(5), Beats(1), 67);
        for (int i = 0; i < 4; ++i) { // the longest value of a bend comes late
            grid.togglePhrasing(kind);
            ASSERT_TRUE(bar->isVisible());
            EXPECT_TRUE(grid.viewport()->rect().contains(bar->geometry())) << static_cast<int>(kind);
            for (const QWidget* part : bar->findChildren<QWidget*>(Qt::FindDirectChildrenOnly)) {
                if (part->isVisible()) {
                    EXPECT_TRUE(bar->rect().contains(part->geometry())) << static_cast<int>(kind);
                }
            }
            if (bar->valueText().isEmpty()) continue;
            EXPECT_LE(value->heightForWidth(value->width()), value->height()) << value->text().toStdString();
            EXPECT_GE(value->geometry().top(), bar->moreButton()->geometry().bottom()) << "a row of its own";
        }
    }
}

TEST_F(PhrasingBarInGrid, OffersEveryMarkInTheMenuWithALetterEach) {
    showWithNote(Beats(5), Beats(1), 67);
    grid.openMarks();
    auto* bar = grid.findChild<PhrasingBar*>();
    const auto menus = bar->findChildren<QMenu*>();
    ASSERT_EQ(menus.size(), 1);
    std::set<QChar> letters;
    std::size_t marks = 0;
    for (const QAction* action : menus[0]->actions()) {
        if (!action->isCheckable()) continue;
        ++marks;
        EXPECT_TRUE(action->text().contains(QLatin1Char('\t'))) << "its key stands beside it";
        const auto at = action->text().indexOf(QLatin1Char('&'));
        ASSERT_GE(at, 0) << action->text().toStdString();
        EXPECT_TRUE(letters.insert(action->text()[at + 1].toLower()).second) << action->text().toStdString();
    }
    EXPECT_EQ(marks, allPhrasingKinds.size());
    QTest::keyClick(menus[0], Qt::Key_V);
    EXPECT_TRUE(onlyNote().phrasing.vibrato);
}

} // namespace
} // namespace earwright::ui
