#include "ui/commands/KeyWords.h"

#include "ui/commands/CommandTable.h"

#include <QCoreApplication>

namespace earwright::ui {

namespace {

QString tr(const char* text) {
    return QCoreApplication::translate("KeyWords", text);
}

} // namespace

QKeySequence tableKey(CommandId id) {
    const auto& keys = command(id).keys;
    return keys.empty() ? QKeySequence() : keys.front();
}

QString howTo(CommandId id, const KeyOf& keyOf) {
    const QKeySequence key = keyOf(id);
    if (!key.isEmpty()) return tr("press %1").arg(key.toString(QKeySequence::NativeText));
    const Command& entry = command(id);
    return tr("choose “%1” in the menu %2").arg(entry.translatedName(), translatedName(entry.menu));
}

QString howToSentence(CommandId id, const KeyOf& keyOf) {
    QString text = howTo(id, keyOf);
    text[0] = text[0].toUpper();
    return text;
}

} // namespace earwright::ui
