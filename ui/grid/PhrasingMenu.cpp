#include "ui/grid/PhrasingMenu.h"

#include "ui/commands/CommandTable.h"
#include "ui/grid/MarkWords.h"

#include <QCoreApplication>
#include <QMenu>

namespace earwright::ui {

namespace {

/// The name with the letter that chooses it while the menu is open; no letter stands for two.
const char* menuWords(PhrasingKind kind) {
    switch (kind) {
    case PhrasingKind::Slur:
        return QT_TRANSLATE_NOOP("PhrasingMenu", "S&lur");
    case PhrasingKind::PickedInSlur:
        return QT_TRANSLATE_NOOP("PhrasingMenu", "&Picked in the slur");
    case PhrasingKind::HammerPull:
        return QT_TRANSLATE_NOOP("PhrasingMenu", "&Hammer-on or pull-off");
    case PhrasingKind::Ghost:
        return QT_TRANSLATE_NOOP("PhrasingMenu", "Gh&ost");
    case PhrasingKind::Slide:
        return QT_TRANSLATE_NOOP("PhrasingMenu", "&Slide in or out");
    case PhrasingKind::SlideOn:
        return QT_TRANSLATE_NOOP("PhrasingMenu", "Slide to the &next note");
    case PhrasingKind::Bend:
        return QT_TRANSLATE_NOOP("PhrasingMenu", "&Bend");
    case PhrasingKind::Scoop:
        return QT_TRANSLATE_NOOP("PhrasingMenu", "S&coop");
    case PhrasingKind::Fall:
        return QT_TRANSLATE_NOOP("PhrasingMenu", "&Fall");
    case PhrasingKind::Vibrato:
        return QT_TRANSLATE_NOOP("PhrasingMenu", "&Vibrato");
    case PhrasingKind::Grace:
        return QT_TRANSLATE_NOOP("PhrasingMenu", "&Grace note");
    case PhrasingKind::Trill:
        return QT_TRANSLATE_NOOP("PhrasingMenu", "T&rill");
    case PhrasingKind::Turn:
        return QT_TRANSLATE_NOOP("PhrasingMenu", "T&urn");
    case PhrasingKind::Mordent:
        return QT_TRANSLATE_NOOP("PhrasingMenu", "&Mordent");
    case PhrasingKind::Accent:
        return QT_TRANSLATE_NOOP("PhrasingMenu", "&Accent");
    case PhrasingKind::Staccato:
        return QT_TRANSLATE_NOOP("PhrasingMenu", "S&taccato");
    case PhrasingKind::Tenuto:
        return QT_TRANSLATE_NOOP("PhrasingMenu", "T&enuto");
    case PhrasingKind::LetRing:
        return QT_TRANSLATE_NOOP("PhrasingMenu", "Let r&ing");
    }
    return "";
}

QString said(const char* text) {
    return QCoreApplication::translate("PhrasingMenu", text);
}

QAction* addEntry(QMenu& menu, const QString& text, CommandId id, const PhrasingChoices& choices) {
    const QString key = choices.keyOf(id).toString(QKeySequence::NativeText);
    QAction* action = menu.addAction(key.isEmpty() ? text : text + QLatin1Char('\t') + key);
    action->setToolTip(command(id).translatedAbout());
    return action;
}

} // namespace

QMenu* makePhrasingMenu(const Phrasing& phrasing, const PhrasingChoices& choices, QWidget* parent) {
    auto* menu = new QMenu(parent);
    menu->setAttribute(Qt::WA_DeleteOnClose);
    menu->setToolTipsVisible(true);
    for (const MarkGroup& group : markGroups()) {
        QAction* heading = menu->addAction(group.name);
        heading->setEnabled(false);
        for (const PhrasingKind kind : group.kinds) {
            QAction* action = addEntry(*menu, said(menuWords(kind)), commandFor(kind), choices);
            action->setCheckable(true);
            action->setChecked(carries(phrasing, kind));
            QObject::connect(action, &QAction::triggered, menu, [mark = choices.mark, kind] { mark(kind); });
            if (kind != PhrasingKind::Grace) continue;
            QAction* more = addEntry(*menu, said(QT_TRANSLATE_NOOP("PhrasingMenu", "One more grace note")),
                                     CommandId::MoreGrace, choices);
            QObject::connect(more, &QAction::triggered, menu, choices.moreGrace);
        }
    }
    return menu;
}

} // namespace earwright::ui
