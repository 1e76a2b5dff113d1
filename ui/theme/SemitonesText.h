// A number of semitones in words.
#pragma once

#include <QString>

namespace earwright::ui {

/// "1 semitone", "3 semitones".
QString semitonesText(int count);

} // namespace earwright::ui
