// The desk on a recording of tones, worked by keys as a user presses them.
#pragma once

#include "tests/ui/desk/GeneratedRecording.h"
#include "tests/ui/desk/SilentDesk.h"
#include "ui/grid/NoteGrid.h"
#include "ui/grid/NoteGridPanel.h"
#include "ui/sheet/ChorusSheetView.h"
#include "ui/theme/InlineEditor.h"
#include "ui/theme/Theme.h"

#include <QApplication>

#include <cmath>
#include <utility>

namespace earwright::ui {

/// The real desk on a recording of tones, an engine without a device, and keys as a user presses them.
class TonesDesk : public SilentDesk {
protected:
    TonesDesk() {
        // Bars of two seconds from 0.5 s on; a rising line of quarters in bar 2, at 2.5 s.
        writeRecording(recording(), 12, {{2.5, 0.48, 60}, {3.0, 0.48, 64}, {3.5, 0.48, 67}, {4.0, 0.48, 72}});
    }

    void SetUp() override {
        applyTheme(*qApp, Appearance::Light);
        openWindow();
    }
    std::filesystem::path recording() const { return in("tones.wav"); }
    /// Where the keyboard is, as a user's keys go.
    void press(Qt::Key key, Qt::KeyboardModifiers modifiers = Qt::NoModifier) {
        QWidget* focus = QApplication::focusWidget();
        QTest::keyClick(focus ? focus : window.get(), key, modifiers);
    }
    void earTo(double seconds) {
        window->goTo(Seconds(seconds));
        ASSERT_TRUE(soon([&] { return std::abs(window->listening().ear().value - seconds) < 0.001; }));
    }
    void typeWord(const char* word) {
        auto* editor = window->sheet().findChild<InlineEditor*>();
        ASSERT_TRUE(editor->isVisible());
        QTest::keyClicks(editor, word);
        QTest::keyClick(editor, Qt::Key_Return);
    }
    /// Bars 1 and 2 by tapping, at seconds of the recording.
    void markBars(double first = 0.5, double second = 2.5) {
        open(recording());
        for (const double barLine : {first, second}) {
            earTo(barLine);
            press(Qt::Key_Return);
        }
    }
    /// Phrase "a" over bar 2.
    void markBarsAndPhrase() {
        markBars();
        press(Qt::Key_L);
        earTo(4.5);
        press(Qt::Key_L);
        press(Qt::Key_M);
        typeWord("a");
    }
    void writeNote(const Beats& place, int midi) {
        NoteGrid* grid = window->panel().grid();
        grid->goTo(place);
        grid->moveCursor(0, midi - grid->cursor().midi);
        press(Qt::Key_N);
    }
    /// The four quarters of bar 2, as they sound, in phrase "a".
    void writeTheLine() {
        markBarsAndPhrase();
        earTo(2.6);
        for (const auto& [beat, midi] : {std::pair{4, 60}, {5, 64}, {6, 67}, {7, 72}}) {
            writeNote(Beats(beat), midi);
            press(Qt::Key_Right, Qt::ShiftModifier);
        }
    }
};

} // namespace earwright::ui
