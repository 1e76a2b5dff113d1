// The sentence for one step of the hint ladder; it never says more than its step.
#pragma once

#include "core/check/HintLadder.h"

#include <QString>

namespace earwright::ui {

/// "Bar 30, beat 3: something is off". Place: as placeSentence() words it; empty without bars.
/// `heardName`: how the pitch of the last step is called on its chord, used at that step only.
QString hintText(const Hint& hint, const QString& place, const QString& heardName = {});

} // namespace earwright::ui
