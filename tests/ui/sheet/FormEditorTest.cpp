#include "ui/sheet/FormEditor.h"

#include <gtest/gtest.h>

namespace earwright::ui {
namespace {

TEST(FormEditor, SaysHowManyBarsItReads) {
    FormEditor editor{Study{}};
    editor.setText("Bb7 | Eb7 | Bb7 | Fm7 Bb7");
    EXPECT_EQ(editor.reading(), "4 bars.");
}

TEST(FormEditor, NamesWhatItCannotRead) {
    FormEditor editor{Study{}};
    editor.setText("Bb7 | wobble | Bb7 | wobble");
    EXPECT_EQ(editor.reading(), "4 bars. Kept as typed, since it cannot be read: wobble.");
}

TEST(FormEditor, StartsWithTheFormOfTheStudy) {
    Study study;
    study.chart.form = parseBars("F7 | Bb7", study.meter);
    FormEditor editor(study);
    EXPECT_EQ(parseBars(editor.text().toStdString(), study.meter), study.chart.form);
}

TEST(FormEditor, LaysOutChorusesOnlyWhenAsked) {
    FormEditor editor{Study{}};
    EXPECT_FALSE(editor.chorusLayout());
    editor.setChorusLayout({5, 12, 3});
    EXPECT_EQ(editor.chorusLayout(), (FormEditor::Layout{5, 12, 3}));
}

} // namespace
} // namespace earwright::ui
