#include "ui/desk/PassageDialog.h"

#include "core/exchange/MusicXml.h"
#include "core/study/PageEdits.h"
#include "core/study/PlayedTime.h"

#include <QComboBox>
#include <QDoubleSpinBox>
#include <QLabel>
#include <QLineEdit>
#include <QSpinBox>

#include <gtest/gtest.h>

namespace earwright::ui {
namespace {

/// Where every member has a value that a field can hardly show.
Study wellMarked() {
    Study study;
    study.meter = {7, 8};
    study = setKey(study, 1, KeySignature{-3, Mode::Minor});
    study = setSwing(study, Beats(0), Swing{5.0 / 3, 16});
    study = setTempoMark(study, {Beats(0), "Not too fast", 131.6});
    return setRepeat(study, {1, 8, 3, 2});
}

bool isUntouched(const PassageChange& change) {
    return !change.meter && !change.key && !change.swing && !change.tempo && !change.repeat && !change.pickup;
}

template <class Field>
Field* named(const PassageDialog& dialog, const char* name) {
    for (Field* field : dialog.findChildren<Field*>())
        if (field->accessibleName() == QLatin1String(name)) return field;
    ADD_FAILURE() << name;
    return nullptr;
}

TEST(PassageDialog, ChangesNothingThatWasNotTouched) {
    std::optional<PassageChange> asked;
    PassageDialog dialog(wellMarked(), 1, {}, PassageDialog::Subject::Meter,
                         [&](const PassageChange& change) {
                             asked = change;
                             return std::optional<QString>();
                         });
    dialog.accept();
    ASSERT_TRUE(asked);
    EXPECT_TRUE(isUntouched(*asked));
    EXPECT_EQ(asked->firstBar, 1);
    EXPECT_EQ(*changePassage(wellMarked(), *asked), wellMarked());
}

TEST(PassageDialog, ChangesOnlyWhatWasAltered) {
    PassageDialog dialog(wellMarked(), 1, 4, PassageDialog::Subject::Swing, {});
    named<QDoubleSpinBox>(dialog, "How they swing")->setValue(2);
    PassageChange change = dialog.change();
    EXPECT_EQ(change.bars, 4);
    EXPECT_EQ(change.swing, (Swing{2, 16})) << "of sixteenths as before";
    change.swing.reset();
    EXPECT_TRUE(isUntouched(change));
    named<QLineEdit>(dialog, "Tempo in words")->setText("Faster");
    const auto tempo = dialog.change().tempo;
    ASSERT_TRUE(tempo);
    EXPECT_EQ(tempo->words, "Faster");
    EXPECT_EQ(tempo->quartersPerMinute, 131.6) << "the figure was not touched";
    auto* figure = named<QSpinBox>(dialog, "Quarters a minute");
    figure->setValue(figure->minimum());
    EXPECT_EQ(dialog.change().tempo->quartersPerMinute, std::nullopt);
}

TEST(PassageDialog, SixteenthsSwingWhereTheyAreChosen) {
    Study study;
    study.notes.push_back({NoteId{1}, Beats(1, 4), Beats(1, 4), Pitch{60, {}}, 0.6, {}});
    PassageDialog dialog(study, 1, {}, PassageDialog::Subject::Swing, {});
    auto* notes = named<QComboBox>(dialog, "Notes that swing");
    ASSERT_EQ(notes->currentText(), QStringLiteral("eighths"));
    notes->setCurrentText(QStringLiteral("sixteenths"));
    EXPECT_TRUE(isUntouched(dialog.change())) << "even notes are even";
    named<QDoubleSpinBox>(dialog, "How they swing")->setValue(2);
    ASSERT_EQ(dialog.change().swing, (Swing{2, 16}));
    const auto swung = changePassage(study, dialog.change());
    ASSERT_TRUE(swung);
    // Two sixteenths are half a beat, the first twice as long as the second.
    EXPECT_DOUBLE_EQ(playedBeat(*swung, Beats(1, 4)), 1.0 / 3);
    EXPECT_EQ(playedBeat(*swung, Beats(1, 2)), 0.5) << "eighths stay where they are";
    // Written as the MusicXML 4.0 schema has it (swing, swing-type).
    const auto page = musicXml(*swung);
    ASSERT_TRUE(page);
    EXPECT_NE(page->find("<swing-type>16th</swing-type>"), std::string::npos);
    notes->setCurrentText(QStringLiteral("eighths"));
    EXPECT_EQ(dialog.change().swing, (Swing{2, 8}));
}

TEST(PassageDialog, ShowsWhichNotesSwingAlready) {
    PassageDialog dialog(wellMarked(), 1, {}, PassageDialog::Subject::Swing, {});
    auto* notes = named<QComboBox>(dialog, "Notes that swing");
    EXPECT_EQ(notes->currentText(), QStringLiteral("sixteenths"));
    notes->setCurrentText(QStringLiteral("eighths"));
    EXPECT_EQ(dialog.change().swing, (Swing{5.0 / 3, 8})) << "at the very ratio, which the field rounds";
}

TEST(PassageDialog, AtBarOneThePickupIsCountedInTheMeterBesideIt) {
    PassageDialog dialog(wellMarked(), 1, {}, PassageDialog::Subject::Pickup, {});
    auto* length = named<QDoubleSpinBox>(dialog, "Length of the pickup");
    EXPECT_EQ(length->text(), QStringLiteral("as long as its notes"));
    length->setValue(1.5);
    EXPECT_EQ(length->text(), length->locale().toString(1.5, 'f', 2) + QStringLiteral(" × 1/8"));
    PassageChange change = dialog.change();
    EXPECT_EQ(change.pickup, StatedPickup{Beats(3, 2)});
    change.pickup.reset();
    EXPECT_TRUE(isUntouched(change));
    named<QSpinBox>(dialog, "Beats in a bar")->setValue(1);
    EXPECT_EQ(length->value(), 1) << "at most a bar";
    named<QSpinBox>(dialog, "Beats in a bar")->setValue(12);
    EXPECT_EQ(length->value(), 1.5) << "1 was only on the way to 12";
    length->setValue(0);
    EXPECT_FALSE(dialog.change().pickup) << "as it was";
    const PassageDialog later(wellMarked(), 2, {}, PassageDialog::Subject::Meter, {});
    for (const auto* field : later.findChildren<QDoubleSpinBox*>())
        EXPECT_NE(field->accessibleName(), QStringLiteral("Length of the pickup"));
}

TEST(PassageDialog, APickupThatStandsIsShownAndTakenAway) {
    const Study study = setPickup(wellMarked(), Beats(5));
    PassageDialog dialog(study, 1, {}, PassageDialog::Subject::Pickup, {});
    EXPECT_FALSE(dialog.change().pickup);
    named<QDoubleSpinBox>(dialog, "Length of the pickup")->setValue(0);
    EXPECT_EQ(changePassage(study, dialog.change())->page.pickup, std::nullopt);
}

TEST(PassageDialog, StaysOpenAndSaysWhyAChangeCannotBe) {
    PassageDialog dialog(wellMarked(), 1, {}, PassageDialog::Subject::Repeat,
                         [](const PassageChange&) { return std::optional<QString>("It takes a bar."); });
    dialog.show();
    dialog.accept();
    EXPECT_TRUE(dialog.isVisible());
    const auto labels = dialog.findChildren<QLabel*>();
    EXPECT_TRUE(std::any_of(labels.begin(), labels.end(), [](const QLabel* label) {
        return label->isVisible() && label->text() == QLatin1String("It takes a bar.");
    }));
}

} // namespace
} // namespace earwright::ui
