#include "ui/commands/CommandSet.h"

#include "ui/commands/KeyNames.h"
#include "ui/commands/NeedWords.h"

#include <QAction>
#include <QMenu>
#include <QMenuBar>
#include <QWidget>

namespace earwright::ui {

CommandSet::CommandSet(KeyBindings& bindings, QWidget& window) : QObject(&window), keys(bindings) {
    KeyNames::use();
    for (const Command& entry : commandTable()) {
        auto* action = new QAction(entry.translatedName(), this);
        action->setToolTip(entry.translatedAbout());
        action->setStatusTip(entry.translatedAbout());
        action->setAutoRepeat(entry.repeats);
        action->setShortcutContext(Qt::WindowShortcut);
        actions[entry.id] = action;
        window.addAction(action);
    }
    showKeys();
    connect(&keys, &KeyBindings::keysChanged, this, &CommandSet::showKeys);
}

void CommandSet::showKeys() {
    for (const auto& [id, action] : actions) {
        const auto own = keys.keys(id);
        action->setShortcuts(QList<QKeySequence>(own.begin(), own.end()));
    }
}

void CommandSet::bind(CommandId id, std::function<void()> deed) {
    bound[id] = true;
    connect(action(id), &QAction::triggered, this, [act = std::move(deed)] { act(); });
}

std::vector<CommandId> CommandSet::unbound() const {
    std::vector<CommandId> open;
    for (const auto& [id, action] : actions)
        if (!bound.contains(id)) open.push_back(id);
    return open;
}

void CommandSet::setConditions(Conditions now) {
    met = now;
    for (const Command& entry : commandTable())
        action(entry.id)->setEnabled((met & entry.needs) == entry.needs);
}

QString CommandSet::whyNot(const QKeySequence& key) const {
    const auto owner = keys.owner(key);
    if (!owner) return {};
    const Command& entry = command(*owner);
    const QString missing = needWords(entry.needs & ~met);
    return missing.isEmpty() ? QString() : tr("%1: %2").arg(entry.translatedName(), missing);
}

void CommandSet::fill(QMenuBar& menuBar) const {
    std::map<CommandMenu, QMenu*> menus;
    for (const Command& entry : commandTable()) {
        QMenu*& menu = menus[entry.menu];
        if (!menu) {
            menu = menuBar.addMenu(translatedName(entry.menu));
            menu->setToolTipsVisible(true);
        }
        if (entry.startsGroup) menu->addSeparator();
        menu->addAction(action(entry.id));
    }
}

} // namespace earwright::ui
