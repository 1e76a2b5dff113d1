// The check of the demo study: it contradicts what was planted, and bears out the rest.
#include "core/check/StudyCheck.h"
#include "core/listening/RecordingEvidence.h"
#include "core/sound/Recording.h"
#include "tests/demo/DemoFiles.h"

#include <algorithm>
#include <cmath>
#include <optional>

namespace earwright::demo {

namespace {

/// The study and its check, worked out once for all tests.
struct CheckedStudy {
    Study study;
    PhraseCheck check;
};

/// What the recording says, listened to once; nothing where it cannot be read.
const std::optional<RecordingEvidence>& evidence() {
    static const std::optional<RecordingEvidence> heard = []() -> std::optional<RecordingEvidence> {
        const auto recording = Recording::open(demoFile(".study").parent_path() / demoStudy().recording.path);
        if (!recording) {
            ADD_FAILURE() << recording.error().message;
            return std::nullopt;
        }
        auto listened = RecordingEvidence::listen(*recording);
        if (!listened) {
            ADD_FAILURE() << listened.error().message;
            return std::nullopt;
        }
        return *std::move(listened);
    }();
    return heard;
}

const CheckedStudy& checkedStudy() {
    static const CheckedStudy checked = [] {
        CheckedStudy result{demoStudy(), {}};
        if (!evidence()) return result;
        const auto check = checkStudy(result.study, *evidence());
        if (check) result.check = *check;
        if (!check) ADD_FAILURE() << check.error().message;
        return result;
    }();
    return checked;
}

const CheckedNote* answerAt(const PlacedPitch& pitch) {
    const auto& [study, check] = checkedStudy();
    const auto note = std::ranges::find_if(study.notes, [&](const Note& written) {
        return playedPlace(study, written) == pitch.onset && written.pitch.midi == pitch.midi;
    });
    return note == study.notes.end() ? nullptr : check.note(note->id);
}

bool isPlanted(NoteId id) {
    const Study& study = checkedStudy().study;
    const Note* note = study.note(id);
    const auto mistakes = plantedMistakes();
    return std::ranges::any_of(mistakes, [&](const PlantedMistake& mistake) {
        return note && mistake.written && mistake.written->onset == playedPlace(study, *note) &&
               mistake.written->midi == note->pitch.midi;
    });
}

bool isListedAsUnwritten(const PlacedPitch& pitch) {
    const auto& [study, check] = checkedStudy();
    const double time = study.beatMap.seconds(pitch.onset).value;
    return std::ranges::any_of(check.unwritten, [&](const UnwrittenSound& sound) {
        return sound.midi == pitch.midi && std::abs(sound.range.begin.value - time) <= 0.05;
    });
}

/// A note written a third of a beat too late stands on its own tone, which still rings: unclear is the least
/// to be said of it.
TEST(DemoCheck, ContradictsEveryPlantedPitchAndSupportsNoPlantedNote) {
    for (const PlantedMistake& mistake : plantedMistakes()) {
        if (!mistake.written) continue;
        const CheckedNote* answer = answerAt(*mistake.written);
        ASSERT_NE(answer, nullptr) << mistake.kind;
        EXPECT_NE(answer->verdict, Verdict::Supported)
            << mistake.kind << ", " << testing::PrintToString(*mistake.written) << ", score "
            << answer->score;
        if (mistake.kind != "moved") {
            EXPECT_EQ(answer->verdict, Verdict::Contradicted) << mistake.kind << ", score " << answer->score;
        }
    }
}

TEST(DemoCheck, SuggestsNoPitchWhereNothingBegins) {
    for (const PlantedMistake& mistake : plantedMistakes()) {
        if (mistake.kind != "extra" && mistake.kind != "moved") continue;
        const CheckedNote* answer = answerAt(*mistake.written);
        ASSERT_NE(answer, nullptr) << mistake.kind;
        EXPECT_EQ(answer->suggestedMidi, std::nullopt) << mistake.kind;
        EXPECT_TRUE(answer->nothingBegins) << mistake.kind;
        EXPECT_EQ(answer->beginsAt.has_value(), mistake.kind == "moved") << mistake.kind;
    }
}

// One mistake is told in one place.
TEST(DemoCheck, TellsOfAMovedNoteWhereItSoundsAndListsItNotOnceMore) {
    int moved = 0;
    for (const PlantedMistake& mistake : plantedMistakes()) {
        if (mistake.kind != "moved") continue;
        ++moved;
        const CheckedNote* answer = answerAt(*mistake.written);
        ASSERT_TRUE(answer && answer->beginsAt) << testing::PrintToString(*mistake.written);
        // MIREX note tracking's tolerance for an onset.
        EXPECT_NEAR(answer->beginsAt->value, demoStudy().beatMap.seconds(mistake.heard->onset).value, 0.05);
        EXPECT_FALSE(isListedAsUnwritten(*mistake.heard)) << testing::PrintToString(*mistake.heard);
    }
    EXPECT_GT(moved, 0);
}

TEST(DemoCheck, SuggestsWhatSoundsInPlaceOfAWrongPitch) {
    for (const PlantedMistake& mistake : plantedMistakes()) {
        if (!mistake.written || !mistake.heard || mistake.written->onset != mistake.heard->onset) continue;
        const CheckedNote* answer = answerAt(*mistake.written);
        ASSERT_NE(answer, nullptr) << mistake.kind;
        EXPECT_EQ(answer->suggestedMidi, mistake.heard->midi) << mistake.kind;
    }
}

TEST(DemoCheck, ListsTheNoteThatIsMissingAsUnwritten) {
    for (const PlantedMistake& mistake : plantedMistakes()) {
        if (mistake.written) continue;
        EXPECT_TRUE(isListedAsUnwritten(*mistake.heard)) << testing::PrintToString(*mistake.heard);
    }
}

TEST(DemoCheck, ContradictsNothingThatIsRightAndSupportsNearlyAllOfIt) {
    int right = 0;
    int supported = 0;
    for (const CheckedNote& answer : checkedStudy().check.notes) {
        if (isPlanted(answer.note)) continue;
        ++right;
        if (answer.verdict == Verdict::Supported) ++supported;
        EXPECT_NE(answer.verdict, Verdict::Contradicted)
            << "MIDI " << answer.midi << " at " << answer.range.begin.value << " s, score " << answer.score;
    }
    // A ghosted note or one covered by the band may honestly be unclear: one in twenty at most.
    ASSERT_GT(right, 70);
    EXPECT_GE(supported * 20, right * 19);
}

// What follows it is right, and sounds with its octave; the note after that is planted an octave low.
TEST(DemoCheck, TakesNoRightNoteIntoABarThatIsWrittenAnOctaveLow) {
    ASSERT_TRUE(evidence());
    Study study = demoStudy();
    constexpr std::int64_t bar = 10;
    int lowered = 0;
    for (Note& note : study.notes)
        if (study.meters().barOf(note.onset) == bar) {
            note.pitch.midi -= 12;
            ++lowered;
        }
    ASSERT_GE(lowered, 5);
    const auto check = checkStudy(study, *evidence());
    ASSERT_TRUE(check);
    int together = 0;
    for (const CheckedNote& note : check->notes) {
        if (!note.together) continue;
        ++together;
        EXPECT_NE(note.verdict, Verdict::Supported);
        EXPECT_EQ(note.together->semitones, 12);
    }
    EXPECT_EQ(together, lowered);
}

/// It is played over a whole tone.
TEST(DemoCheck, TellsOfTheTrillWhereItIsWrittenOverASemitone) {
    ASSERT_TRUE(evidence());
    EXPECT_TRUE(checkedStudy().check.otherTrills.empty());
    Study study = demoStudy();
    const auto trilled =
        std::ranges::find_if(study.notes, [](const Note& note) { return note.phrasing.trill.has_value(); });
    ASSERT_NE(trilled, study.notes.end());
    ASSERT_EQ(trilled->phrasing.trill, 2);
    trilled->phrasing.trill = 1;
    const Span* phrase = study.spanAt(SpanKind::Phrase, study.beatMap.seconds(trilled->onset));
    ASSERT_TRUE(phrase);
    const auto check = checkPhrase(study, *phrase, *evidence());
    ASSERT_TRUE(check);
    EXPECT_EQ(check->note(trilled->id)->verdict, Verdict::Supported);
    ASSERT_EQ(check->otherTrills.size(), 1u);
    EXPECT_EQ(check->otherTrills[0].note, trilled->id);
    EXPECT_EQ(check->otherTrills[0].heard, 2);
    EXPECT_EQ(check->otherTrills[0].verdict, Verdict::Contradicted);
    EXPECT_TRUE(check->unwritten.empty()) << "its other note is not left out";
}

} // namespace

} // namespace earwright::demo
