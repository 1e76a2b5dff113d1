#include "ui/desk/PassageDialog.h"

#include "core/study/PageEdits.h"

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
    named<QDoubleSpinBox>(dialog, "How eighths swing")->setValue(2);
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
