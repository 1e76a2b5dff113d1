#include "core/study/SpanEdits.h"

#include "tests/core/study/SampleStudy.h"

#include <cmath>
#include <gtest/gtest.h>

namespace earwright {
namespace {

Range<Seconds> between(double begin, double end) {
    return {Seconds(begin), Seconds(end)};
}

TEST(SpanEdits, SpansAreKeptByStartWithTheOuterOneFirst) {
    Study study = addSpan({}, SpanKind::Phrase, "late", between(5, 6)).study;
    study = addSpan(study, SpanKind::Phrase, "inner", between(1, 2)).study;
    study = addSpan(study, SpanKind::Section, "outer", between(1, 9)).study;
    ASSERT_EQ(study.spans.size(), 3u);
    EXPECT_EQ(study.spans[0].name, "outer");
    EXPECT_EQ(study.spans[1].name, "inner");
    EXPECT_EQ(study.spans[2].name, "late");
}

TEST(SpanEdits, EndsMayBeGivenInEitherOrder) {
    const StudyWithSpan span = addSpan({}, SpanKind::Phrase, "", between(4, 2));
    EXPECT_EQ(span.study.span(span.id)->range, between(2, 4));
    EXPECT_EQ(resizeSpan(span.study, span.id, between(9, 8)).span(span.id)->range, between(8, 9));
}

TEST(SpanEdits, RenamingResizingAndRemovingFindTheirSpan) {
    const StudyWithSpan first = addSpan({}, SpanKind::Phrase, "a", between(0, 1));
    const StudyWithSpan second = addSpan(first.study, SpanKind::Phrase, "b", between(1, 2));
    EXPECT_EQ(renameSpan(second.study, first.id, "answer").span(first.id)->name, "answer");
    EXPECT_EQ(renameSpan(second.study, first.id, "answer").span(second.id)->name, "b");
    const Study resized = resizeSpan(second.study, first.id, between(3, 4));
    EXPECT_EQ(resized.spans.back().id, first.id);
    EXPECT_EQ(removeSpan(second.study, first.id).spans.size(), 1u);
}

TEST(SpanEdits, EmptyOrEndlessRangesChangeNothing) {
    const StudyWithSpan span = addSpan({}, SpanKind::Phrase, "a", between(0, 1));
    EXPECT_EQ(resizeSpan(span.study, span.id, between(1, 1)), span.study);
    EXPECT_EQ(resizeSpan(span.study, span.id, between(0, INFINITY)), span.study);
    EXPECT_EQ(resizeSpan(span.study, SpanId{9}, between(0, 2)), span.study);
}

TEST(SpanEdits, ChorusesLieOneAfterTheOtherFromTheFirstBar) {
    const Study study = layOutChoruses(eightBarsAt120(), 2, 3, 2);
    const auto choruses = study.spansOf(SpanKind::Chorus);
    ASSERT_EQ(choruses.size(), 2u);
    EXPECT_EQ(choruses[0].name, "Chorus 1");
    EXPECT_EQ(choruses[0].range, between(2, 8));
    EXPECT_EQ(choruses[1].name, "Chorus 2");
    EXPECT_EQ(choruses[1].range, between(8, 14));
    EXPECT_EQ(study.chorusBars(), (std::vector<ChorusBars>{{2, 3}, {5, 3}}));
}

TEST(SpanEdits, NewChorusesTakeThePlaceOfThoseTheyOverlapAndCountOnFromThoseBefore) {
    Study study = layOutChoruses(eightBarsAt120(), 1, 2, 4);
    study = layOutChoruses(study, 3, 3, 1);
    EXPECT_EQ(study.chorusBars(), (std::vector<ChorusBars>{{1, 2}, {3, 3}, {7, 2}}));
    EXPECT_EQ(study.spansOf(SpanKind::Chorus)[1].name, "Chorus 2");
}

TEST(SpanEdits, NoChorusBeginsAfterTheRecordingsEnd) {
    // Twenty seconds of recording hold ten bars of two seconds.
    EXPECT_EQ(layOutChoruses(eightBarsAt120(), 1, 4, 50).spans.size(), 3u);
    EXPECT_EQ(layOutChoruses(eightBarsAt120(), 90, 4, 1), eightBarsAt120());
}

TEST(SpanEdits, ChorusesNeedATempoAndSensibleNumbers) {
    EXPECT_EQ(layOutChoruses({}, 1, 12, 2), Study{});
    EXPECT_EQ(layOutChoruses(eightBarsAt120(), 1, 0, 2), eightBarsAt120());
    EXPECT_EQ(layOutChoruses(eightBarsAt120(), 1, 12, 0), eightBarsAt120());
}

} // namespace
} // namespace earwright
