#include "ui/desk/ReplaceQuestion.h"

#include "tests/ui/Picture.h"

#include <QAbstractButton>
#include <QTest>

#include <filesystem>
#include <gtest/gtest.h>
#include <memory>
#include <vector>

namespace earwright::ui {
namespace {

class ReplaceQuestionTest : public testing::Test {
protected:
    void ask(const std::vector<std::filesystem::path>& there) {
        question = std::make_unique<ReplaceQuestion>(there, [this] { ++replaced; });
        question->open();
    }
    QAbstractButton* button(QMessageBox::ButtonRole role) {
        for (QAbstractButton* one : question->buttons())
            if (question->buttonRole(one) == role) return one;
        return nullptr;
    }

    int replaced = 0;
    std::unique_ptr<ReplaceQuestion> question;
};

TEST_F(ReplaceQuestionTest, NamesTheFileAndWhatCanBeDone) {
    ask({"/music/lantern.mid"});
    keepPicture(*question, QStringLiteral("replace-question.png"));
    EXPECT_EQ(question->text(), QStringLiteral("lantern.mid is there already."));
    EXPECT_TRUE(question->informativeText().contains(QStringLiteral("another name")));
    EXPECT_EQ(question->buttons().size(), 2);
}

TEST_F(ReplaceQuestionTest, NamesFiveFilesAndCountsTheOthers) {
    ask({"/m/a.svg", "/m/b.svg", "/m/c.svg", "/m/d.svg", "/m/e.svg", "/m/f.svg", "/m/g.svg"});
    EXPECT_EQ(question->text(),
              QStringLiteral("a.svg, b.svg, c.svg, d.svg, e.svg and 2 more are there already."));
}

TEST_F(ReplaceQuestionTest, ReplacesOnceWhereThatIsChosen) {
    ask({"/music/lantern.mid"});
    button(QMessageBox::AcceptRole)->click();
    EXPECT_EQ(replaced, 1);
    EXPECT_FALSE(question->isVisible());
}

TEST_F(ReplaceQuestionTest, EnterAndEscReplaceNothing) {
    for (const Qt::Key key : {Qt::Key_Return, Qt::Key_Escape}) {
        ask({"/music/lantern.mid"});
        QTest::keyClick(question.get(), key);
        EXPECT_FALSE(question->isVisible());
    }
    EXPECT_EQ(replaced, 0);
}

} // namespace
} // namespace earwright::ui
