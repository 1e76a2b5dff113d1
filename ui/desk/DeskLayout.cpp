// Where the parts of the window are, how they look, and how that is kept from day to day.
#include "ui/desk/DeskWindow.h"
#include "ui/desk/MenuRowStretch.h"
#include "ui/desk/SpeedSteps.h"
#include "ui/grid/LadderPanel.h"
#include "ui/grid/LooseEndList.h"
#include "ui/grid/NoteGrid.h"
#include "ui/grid/NoteGridPanel.h"
#include "ui/page/PageView.h"
#include "ui/sheet/ChorusSheetView.h"
#include "ui/strip/FormStripView.h"
#include "ui/takes/TakePanel.h"
#include "ui/theme/Spacing.h"
#include "ui/theme/Theme.h"
#include "ui/theme/Type.h"
#include "ui/transport/TransportBar.h"

#include <QApplication>
#include <QGridLayout>
#include <QLabel>
#include <QMenuBar>
#include <QSettings>
#include <QSplitter>
#include <QVBoxLayout>

#include <iterator>

namespace earwright::ui {

namespace {

bool takesTab(const QWidget& widget) {
    return widget.isVisible() && widget.isEnabled() && widget.focusPolicy() & Qt::TabFocus;
}

/// The first place in a part that the keyboard can be in; null where there is none now.
QWidget* firstStop(QWidget* part) {
    if (takesTab(*part)) return part;
    for (QWidget* at = part->nextInFocusChain(); at != part; at = at->nextInFocusChain())
        if (part->isAncestorOf(at) && takesTab(*at)) return at;
    return nullptr;
}

} // namespace

void DeskWindow::build() {
    setAcceptDrops(true);
    commandSet->fill(*menuBar());
    title->setFont(ui::font(TextStyle::Small));
    title->setContentsMargins(spacing::medium, spacing::tight, spacing::medium, 0);
    menuBar()->setCornerWidget(title);
    chorusSheet->setSpeedSteps(loopSpeedSteps());
    // Messages that stay lie over the foot of the sheet, so that nothing moves when they come and go, and
    // the sheet scrolls clear of them; those that pass have no hand to close them, and cover nothing.
    auto* left = new QWidget;
    auto* leaves = new QGridLayout(left);
    leaves->setContentsMargins(0, 0, 0, 0);
    leaves->addWidget(chorusSheet, 0, 0);
    leaves->addWidget(messageBar, 0, 0, Qt::AlignBottom);
    messageBar->raise();
    connect(messageBar, &MessageBar::covers, chorusSheet, &ChorusSheetView::setCoveredFoot);
    messageBar->setPassingPlace(new MenuRowStretch(*menuBar(), *title));
    splitter->addWidget(left);
    gridPanel->addUnderGrid(pageView);
    splitter->addWidget(gridPanel);
    splitter->setStretchFactor(0, 2);
    splitter->setStretchFactor(1, 1);
    splitter->setChildrenCollapsible(false);
    splitter->setHandleWidth(spacing::medium);

    auto* upper = new QVBoxLayout;
    upper->setContentsMargins(spacing::medium, spacing::tight, spacing::medium, spacing::small);
    upper->setSpacing(spacing::small);
    upper->addWidget(formStrip);
    upper->addWidget(splitter, 1);
    auto* whole = new QWidget;
    auto* column = new QVBoxLayout(whole);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(0);
    column->addLayout(upper, 1);
    column->addWidget(takePanel);
    column->addWidget(transportBar);
    setCentralWidget(whole);
}

void DeskWindow::restoreLayout() {
    hasOwnSize = restoreGeometry(settings.value(QStringLiteral("desk/geometry")).toByteArray());
    if (!hasOwnSize) resize(1400, 900);
    if (!splitter->restoreState(settings.value(QStringLiteral("desk/splitter")).toByteArray()))
        splitter->setSizes({940, 440});
    takePanel->setVisible(settings.value(QStringLiteral("desk/takes"), false).toBool());
    pageView->setWanted(settings.value(QStringLiteral("desk/page"), true).toBool());
}

void DeskWindow::showWithin(const QSize& screenRoom) {
    // What the system draws around a window is not known before it is shown.
    constexpr QSize frame{8, 40};
    const bool hasRoom = (size() + frame).boundedTo(screenRoom) == size() + frame;
    // A size that the user gave it is right as it is.
    if (!hasOwnSize && !hasRoom) setWindowState(windowState() | Qt::WindowMaximized);
    show();
}

void DeskWindow::toNextPart() {
    QWidget* const parts[]{formStrip,         chorusSheet,         messageBar,
                           gridPanel->grid(), gridPanel->ladder(), gridPanel->looseEnds(),
                           takePanel,         transportBar};
    constexpr std::size_t count = std::size(parts);
    const QWidget* now = focusWidget();
    std::size_t next = 0;
    for (std::size_t i = 0; i < count; ++i)
        if (now && (now == parts[i] || parts[i]->isAncestorOf(now))) next = i + 1;
    for (std::size_t tried = 0; tried < count; ++tried)
        if (QWidget* stop = firstStop(parts[(next + tried) % count]))
            return stop->setFocus(Qt::TabFocusReason);
}

void DeskWindow::switchAppearance() {
    const bool dark = currentAppearance() == Appearance::Dark;
    applyTheme(*qApp, dark ? Appearance::Light : Appearance::Dark);
    settings.setValue(QStringLiteral("desk/appearance"),
                      dark ? QStringLiteral("light") : QStringLiteral("dark"));
}

void DeskWindow::showTakes(bool shown) {
    takePanel->setVisible(shown);
    settings.setValue(QStringLiteral("desk/takes"), shown);
}

void DeskWindow::showPage(bool shown) {
    pageView->setWanted(shown);
    settings.setValue(QStringLiteral("desk/page"), shown);
}

void DeskWindow::keepLayout() {
    settings.setValue(QStringLiteral("desk/geometry"), saveGeometry());
    settings.setValue(QStringLiteral("desk/splitter"), splitter->saveState());
}

} // namespace earwright::ui
