// The marks of phrasing in words and groups, and the commands that set them.
#pragma once

#include "core/music/Note.h"
#include "core/music/PhrasingKind.h"
#include "ui/commands/CommandId.h"

#include <QString>

#include <vector>

namespace earwright::ui {

/// Marks that a musician looks for in one place.
struct MarkGroup {
    QString name;
    std::vector<PhrasingKind> kinds;
};

/// Attack, movement of pitch, ornaments, weight and length: every kind once.
std::vector<MarkGroup> markGroups();

CommandId commandFor(PhrasingKind kind);
/// "bend", as an undo menu names it.
QString markName(PhrasingKind kind);
/// What the mark says on this note: "bend up a whole tone"; empty where the note does not have it.
QString markText(const Note& note, PhrasingKind kind);
/// All marks of a note: "trill, a semitone, accent".
QString marksText(const Note& note);

} // namespace earwright::ui
