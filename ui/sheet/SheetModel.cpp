#include "ui/sheet/SheetModel.h"

#include <algorithm>

namespace earwright::ui {

const CheckedChord* SheetModel::chordAnswer(std::int64_t bar, const Beats& withinBar) const {
    const auto found = std::find_if(chordAnswers.begin(), chordAnswers.end(), [&](const CheckedChord& chord) {
        return chord.bar == bar && chord.withinBar == withinBar;
    });
    return found == chordAnswers.end() ? nullptr : &*found;
}

const CheckedChord* SheetModel::chordAnswerAt(Seconds time) const {
    return answerAt(chordAnswers, time);
}

} // namespace earwright::ui
