// The sentence for one step of the hint ladder; it never says more than its step.
#pragma once

#include "core/check/HintLadder.h"

#include <QString>

namespace earwright::ui {

/// What the last step calls things by; used at that step only.
struct HintNames {
    /// The pitch on its chord.
    QString heard;
    /// The place where the note begins instead, as placeText() words it; empty where that is its own.
    QString elsewhere;
};

/// "Bar 30, beat 3: something is off". Place: as placeSentence() words it; empty without bars.
QString hintText(const Hint& hint, const QString& place, const HintNames& names = {});

} // namespace earwright::ui
