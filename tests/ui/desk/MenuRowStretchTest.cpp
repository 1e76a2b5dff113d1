#include "ui/desk/MenuRowStretch.h"

#include "tests/ui/desk/TonesDesk.h"
#include "ui/desk/MessageRow.h"
#include "ui/strip/FormStripView.h"
#include "ui/transport/TransportBar.h"

#include <QMenuBar>

#include <gtest/gtest.h>

namespace earwright::ui {
namespace {

class MenuRowStretchTest : public TonesDesk {};

TEST_F(MenuRowStretchTest, CoversNothingOneWorksWithByWhatPasses) {
    for (const QSize size : {QSize(1400, 900), QSize(1200, 800)}) {
        window->resize(size);
        qApp->processEvents();
        window->messages().notice(
            "2 phrases checked: 4 supported · 0 unclear · 0 contradicted. Help goes by the "
            "phrase in the grid.");
        const auto* row = window->findChild<MessageRow*>();
        ASSERT_TRUE(row);
        ASSERT_TRUE(row->isVisible());
        const auto placeOf = [&](const QWidget& part) {
            return QRect(part.mapTo(window.get(), QPoint()), part.size());
        };
        const QWidget* const parts[]{window->findChild<FormStripView*>(),
                                     window->findChild<ChorusSheetView*>(),
                                     window->findChild<NoteGridPanel*>(), window->findChild<TransportBar*>()};
        for (const QWidget* part : parts)
            EXPECT_FALSE(placeOf(*row).intersects(placeOf(*part))) << size.width();
        for (QAction* menu : window->menuBar()->actions())
            EXPECT_FALSE(placeOf(*row).intersects(
                window->menuBar()->actionGeometry(menu).translated(placeOf(*window->menuBar()).topLeft())));
    }
}

} // namespace
} // namespace earwright::ui
