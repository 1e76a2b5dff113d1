// The rows of the table of commands, in files by menu (each says which), and what they are written with.
#pragma once

#include "ui/commands/CommandTable.h"

#include <QCoreApplication>
#include <QKeySequence>

#include <vector>

// Seen by lupdate: the words are translated where they are shown.
#define WORDS(text) QT_TRANSLATE_NOOP("Commands", text)

/// Included by the files of rows and CommandTable.cpp alone. Threads: any.
namespace earwright::ui::rows {

using KeyList = std::vector<QKeySequence>;

inline QKeySequence with(Qt::KeyboardModifiers modifiers, Qt::Key key) {
    return QKeySequence(QKeyCombination(modifiers, key));
}

inline QKeySequence plain(Qt::Key key) {
    return QKeySequence(key);
}

inline constexpr Qt::KeyboardModifier ctrl = Qt::ControlModifier;
inline constexpr Qt::KeyboardModifier shift = Qt::ShiftModifier;
inline constexpr Qt::KeyboardModifier alt = Qt::AltModifier;
inline constexpr Conditions always;

// Each appends its rows. In the order in which menus and the list of keys show them.
void addStudyAndEdit(std::vector<Command>& table);
void addPlaying(std::vector<Command>& table);
void addLoopAndSpeed(std::vector<Command>& table);
void addPasses(std::vector<Command>& table);
void addHearing(std::vector<Command>& table);
void addBandAndHold(std::vector<Command>& table);
void addPitchAndLoudness(std::vector<Command>& table);
void addMark(std::vector<Command>& table);
void addWriting(std::vector<Command>& table);
void addPhrasing(std::vector<Command>& table);
void addMorePhrasing(std::vector<Command>& table);
void addStrings(std::vector<Command>& table);
void addSelecting(std::vector<Command>& table);
void addPageMarks(std::vector<Command>& table);
void addDividing(std::vector<Command>& table);
void addPage(std::vector<Command>& table);
void addCheckAndHelp(std::vector<Command>& table);

} // namespace earwright::ui::rows
