// The sentence for a run of notes that are off in one way, step by step.
#pragma once

#include "core/check/HintLadder.h"

#include <QString>

namespace earwright::ui {

/// "the record has 8 notes from here on an eighth earlier, the first at bar 30, beat 2½". The names are those
/// of HintNames: what the first note is heard as, or where it begins; used at the last step only. Requires:
/// hint.notes > 0.
QString runText(const Hint& hint, const QString& heardName, const QString& elsewhere);

} // namespace earwright::ui
