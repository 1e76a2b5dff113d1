#include "core/study/SpellingEdits.h"

#include "core/study/NoteEdits.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <string>
#include <vector>

namespace earwright {
namespace {

constexpr PitchName cSharp{Step::C, 1};
constexpr PitchName dFlat{Step::D, -1};

/// The names a note goes through, from its own back to it.
std::vector<std::string> turnOf(int midi, const PitchName& byItself) {
    auto [study, id] = addNote({}, {Pitch{midi, {}}, Beats(0)});
    std::vector<std::string> names;
    do {
        study = respell(study, id, byItself);
        const auto& name = study.note(id)->pitch.spelling;
        names.push_back(name ? toString(*name) : "by itself");
    } while (study.note(id)->pitch.spelling && names.size() < 9);
    return names;
}

// Every key of the piano has three names with at most a double accidental, G sharp (A flat) two (common
// practice).
TEST(SpellingEdits, GoThroughTheNamesOfAPitchAndBack) {
    EXPECT_THAT(turnOf(61, dFlat), testing::ElementsAre("C♯", "B♯♯", "by itself"));
    EXPECT_THAT(turnOf(61, cSharp), testing::ElementsAre("D♭", "B♯♯", "by itself"));
    EXPECT_THAT(turnOf(60, {Step::C, 0}), testing::ElementsAre("B♯", "D♭♭", "by itself"));
    EXPECT_THAT(turnOf(65, {Step::F, 0}), testing::ElementsAre("E♯", "G♭♭", "by itself"));
    EXPECT_THAT(turnOf(71, {Step::B, 0}), testing::ElementsAre("C♭", "A♯♯", "by itself"));
    EXPECT_THAT(turnOf(68, {Step::A, -1}), testing::ElementsAre("G♯", "by itself"));
    EXPECT_THAT(turnOf(62, {Step::D, 0}), testing::ElementsAre("C♯♯", "E♭♭", "by itself"));
}

TEST(SpellingEdits, LeaveANameThatIsNoLongerInTheTurn) {
    auto [study, id] = addNote({}, {Pitch{61, {}}, Beats(0)});
    study = setSpelling(study, id, dFlat);
    EXPECT_FALSE(respell(study, id, dFlat).note(id)->pitch.spelling) << "it is the note's own by now";
}

TEST(SpellingEdits, ChangeNothingButTheName) {
    const auto [study, id] = addNote({}, {Pitch{61, {}}, Beats(0)});
    Study named = setSpelling(study, id, cSharp);
    EXPECT_EQ(named.note(id)->pitch.spelling, cSharp);
    EXPECT_EQ(setSpelling(named, id, std::nullopt), study);
    EXPECT_EQ(setSpelling(study, id, PitchName{Step::D, 0}), study);
    EXPECT_EQ(setSpelling(study, {999}, cSharp), study);
    EXPECT_EQ(respell(study, {999}, dFlat), study);
}

} // namespace
} // namespace earwright
