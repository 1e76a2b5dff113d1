#include "ui/commands/CommandTable.h"

#include "ui/commands/CommandRows.h"

#include <QCoreApplication>

#include <algorithm>
#include <array>
#include <cassert>

namespace earwright::ui {

namespace {

constexpr const char* context = "Commands";

std::vector<Command> makeTable() {
    std::vector<Command> table;
    for (const auto add :
         {rows::addStudyAndEdit, rows::addPlaying, rows::addLoopAndSpeed, rows::addPasses, rows::addHearing,
          rows::addBandAndHold, rows::addPitchAndLoudness, rows::addMark, rows::addWriting, rows::addPhrasing,
          rows::addMorePhrasing, rows::addStrings, rows::addSelecting, rows::addPageMarks, rows::addDividing,
          rows::addPage, rows::addCheckAndHelp})
        add(table);
    return table;
}

} // namespace

QString Command::translatedName() const {
    return QCoreApplication::translate(context, name);
}

QString Command::translatedAbout() const {
    return QCoreApplication::translate(context, about);
}

const std::vector<Command>& commandTable() {
    static const std::vector<Command> table = makeTable();
    return table;
}

const Command& command(CommandId id) {
    const auto& table = commandTable();
    const auto found =
        std::find_if(table.begin(), table.end(), [id](const Command& c) { return c.id == id; });
    assert(found != table.end());
    return *found;
}

QString translatedName(CommandMenu menu) {
    static constexpr std::array<const char*, 10> names{
        QT_TRANSLATE_NOOP("Commands", "Study"),  QT_TRANSLATE_NOOP("Commands", "Edit"),
        QT_TRANSLATE_NOOP("Commands", "Listen"), QT_TRANSLATE_NOOP("Commands", "Loop"),
        QT_TRANSLATE_NOOP("Commands", "Sound"),  QT_TRANSLATE_NOOP("Commands", "Mark"),
        QT_TRANSLATE_NOOP("Commands", "Notes"),  QT_TRANSLATE_NOOP("Commands", "Page"),
        QT_TRANSLATE_NOOP("Commands", "Check"),  QT_TRANSLATE_NOOP("Commands", "Help")};
    return QCoreApplication::translate(context, names[static_cast<std::size_t>(menu)]);
}

} // namespace earwright::ui
