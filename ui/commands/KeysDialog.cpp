#include "ui/commands/KeysDialog.h"

#include "ui/commands/KeyCatcher.h"

#include <QDialogButtonBox>
#include <QHBoxLayout>
#include <QHeaderView>
#include <QLabel>
#include <QPushButton>
#include <QTreeWidget>
#include <QVBoxLayout>

#include <map>
#include <vector>

namespace earwright::ui {

namespace {

constexpr int idRole = Qt::UserRole;

} // namespace

KeysDialog::KeysDialog(KeyBindings& bindings, QWidget* parent) : QDialog(parent), keys(bindings) {
    setWindowTitle(tr("Keys"));
    resize(620, 640);
    build();
    fill();
    connect(&keys, &KeyBindings::keysChanged, this, &KeysDialog::showKeys);
    showChosen();
}

void KeysDialog::build() {
    list = new QTreeWidget;
    list->setColumnCount(2);
    list->setHeaderLabels({tr("Command"), tr("Key")});
    list->setAccessibleName(tr("Commands and their keys"));
    list->header()->setSectionResizeMode(0, QHeaderView::Stretch);
    list->header()->setStretchLastSection(false);
    list->header()->setSectionResizeMode(1, QHeaderView::ResizeToContents);
    about = new QLabel;
    about->setWordWrap(true);
    outcome = new QLabel;
    outcome->setWordWrap(true);
    catcher = new KeyCatcher;
    catcher->setPlaceholderText(tr("Enter or click here, then press the key"));
    catcher->setAccessibleName(tr("New key for the chosen command"));
    none = new QPushButton(tr("No key"));
    original = new QPushButton(tr("Original key"));
    auto* buttons = new QDialogButtonBox(QDialogButtonBox::Close);
    auto* all = buttons->addButton(tr("All original keys"), QDialogButtonBox::ResetRole);

    auto* row = new QHBoxLayout;
    row->addWidget(catcher, 1);
    row->addWidget(none);
    row->addWidget(original);
    auto* column = new QVBoxLayout(this);
    column->addWidget(list, 1);
    column->addWidget(about);
    column->addLayout(row);
    column->addWidget(outcome);
    column->addWidget(buttons);

    connect(list, &QTreeWidget::currentItemChanged, this, &KeysDialog::showChosen);
    connect(list, &QTreeWidget::itemActivated, catcher, [this] { catcher->setFocus(); });
    connect(catcher, &KeyCatcher::caught, this, [this](const QKeySequence& key) {
        take(key);
        list->setFocus(); // or the next key, meant for the dialog, would be taken too
    });
    connect(none, &QPushButton::clicked, this, [this] { take({}); });
    connect(original, &QPushButton::clicked, this, [this] {
        if (const auto id = chosen()) keys.restore(*id);
        showChosen();
    });
    connect(all, &QPushButton::clicked, this, [this] {
        keys.restoreAll();
        showChosen();
    });
    connect(buttons, &QDialogButtonBox::rejected, this, &QDialog::reject);
    // Enter is for the list; a dialog would press the first of its buttons with it.
    for (QPushButton* button : findChildren<QPushButton*>())
        button->setAutoDefault(false);
}

void KeysDialog::fill() {
    std::map<CommandMenu, QTreeWidgetItem*> menus;
    for (const Command& entry : commandTable()) {
        QTreeWidgetItem*& menu = menus[entry.menu];
        if (!menu) {
            menu = new QTreeWidgetItem(list, {translatedName(entry.menu)});
            menu->setFlags(Qt::ItemIsEnabled);
        }
        auto* item = new QTreeWidgetItem(menu, {entry.translatedName()});
        item->setData(0, idRole, static_cast<int>(entry.id));
        item->setToolTip(0, entry.translatedAbout());
    }
    list->expandAll();
    showKeys();
}

void KeysDialog::showKeys() {
    std::vector<QKeySequence> known;
    for (const Command& entry : commandTable())
        for (const QKeySequence& key : keys.keys(entry.id))
            known.push_back(key);
    catcher->setKnown(known);
    for (QTreeWidgetItemIterator at(list); *at; ++at) {
        const QVariant id = (*at)->data(0, idRole);
        if (!id.isValid()) continue;
        const auto commandId = static_cast<CommandId>(id.toInt());
        (*at)->setText(1, keys.firstKey(commandId).toString(QKeySequence::NativeText));
        QFont font = (*at)->font(1);
        font.setBold(keys.isChanged(commandId));
        (*at)->setFont(1, font);
    }
}

std::optional<CommandId> KeysDialog::chosen() const {
    const QTreeWidgetItem* item = list->currentItem();
    if (!item || !item->data(0, idRole).isValid()) return std::nullopt;
    return static_cast<CommandId>(item->data(0, idRole).toInt());
}

void KeysDialog::choose(CommandId id) {
    for (QTreeWidgetItemIterator at(list); *at; ++at)
        if ((*at)->data(0, idRole) == static_cast<int>(id)) list->setCurrentItem(*at);
}

void KeysDialog::showChosen() {
    const auto id = chosen();
    for (QWidget* widget : {static_cast<QWidget*>(catcher), static_cast<QWidget*>(none)})
        widget->setEnabled(id.has_value());
    original->setEnabled(id && keys.isChanged(*id));
    about->setText(id ? command(*id).translatedAbout() : tr("Choose a command to give it another key."));
    catcher->show(id ? keys.firstKey(*id) : QKeySequence());
    outcome->clear();
}

void KeysDialog::take(const QKeySequence& key) {
    const auto id = chosen();
    if (!id) return;
    const auto before = keys.owner(key);
    keys.assign(*id, key);
    showChosen();
    if (before && *before != *id)
        outcome->setText(
            tr("“%1” had this key before and has none now.").arg(command(*before).translatedName()));
}

} // namespace earwright::ui
