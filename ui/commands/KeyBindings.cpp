#include "ui/commands/KeyBindings.h"

#include <QSettings>
#include <QStringList>

#include <algorithm>

namespace earwright::ui {

namespace {

QString settingOf(const Command& entry) {
    return QStringLiteral("keys/") + QLatin1String(entry.word);
}

} // namespace

KeyBindings::KeyBindings(QSettings& store, QObject* parent) : QObject(parent), settings(store) {
    for (const Command& entry : commandTable()) {
        if (!settings.contains(settingOf(entry))) continue;
        std::vector<QKeySequence> keys;
        for (const QString& text : settings.value(settingOf(entry)).toStringList())
            if (const QKeySequence key(text, QKeySequence::PortableText); !key.isEmpty()) keys.push_back(key);
        changed[entry.id] = keys;
    }
}

std::vector<QKeySequence> KeyBindings::keys(CommandId id) const {
    const auto own = changed.find(id);
    if (own != changed.end()) return own->second;
    // A key that was given to another command is that command's, also where a newer program has it for this.
    std::vector<QKeySequence> keys = command(id).keys;
    std::erase_if(keys, [this](const QKeySequence& key) {
        return std::ranges::any_of(changed, [&key](const auto& other) {
            return std::ranges::find(other.second, key) != other.second.end();
        });
    });
    return keys;
}

QKeySequence KeyBindings::firstKey(CommandId id) const {
    const auto own = keys(id);
    return own.empty() ? QKeySequence() : own.front();
}

std::optional<CommandId> KeyBindings::owner(const QKeySequence& key) const {
    if (key.isEmpty()) return std::nullopt;
    for (const Command& entry : commandTable()) {
        const auto own = keys(entry.id);
        if (std::find(own.begin(), own.end(), key) != own.end()) return entry.id;
    }
    return std::nullopt;
}

void KeyBindings::assign(CommandId id, const QKeySequence& key) {
    if (const auto other = owner(key); other && *other != id) without(*other, key);
    changed[id] = key.isEmpty() ? std::vector<QKeySequence>{} : std::vector{key};
    store(id);
    emit keysChanged();
}

void KeyBindings::without(CommandId id, const QKeySequence& key) {
    std::vector<QKeySequence> rest = keys(id);
    std::erase(rest, key);
    changed[id] = rest;
    store(id);
}

void KeyBindings::restore(CommandId id) {
    changed.erase(id);
    for (const QKeySequence& key : command(id).keys)
        for (const Command& entry : commandTable()) {
            const auto own = keys(entry.id);
            const bool taken = entry.id != id && std::find(own.begin(), own.end(), key) != own.end();
            if (taken) without(id, key);
        }
    store(id);
    emit keysChanged();
}

void KeyBindings::restoreAll() {
    changed.clear();
    for (const Command& entry : commandTable())
        store(entry.id);
    emit keysChanged();
}

void KeyBindings::store(CommandId id) {
    const QString setting = settingOf(command(id));
    const auto own = changed.find(id);
    if (own == changed.end()) {
        settings.remove(setting);
        return;
    }
    QStringList texts;
    for (const QKeySequence& key : own->second)
        texts << key.toString(QKeySequence::PortableText);
    settings.setValue(setting, texts);
}

} // namespace earwright::ui
