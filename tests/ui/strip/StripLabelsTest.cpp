#include "ui/strip/StripLabels.h"

#include <gtest/gtest.h>

namespace earwright::ui {
namespace {

Span span(SpanKind kind, const char* name, double begin, double end) {
    return {SpanId{1}, kind, name, {Seconds(begin), Seconds(end)}};
}

TEST(StripLabels, ShareARowWithoutCoveringEachOther) {
    const StripGeometry strip(QSizeF(1024, 60), Seconds(100));
    Study study;
    study.spans = {span(SpanKind::Section, "head", 0, 20), span(SpanKind::Phrase, "a", 3, 5),
                   span(SpanKind::Chorus, "chorus 1", 20, 60), span(SpanKind::Chorus, "chorus 2", 60, 100)};
    const auto labels = layLabels(study, strip);
    ASSERT_EQ(labels.size(), 3u);
    EXPECT_EQ(labels[0].text, "head");
    EXPECT_DOUBLE_EQ(labels[0].x + labels[0].room, labels[1].x);
    EXPECT_DOUBLE_EQ(labels[2].x + labels[2].room, 1024);
}

TEST(StripLabels, JoinNamesThatStartTogether) {
    const StripGeometry strip(QSizeF(1024, 60), Seconds(100));
    Study study;
    study.spans = {span(SpanKind::Section, "solo", 20, 90), span(SpanKind::Chorus, "chorus 1", 20.1, 60)};
    const auto labels = layLabels(study, strip);
    ASSERT_EQ(labels.size(), 1u);
    EXPECT_EQ(labels[0].text, QString::fromUtf8("solo · chorus 1"));
}

} // namespace
} // namespace earwright::ui
