#include "core/study/SpreadEdits.h"

#include "core/study/NoteEdits.h"

#include <gtest/gtest.h>
#include <string>

namespace earwright {
namespace {

/// Notes one after the other from beat 4 on, the second bar of 4/4; lengths in eighths.
Study written(const std::vector<int>& eighths) {
    Study study;
    Beats at(4);
    int midi = 60;
    for (const int length : eighths) {
        study = addNote(study, {Pitch{midi++, {}}, at, Beats(length, 2)}).study;
        at += Beats(length, 2);
    }
    return study;
}

std::vector<NoteId> all(const Study& study) {
    std::vector<NoteId> ids;
    for (const Note& note : study.notes)
        ids.push_back(note.id);
    return ids;
}

/// "4 + 2/3, 14/3 + 2/3".
std::string placesOf(const Study& study) {
    std::string text;
    for (const Note& note : study.notes)
        text += (text.empty() ? "" : ", ") + toString(note.onset) + " + " + toString(note.length);
    return text;
}

TEST(SpreadEdits, MakeATripletOverTheBeatsThatTheNotesLieIn) {
    Study study = written({1, 1, 1});
    study = spreadEvenly(study, all(study));
    EXPECT_EQ(placesOf(study), "4 + 2/3, 14/3 + 2/3, 16/3 + 2/3");
    EXPECT_EQ(study.divisionOf(4), BeatDivision::Three);
    EXPECT_EQ(study.divisionOf(5), BeatDivision::Three);
    EXPECT_EQ(spreadEvenly(study, all(study)), study) << "spread they stay";
    study = written({2, 2, 3});
    EXPECT_EQ(placesOf(spreadEvenly(study, all(study))), "4 + 4/3, 16/3 + 4/3, 20/3 + 4/3");
    study = written({1, 1, 1, 1, 3});
    EXPECT_EQ(placesOf(spreadEvenly(study, all(study))),
              "4 + 4/5, 24/5 + 4/5, 28/5 + 4/5, 32/5 + 4/5, 36/5 + 4/5");
}

TEST(SpreadEdits, KeepDoubleStopsTogetherAndShortenWhatSoundsIntoThem) {
    Study study = written({1, 1, 1});
    study = addNote(study, {Pitch{72, {}}, Beats(9, 2), Beats(1, 2)}).study;
    std::vector<NoteId> chosen = all(study);
    study.notes.insert(study.notes.begin(),
                       Note{NoteId{study.nextId++}, Beats(3), Beats(3, 2), Pitch{50, {}}, 0.6, {}});
    study = spreadEvenly(study, chosen);
    EXPECT_EQ(placesOf(study), "3 + 1, 4 + 2/3, 14/3 + 2/3, 14/3 + 2/3, 16/3 + 2/3");
}

TEST(SpreadEdits, ReachToTheEndOfTheLongestNote) {
    Study study;
    study.notes = {Note{NoteId{1}, Beats(4), Beats(3), Pitch{60, {}}, 0.6, {}},
                   Note{NoteId{2}, Beats(4), Beats(1), Pitch{64, {}}, 0.6, {}},
                   Note{NoteId{3}, Beats(5), Beats(1), Pitch{67, {}}, 0.6, {}}};
    study.nextId = 4;
    study = spreadEvenly(study, {NoteId{1}, NoteId{2}, NoteId{3}});
    EXPECT_EQ(placesOf(study), "4 + 3/2, 4 + 3/2, 11/2 + 3/2");
}

TEST(SpreadEdits, LeaveEverythingWhereAnotherNoteStandsInTheWay) {
    const Study study = written({1, 1, 1, 1});
    std::vector<NoteId> chosen = all(study);
    chosen.pop_back();
    EXPECT_EQ(spreadEvenly(study, chosen), study);
    EXPECT_EQ(spreadEvenly(study, {study.notes.front().id}), study);
    EXPECT_EQ(spreadEvenly(study, {}), study);
    EXPECT_EQ(spreadEvenly(study, {NoteId{99}}), study);
}

} // namespace
} // namespace earwright
