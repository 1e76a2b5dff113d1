// A note grid as the desk has it, for the tests of what keys and the pointer do in it.
#pragma once

#include "tests/ui/grid/SampleStudy.h"
#include "ui/grid/NoteGrid.h"

#include <QApplication>
#include <QTest>

#include <gtest/gtest.h>

namespace earwright::ui {

/// A grid whose edits come back to it, as the desk does it, and are counted.
class EditedGrid : public testing::Test {
protected:
    void SetUp() override {
        grid.resize(600, 560);
        QObject::connect(&grid, &NoteGrid::edited, [this](const Study& study, const QString& what) {
            ++edits;
            lastEdit = what.toStdString();
            show(study);
        });
        QObject::connect(&grid, &NoteGrid::audition, [this](int midi, double) { heard.push_back(midi); });
        show(emptySample());
        grid.setPhrase(SpanId{1});
        grid.show();
        qApp->processEvents();
    }

    void show(Study study) {
        current = shared(std::move(study));
        grid.setStudy(current);
    }
    void showWithNote(const Beats& onset, const Beats& length, int midi) {
        Study study = emptySample();
        study.notes = {sampleNote(1, onset, length, midi)};
        show(std::move(study));
        grid.goToNote(NoteId{1});
    }
    QPoint cell(const Beats& place, int midi) const {
        const GridColumns columns(*current, grid.shownBars());
        return grid.geometryOfCells().cell(columns[columns.indexAt(place)], midi).center().toPoint();
    }
    QPoint head(std::uint64_t id) const {
        return grid.geometryOfCells().head(*current->note(NoteId{id})).toPoint();
    }
    void drag(QPoint from, QPoint to) {
        QTest::mousePress(grid.viewport(), Qt::LeftButton, {}, from);
        // Qt's own move helper leaves out the pressed button.
        for (const QPoint at : {(from + to) / 2, to}) {
            QMouseEvent move(QEvent::MouseMove, at, grid.viewport()->mapToGlobal(at), Qt::NoButton,
                             Qt::LeftButton, Qt::NoModifier);
            QApplication::sendEvent(grid.viewport(), &move);
        }
        QTest::mouseRelease(grid.viewport(), Qt::LeftButton, {}, to);
    }
    const Note& onlyNote() const {
        EXPECT_EQ(current->notes.size(), 1u);
        return current->notes.front();
    }

    NoteGrid grid;
    std::shared_ptr<const Study> current;
    int edits = 0;
    std::string lastEdit;
    std::vector<int> heard;
};

} // namespace earwright::ui
