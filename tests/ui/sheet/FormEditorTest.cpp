#include "ui/sheet/FormEditor.h"

#include "core/study/SpanEdits.h"

#include <QCheckBox>
#include <QSpinBox>

#include <gtest/gtest.h>

namespace earwright::ui {
namespace {

/// Bars of two seconds, the first at two seconds of a minute: 29 to the end.
Study withBars() {
    Study study;
    study.beatMap = BeatMap({{Beats(0), Seconds(2)}, {Beats(4), Seconds(4)}});
    study.recording.rate = SampleRate{44100};
    study.recording.length = Frames(60 * 44100);
    return study;
}

TEST(FormEditor, SaysHowManyBarsItReads) {
    FormEditor editor{withBars()};
    editor.setText("Bb7 | Eb7 | Bb7 | Fm7 Bb7");
    EXPECT_EQ(editor.reading(), "4 bars.");
}

TEST(FormEditor, NamesWhatItCannotRead) {
    FormEditor editor{withBars()};
    editor.setText("Bb7 | wobble | Bb7 | wobble");
    EXPECT_EQ(editor.reading(), "4 bars. Kept as typed, since it cannot be read: wobble.");
}

TEST(FormEditor, StartsWithTheFormOfTheStudy) {
    Study study;
    study.chart.form = parseBars("F7 | Bb7", study.meter);
    FormEditor editor(study);
    EXPECT_EQ(parseBars(editor.text().toStdString(), study.meter), study.chart.form);
}

TEST(FormEditor, LaysOutFurtherChorusesOnlyWhenAsked) {
    FormEditor editor{layOutChoruses(withBars(), 1, 12, 2)};
    EXPECT_FALSE(editor.chorusLayout());
    editor.setChorusLayout({5, 12, 3});
    EXPECT_EQ(editor.chorusLayout(), (FormEditor::Layout{5, 12, 3}));
}

// A form that is typed and shows nowhere looks as if it had been lost.
TEST(FormEditor, ProposesTheFirstChorusesAsManyAsFit) {
    FormEditor editor{withBars()};
    editor.setText("F7 | Bb7 | F7 | % | Bb7 | % | F7 | % | C7 | Bb7 | F7 | C7");
    EXPECT_EQ(editor.chorusLayout(), (FormEditor::Layout{1, 12, 2}));
    editor.setText("F7 | Bb7");
    EXPECT_EQ(editor.chorusLayout(), (FormEditor::Layout{1, 2, 14}));
}

TEST(FormEditor, ProposesNothingOverAFormThatIsEmpty) {
    FormEditor editor{withBars()};
    EXPECT_FALSE(editor.chorusLayout());
    editor.setText("F7 | Bb7");
    EXPECT_TRUE(editor.chorusLayout());
    editor.setText("");
    EXPECT_FALSE(editor.chorusLayout());
    // Choruses without chords are the user's to ask for, and chords without choruses.
    auto* layOut = editor.findChild<QCheckBox*>();
    layOut->setChecked(true);
    EXPECT_TRUE(editor.chorusLayout());
    layOut->setChecked(false);
    editor.setText("F7 | Bb7");
    EXPECT_FALSE(editor.chorusLayout());
}

TEST(FormEditor, ProposesAsManyChorusesAsFitFromTheFirstBarOnAndOfTheBarsChosen) {
    FormEditor editor{withBars()};
    editor.setText("F7 | Bb7 | F7 | C7");
    const auto box = [&](const char* name) {
        for (auto* each : editor.findChildren<QSpinBox*>())
            if (each->accessibleName() == name) return each;
        return static_cast<QSpinBox*>(nullptr);
    };
    ASSERT_TRUE(box("Bars in a chorus") && box("First bar"));
    box("Bars in a chorus")->setValue(8);
    EXPECT_EQ(editor.chorusLayout(), (FormEditor::Layout{1, 8, 3}));
    box("First bar")->setValue(15);
    EXPECT_EQ(editor.chorusLayout(), (FormEditor::Layout{15, 8, 1}));
    box("First bar")->setValue(14);
    EXPECT_EQ(editor.chorusLayout(), (FormEditor::Layout{14, 8, 2}));
}

TEST(FormEditor, KeepsToTheBarsAndChorusesThatTheUserChose) {
    FormEditor editor{withBars()};
    editor.setText("F7 | Bb7 | F7 | F7");
    editor.setChorusLayout({1, 8, 3});
    editor.setText("F7 | Bb7");
    EXPECT_EQ(editor.chorusLayout(), (FormEditor::Layout{1, 8, 3}));
}

TEST(FormEditor, SaysWhereAFormWouldShowNowhere) {
    FormEditor editor{withBars()};
    editor.setText("F7 | Bb7");
    EXPECT_EQ(editor.reading(), "2 bars.");
    editor.findChild<QCheckBox*>()->setChecked(false);
    EXPECT_EQ(editor.reading(), "2 bars. They show nowhere until a chorus is laid out.");
    FormEditor early{Study{}};
    early.setText("F7 | Bb7");
    EXPECT_FALSE(early.chorusLayout());
    EXPECT_EQ(early.reading(), "2 bars. They show once two bars are marked and a chorus is laid out.");
}

} // namespace
} // namespace earwright::ui
