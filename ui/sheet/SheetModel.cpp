#include "ui/sheet/SheetModel.h"

#include <algorithm>

namespace earwright::ui {

namespace {

template <class Condition>
const CheckedChord* firstOf(const std::vector<CheckedChord>& answers, Condition condition) {
    const auto found = std::find_if(answers.begin(), answers.end(), condition);
    return found == answers.end() ? nullptr : &*found;
}

} // namespace

const CheckedChord* SheetModel::chordAnswer(std::int64_t bar, const Beats& withinBar) const {
    return firstOf(chordAnswers, [&](const CheckedChord& chord) {
        return chord.bar == bar && chord.withinBar == withinBar;
    });
}

const CheckedChord* SheetModel::chordAnswerAt(Seconds time) const {
    return firstOf(chordAnswers, [&](const CheckedChord& chord) { return chord.range.contains(time); });
}

} // namespace earwright::ui
