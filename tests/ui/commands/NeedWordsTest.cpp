#include "ui/commands/NeedWords.h"

#include "ui/commands/CommandTable.h"

#include <gtest/gtest.h>
#include <set>

namespace earwright::ui {
namespace {

TEST(NeedWords, HaveASentenceForEveryNeedOfEveryCommandAndOneForEach) {
    std::set<int> needs;
    for (const Command& entry : commandTable())
        for (int bit = 0; bit < 31; ++bit)
            if (entry.needs.testFlag(Condition(1 << bit))) needs.insert(1 << bit);
    std::set<QString> sentences;
    for (const int need : needs)
        sentences.insert(needWords(Condition(need)));
    EXPECT_FALSE(sentences.contains(QString()));
    EXPECT_EQ(sentences.size(), needs.size());
    EXPECT_GE(needs.size(), 18u);
}

TEST(NeedWords, NameWhatHasToComeFirst) {
    EXPECT_EQ(needWords(Condition::Tempo | Condition::StudyOpen | Condition::NoteSelected),
              needWords(Condition::StudyOpen));
    EXPECT_EQ(needWords({}), QString());
}

} // namespace
} // namespace earwright::ui
