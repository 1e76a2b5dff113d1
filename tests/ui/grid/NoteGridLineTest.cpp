// Several notes at a time, and the marks of the page that go with them.
#include "core/study/PageEdits.h"
#include "tests/ui/grid/EditedGrid.h"
#include "ui/grid/NoteGrid.h"
#include "ui/theme/InlineEditor.h"

#include <QMenu>

namespace earwright::ui {
namespace {

class NoteGridLine : public EditedGrid {
protected:
    void SetUp() override {
        EditedGrid::SetUp();
        Study study = emptySample();
        for (int i = 0; i < 4; ++i)
            study.notes.push_back(
                sampleNote(static_cast<std::uint64_t>(i + 1), Beats(4 + i), Beats(1), 67 + i));
        show(std::move(study));
        grid.goToNote(NoteId{2});
    }
    std::vector<std::uint64_t> chosen() const {
        std::vector<std::uint64_t> ids;
        for (const NoteId id : grid.selectedNotes())
            ids.push_back(id.value);
        return ids;
    }
    std::vector<std::uint64_t> marked(bool Phrasing::*mark) const {
        std::vector<std::uint64_t> ids;
        for (const Note& note : current->notes)
            if (note.phrasing.*mark) ids.push_back(note.id.value);
        return ids;
    }
};

TEST_F(NoteGridLine, TakesInNotesAndLetsThemGoByKey) {
    EXPECT_EQ(chosen(), (std::vector<std::uint64_t>{2}));
    grid.extendSelection(1);
    grid.extendSelection(1);
    EXPECT_EQ(chosen(), (std::vector<std::uint64_t>{2, 3, 4}));
    grid.extendSelection(1);
    grid.extendSelection(-1);
    EXPECT_EQ(chosen(), (std::vector<std::uint64_t>{2, 3}));
    for (int i = 0; i < 2; ++i)
        grid.extendSelection(-1);
    EXPECT_EQ(chosen(), (std::vector<std::uint64_t>{1, 2}));
    EXPECT_TRUE(grid.dropSelection());
    EXPECT_EQ(chosen(), (std::vector<std::uint64_t>{1}));
    EXPECT_FALSE(grid.dropSelection());
    grid.selectAll();
    EXPECT_EQ(chosen().size(), 4u);
    grid.moveCursor(1, 0);
    EXPECT_LE(chosen().size(), 1u) << "the cursor goes on alone";
}

TEST_F(NoteGridLine, TakesInNotesByShiftAndByControlClick) {
    QTest::mouseClick(grid.viewport(), Qt::LeftButton, Qt::ShiftModifier, head(4));
    EXPECT_EQ(chosen(), (std::vector<std::uint64_t>{2, 3, 4}));
    QTest::mouseClick(grid.viewport(), Qt::LeftButton, Qt::ControlModifier, head(3));
    EXPECT_EQ(chosen(), (std::vector<std::uint64_t>{2, 4}));
    QTest::mouseClick(grid.viewport(), Qt::LeftButton, Qt::ControlModifier, head(1));
    EXPECT_EQ(chosen(), (std::vector<std::uint64_t>{1, 2, 4}));
    EXPECT_EQ(edits, 0);
}

TEST_F(NoteGridLine, TellsOfEveryChangeOfWhatIsChosen) {
    std::vector<std::uint64_t> told;
    int times = 0;
    QObject::connect(&grid, &NoteGrid::selectionChanged, [&] {
        told = chosen();
        ++times;
    });
    grid.extendSelection(1);
    EXPECT_EQ(told, (std::vector<std::uint64_t>{2, 3}));
    grid.extendSelection(1);
    EXPECT_EQ(told, (std::vector<std::uint64_t>{2, 3, 4}));
    grid.dropSelection();
    EXPECT_EQ(told, (std::vector<std::uint64_t>{4}));
    EXPECT_EQ(times, 3) << "once each";
}

TEST_F(NoteGridLine, ChoosesOneNoteByAPlainClick) {
    QTest::mouseClick(grid.viewport(), Qt::LeftButton, Qt::ShiftModifier, head(4));
    ASSERT_EQ(chosen().size(), 3u);
    QTest::mouseClick(grid.viewport(), Qt::LeftButton, {}, head(1));
    EXPECT_EQ(chosen(), (std::vector<std::uint64_t>{1}));
    grid.removeNote();
    EXPECT_EQ(current->notes.size(), 3u) << "those chosen before stay";
}

TEST_F(NoteGridLine, MarksAWholeSelectionInOneStepAndTakesItOffAgain) {
    grid.extendSelection(1);
    grid.togglePhrasing(PhrasingKind::Staccato);
    EXPECT_EQ(edits, 1);
    EXPECT_EQ(marked(&Phrasing::staccato), (std::vector<std::uint64_t>{2, 3}));
    EXPECT_EQ(chosen(), (std::vector<std::uint64_t>{2, 3})) << "what is chosen stays so for the next mark";
    grid.moveNote(0, 1);
    EXPECT_EQ(current->notes[1].pitch.midi, 69);
    EXPECT_EQ(current->notes[2].pitch.midi, 70);
    EXPECT_EQ(chosen(), (std::vector<std::uint64_t>{2, 3}));
    grid.togglePhrasing(PhrasingKind::Staccato);
    EXPECT_TRUE(marked(&Phrasing::staccato).empty());
    grid.removeNote();
    EXPECT_EQ(current->notes.size(), 2u);
    EXPECT_EQ(edits, 4);
}

TEST_F(NoteGridLine, SetsDynamicsByKeyFromTheLevelThatStands) {
    grid.stepDynamic(1);
    EXPECT_EQ(current->page.dynamics, (std::vector<DynamicMark>{{Beats(5), Dynamic::mf}}));
    grid.stepDynamic(1);
    EXPECT_EQ(current->page.dynamics[0].level, Dynamic::f);
    grid.goToNote(NoteId{3});
    grid.stepDynamic(-1);
    EXPECT_EQ(current->page.dynamics[1], (DynamicMark{Beats(6), Dynamic::f})) << "first what stands there";
    for (int i = 0; i < 9; ++i)
        grid.stepDynamic(1);
    EXPECT_EQ(current->page.dynamics[1].level, Dynamic::fff);
    EXPECT_EQ(edits, 5) << "at the loudest nothing changes any more";
    grid.clearPageMarks();
    EXPECT_EQ(current->page.dynamics.size(), 1u);
}

TEST_F(NoteGridLine, GoesOnFromTheLevelBeforeASforzato) {
    grid.stepDynamic(1);
    grid.goToNote(NoteId{3});
    show(setDynamic(*current, Beats(6), Dynamic::sfz));
    grid.stepDynamic(-1);
    EXPECT_EQ(current->page.dynamics[1], (DynamicMark{Beats(6), Dynamic::mp}));
}

TEST_F(NoteGridLine, DrawsAHairpinOverTheSelectionAndTakesItAway) {
    grid.extendSelection(1);
    grid.toggleHairpin(HairpinKind::Louder);
    const Range<Beats> both{Beats(5), Beats(7)};
    EXPECT_EQ(current->page.hairpins, (std::vector<Hairpin>{{both, HairpinKind::Louder}}));
    grid.toggleHairpin(HairpinKind::Softer);
    EXPECT_EQ(current->page.hairpins, (std::vector<Hairpin>{{both, HairpinKind::Softer}}));
    grid.toggleHairpin(HairpinKind::Softer);
    EXPECT_TRUE(current->page.hairpins.empty());
    EXPECT_EQ(edits, 3);
}

TEST_F(NoteGridLine, TakesWordsFromAFieldInTheLane) {
    grid.askForWords(false);
    auto* field = grid.viewport()->findChild<InlineEditor*>();
    ASSERT_TRUE(field);
    QTest::keyClicks(field, "laid back");
    QTest::keyClick(field, Qt::Key_Return);
    EXPECT_EQ(current->page.texts, (std::vector<TextMark>{{Beats(5), "laid back", false}}));
    grid.askForWords(false);
    field = grid.viewport()->findChild<InlineEditor*>();
    ASSERT_TRUE(field);
    EXPECT_EQ(field->text().toStdString(), "laid back");
    QTest::keyClicks(field, "else");
    QTest::keyClick(field, Qt::Key_Escape);
    EXPECT_EQ(current->page.texts[0].text, "laid back");
    EXPECT_EQ(edits, 1);
}

TEST_F(NoteGridLine, LosesWhatIsSelectedWhenThePageIsTurned) {
    Study study = *current;
    study.notes.push_back(sampleNote(9, Beats(12), Beats(1), 70));
    show(study);
    grid.selectAll();
    ASSERT_EQ(chosen(), (std::vector<std::uint64_t>{1, 2, 3, 4}));
    grid.setRange({Beats(12), Beats(16)});
    EXPECT_EQ(chosen(), (std::vector<std::uint64_t>{9})) << "only what is seen";
    grid.extendSelection(0);
    EXPECT_EQ(chosen(), (std::vector<std::uint64_t>{9})) << "no selection goes on from the page before";
    grid.removeNote();
    EXPECT_EQ(current->notes.size(), 4u) << "nothing unseen is removed";
}

TEST_F(NoteGridLine, SetsAMarkWhereTheLaneIsClickedUnderALongNote) {
    Study study = emptySample();
    study.notes = {sampleNote(1, Beats(4), Beats(4), 67)};
    show(study);
    grid.goToNote(NoteId{1});
    const auto actionsAt = [this](const Beats& place) {
        const GridGeometry& geometry = grid.geometryOfCells();
        QTest::mouseClick(grid.viewport(), Qt::LeftButton, {},
                          QPointF(geometry.x(place) + 5, geometry.markLane().center().y()).toPoint());
        const auto menus = grid.findChildren<QMenu*>();
        EXPECT_FALSE(menus.isEmpty());
        return menus.back()->actions();
    };
    const auto choose = [](const QList<QAction*>& actions, const char* words) {
        for (QAction* action : actions)
            if (action->text().startsWith(QLatin1String(words))) return action->trigger();
        FAIL() << words;
    };
    choose(actionsAt(Beats(6)), "ppp");
    EXPECT_EQ(current->page.dynamics, (std::vector<DynamicMark>{{Beats(6), Dynamic::ppp}}));
    choose(actionsAt(Beats(7)), "Louder");
    EXPECT_EQ(current->page.hairpins,
              (std::vector<Hairpin>{{{Beats(7), Beats(15, 2)}, HairpinKind::Louder}}));
    choose(actionsAt(Beats(5)), "Words over");
    auto* field = grid.viewport()->findChild<InlineEditor*>();
    QTest::keyClicks(field, "here");
    QTest::keyClick(field, Qt::Key_Return);
    EXPECT_EQ(current->page.texts, (std::vector<TextMark>{{Beats(5), "here", false}}));
    choose(actionsAt(Beats(6)), "Take away");
    EXPECT_TRUE(current->page.dynamics.empty());
    EXPECT_EQ(current->page.texts.size(), 1u) << "only what stands there";
}

TEST_F(NoteGridLine, KeepsWordsThatAreLeftByTabOrByAClickElsewhere) {
    grid.activateWindow();
    ASSERT_TRUE(QTest::qWaitForWindowActive(&grid));
    grid.askForWords(false);
    auto* field = grid.viewport()->findChild<InlineEditor*>();
    ASSERT_TRUE(field->hasFocus());
    QTest::keyClicks(field, "laid back");
    QTest::keyClick(field, Qt::Key_Tab);
    EXPECT_FALSE(field->isVisible());
    EXPECT_EQ(current->page.texts, (std::vector<TextMark>{{Beats(5), "laid back", false}}));
    grid.askForWords(true);
    QTest::keyClicks(field, "cue");
    grid.setFocus(Qt::MouseFocusReason);
    EXPECT_EQ(current->page.texts.size(), 2u);
    grid.askForWords(true);
    grid.setFocus(Qt::MouseFocusReason);
    EXPECT_EQ(edits, 2) << "nothing was typed";
}

TEST_F(NoteGridLine, OffersDynamicsByMouseInTheLane) {
    const GridGeometry& geometry = grid.geometryOfCells();
    QTest::mouseClick(grid.viewport(), Qt::LeftButton, {},
                      QPointF(geometry.x(Beats(6)) + 5, geometry.markLane().center().y()).toPoint());
    const auto menus = grid.findChildren<QMenu*>();
    ASSERT_EQ(menus.size(), 1);
    menus[0]->actions()[0]->trigger();
    EXPECT_EQ(current->page.dynamics, (std::vector<DynamicMark>{{Beats(6), Dynamic::ppp}}));
}

TEST_F(NoteGridLine, PreviewsAnotherStudyWithoutTouchingItsOwn) {
    Study draft = *current;
    draft.notes.clear();
    grid.preview(shared(draft));
    EXPECT_EQ(grid.selectedNote(), std::nullopt);
    grid.preview(nullptr);
    EXPECT_EQ(grid.selectedNote(), NoteId{2});
    EXPECT_EQ(edits, 0);
}

} // namespace
} // namespace earwright::ui
