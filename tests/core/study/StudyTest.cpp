#include "core/study/Study.h"

#include "core/study/NoteEdits.h"
#include "core/study/SpanEdits.h"
#include "tests/core/study/SampleStudy.h"

#include <gtest/gtest.h>

namespace earwright {
namespace {

Range<Seconds> between(double begin, double end) {
    return {Seconds(begin), Seconds(end)};
}

TEST(Study, FindsNotesAndSpansByIdOrSaysThereAreNone) {
    const StudyWithNote note = addNote({}, {Pitch{60, {}}, Beats(0), Beats(1)});
    const StudyWithSpan span = addSpan(note.study, SpanKind::Phrase, "a", between(0, 1));
    EXPECT_EQ(span.study.note(note.id)->pitch.midi, 60);
    EXPECT_EQ(span.study.span(span.id)->name, "a");
    EXPECT_EQ(span.study.note(NoteId{99}), nullptr);
    EXPECT_EQ(span.study.span(SpanId{99}), nullptr);
}

TEST(Study, TheInnermostSpanOfItsKindIsTheOneAtATime) {
    Study study = addSpan({}, SpanKind::Phrase, "long", between(0, 10)).study;
    study = addSpan(study, SpanKind::Phrase, "short", between(2, 4)).study;
    study = addSpan(study, SpanKind::Section, "head", between(2, 3)).study;
    EXPECT_EQ(study.spanAt(SpanKind::Phrase, Seconds(2.5))->name, "short");
    EXPECT_EQ(study.spanAt(SpanKind::Phrase, Seconds(4))->name, "long");
    EXPECT_EQ(study.spanAt(SpanKind::Phrase, Seconds(10)), nullptr);
    EXPECT_EQ(study.spansOf(SpanKind::Section).size(), 1u);
}

TEST(Study, ChorusesCountByTheNearestBarLines) {
    Study study = eightBarsAt120();
    study = addSpan(study, SpanKind::Chorus, "1", between(0.3, 7.8)).study;
    study = addSpan(study, SpanKind::Chorus, "2", between(7.8, 16.4)).study;
    study = addSpan(study, SpanKind::Chorus, "too short to be one", between(9, 9.1)).study;
    EXPECT_EQ(study.chorusBars(), (std::vector<ChorusBars>{{1, 4}, {5, 4}}));
    study.beatMap = {};
    EXPECT_TRUE(study.chorusBars().empty());
}

TEST(Study, APickupChorusHasBarsBelowOne) {
    const Study study = addSpan(eightBarsAt120(), SpanKind::Chorus, "", between(-4, 0)).study;
    EXPECT_EQ(study.chorusBars(), (std::vector<ChorusBars>{{-1, 2}}));
}

TEST(Study, ASpanInBeatsFallsOnTheGridOfTwelfths) {
    const StudyWithSpan span = addSpan(eightBarsAt120(), SpanKind::Phrase, "", between(1.17, 2.0));
    EXPECT_EQ(span.study.beatsOf(*span.study.span(span.id)), (Range{Beats(7, 3), Beats(4)}));
}

TEST(Study, NotesInARangeAreThoseThatBeginInIt) {
    Study study;
    for (int beat = 0; beat < 4; ++beat)
        study = addNote(study, {Pitch{60, {}}, Beats(beat), Beats(1)}).study;
    const auto found = study.notesIn({Beats(1), Beats(3)});
    ASSERT_EQ(found.size(), 2u);
    EXPECT_EQ(found[0].onset, Beats(1));
    EXPECT_TRUE(study.notesIn({Beats(7, 2), Beats(9)}).empty());
    EXPECT_TRUE(study.notesIn({Beats(3), Beats(1)}).empty());
}

} // namespace
} // namespace earwright
