// The feel measured in the demo's recording, against the onsets its script played.
#include "core/check/Feel.h"
#include "core/check/StudyPlaying.h"
#include "core/listening/RecordingEvidence.h"
#include "core/sound/Recording.h"
#include "core/study/PlayedTime.h"
#include "tests/demo/DemoFiles.h"

#include <algorithm>

namespace earwright::demo {

namespace {

/// The same notes with the onsets they were played with; planted mistakes have none and are left out.
PlayedNotes asScripted(const PlayedNotes& measured, const Study& study) {
    PlayedNotes scripted;
    const std::vector<PlayedNote> line = playedLine();
    for (const auto& [id, playing] : measured) {
        const Note* note = study.note(id);
        const auto played = std::ranges::find_if(line, [&](const PlayedNote& candidate) {
            return candidate.pitch.onset == playedPlace(study, *note) &&
                   candidate.pitch.midi == note->pitch.midi;
        });
        if (played == line.end()) continue;
        earwright::PlayedNote exact = playing;
        exact.heard.begin = played->time;
        scripted.emplace(id, exact);
    }
    return scripted;
}

} // namespace

TEST(DemoFeel, IsMeasuredUnderTheBandAsTheScriptPlayedIt) {
    const Study study = demoStudy();
    const auto recording = Recording::open(demoFile(".study").parent_path() / study.recording.path);
    ASSERT_TRUE(recording);
    const auto evidence = RecordingEvidence::listen(*recording);
    ASSERT_TRUE(evidence);
    int told = 0;
    for (const Span& phrase : study.spansOf(SpanKind::Phrase)) {
        const std::vector<Note> notes = notesPlayedIn(study, phrase.range);
        const auto measured = measurePlaying(study, notes, *evidence);
        ASSERT_TRUE(measured);
        const PlayedNotes scripted = asScripted(*measured, study);
        PlayedNotes known;
        for (const auto& [id, playing] : *measured)
            if (scripted.contains(id)) known.emplace(id, playing);
        const Feel heard = feelOf(study, notes, known);
        const Feel truth = feelOf(study, notes, scripted);
        // Over all notes of the tune onsets are heard 5 ms after the script's, give or take 2 ms: the attack
        // of the string. A further 3 ms for single ones that are heard less well.
        if (truth.placement) {
            EXPECT_NEAR(heard.placement->behind.value, truth.placement->behind.value, 0.008) << phrase.name;
        }
        // Two such onsets in a short eighth of 170 ms, five pairs: 5 % of the ratio.
        if (truth.swing) {
            EXPECT_NEAR(heard.swing->ratio, truth.swing->ratio, 0.05 * truth.swing->ratio) << phrase.name;
        }
        told += truth.swing ? 1 : 0;
    }
    EXPECT_GE(told, 4);
}

} // namespace earwright::demo
