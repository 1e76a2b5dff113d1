#include "ui/grid/LooseEndList.h"

#include "tests/ui/grid/SampleStudy.h"
#include "ui/grid/LooseEndDelegate.h"
#include "ui/grid/LooseEndModel.h"

#include <QApplication>
#include <QLabel>
#include <QLineEdit>
#include <QListView>
#include <QSignalSpy>
#include <QTest>

#include <gtest/gtest.h>

using namespace earwright;
using namespace earwright::ui;

namespace {

class LooseEnds : public testing::Test {
protected:
    void SetUp() override {
        QObject::connect(&list, &LooseEndList::edited, [this](const Study& study, const QString& what) {
            lastEdit = what.toStdString();
            show(study);
        });
        Study study = emptySample();
        study.looseEnds = {{LooseEndId{5}, Seconds(4), "grace note?", false},
                           {LooseEndId{6}, Seconds(6.25), "which finger", false}};
        show(study);
        list.resize(400, 200);
        list.show();
        qApp->processEvents();
    }
    void show(Study study) {
        current = shared(std::move(study));
        list.setStudy(current);
    }
    QModelIndex at(int index) const { return list.view()->model()->index(index, 0); }
    QRect row(int index) const { return list.view()->visualRect(at(index)); }

    LooseEndList list;
    std::shared_ptr<const Study> current;
    std::string lastEdit;
};

} // namespace

TEST_F(LooseEnds, AreListedWithTheirPlaces) {
    const auto* model = list.view()->model();
    ASSERT_EQ(model->rowCount(), 2);
    EXPECT_EQ(model->index(0, 0).data().toString().toStdString(), "grace note?");
    EXPECT_EQ(model->index(1, 0).data(LooseEndModel::placeRole).toString().toStdString(), "bar 3, beat 3½");
}

TEST_F(LooseEnds, AreListedByTheClockWithoutBars) {
    Study study = *current;
    study.beatMap = {};
    show(study);
    EXPECT_EQ(list.view()->model()->index(1, 0).data(LooseEndModel::placeRole).toString().toStdString(),
              "0:06.3");
}

TEST_F(LooseEnds, AreTickedOffInTheirBoxAndOpenedAgain) {
    std::vector<Seconds> places;
    QObject::connect(&list, &LooseEndList::placeChosen, [&](Seconds time) { places.push_back(time); });
    const QPoint box = LooseEndDelegate::tickBox(row(1)).center();
    QTest::mouseClick(list.view()->viewport(), Qt::LeftButton, {}, box);
    EXPECT_TRUE(current->looseEnds[1].done);
    EXPECT_FALSE(current->looseEnds[0].done);
    EXPECT_EQ(lastEdit, "tick off loose end");
    QTest::mouseClick(list.view()->viewport(), Qt::LeftButton, {}, box);
    EXPECT_FALSE(current->looseEnds[1].done);
    EXPECT_TRUE(places.empty()) << "the ear stays where it is";
}

TEST_F(LooseEnds, AreGoneToByClick) {
    std::vector<Seconds> places;
    QObject::connect(&list, &LooseEndList::placeChosen, [&](Seconds time) { places.push_back(time); });
    QTest::mouseClick(list.view()->viewport(), Qt::LeftButton, {}, row(1).center());
    EXPECT_EQ(places, std::vector<Seconds>{Seconds(6.25)});
}

TEST_F(LooseEnds, SayByWhichKeyTheFirstIsSet) {
    list.setKeys([](CommandId) { return QKeySequence("Ctrl+J"); });
    bool isSaid = false;
    for (const QLabel* label : list.findChildren<QLabel*>())
        isSaid = isSaid || label->text().contains("Press Ctrl+J while listening");
    EXPECT_TRUE(isSaid);
}

TEST_F(LooseEnds, AreWordedInPlace) {
    list.view()->setCurrentIndex(at(1));
    std::vector<Seconds> places;
    QObject::connect(&list, &LooseEndList::placeChosen, [&](Seconds time) { places.push_back(time); });
    list.view()->edit(at(1));
    auto* field = list.view()->viewport()->findChild<QLineEdit*>();
    ASSERT_TRUE(field);
    field->setText("  second finger ");
    QTest::keyClick(field, Qt::Key_Return);
    qApp->processEvents();
    EXPECT_EQ(current->looseEnds[1].text, "second finger");
    EXPECT_TRUE(places.empty()) << "the ear stays where it is";
}

TEST_F(LooseEnds, AreTakenOutByDelete) {
    list.view()->setCurrentIndex(at(0));
    QTest::keyClick(list.view(), Qt::Key_Delete);
    ASSERT_EQ(current->looseEnds.size(), 1u);
    EXPECT_EQ(current->looseEnds[0].id, LooseEndId{6});
}

TEST_F(LooseEnds, LeaveTheKeyboardOnTheNextWhenOneIsTakenOut) {
    list.view()->setCurrentIndex(at(0));
    QTest::keyClick(list.view(), Qt::Key_Backspace);
    EXPECT_EQ(list.view()->currentIndex().row(), 0);
    QTest::keyClick(list.view(), Qt::Key_Delete);
    EXPECT_TRUE(current->looseEnds.empty());
}

TEST_F(LooseEnds, KeepTheKeyboardOnTheSameWhenAnotherIsSetBefore) {
    list.view()->setCurrentIndex(at(1));
    Study study = *current;
    study.looseEnds.insert(study.looseEnds.begin(), {LooseEndId{7}, Seconds(1), "first", false});
    show(study);
    EXPECT_EQ(list.view()->currentIndex().row(), 2);
}

TEST_F(LooseEnds, KeepTheirSelectionThroughOtherEdits) {
    list.view()->setCurrentIndex(at(1));
    Study study = *current;
    study.title = "another";
    show(study);
    EXPECT_EQ(list.view()->currentIndex().row(), 1);
}
