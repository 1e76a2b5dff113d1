// The menu of the page: how the line is read, and on which string a note is played.
#pragma once

#include "core/study/Study.h"
#include "ui/page/PageOrder.h"

#include <functional>
#include <optional>

class QMenu;

namespace earwright::ui {

/// Reading, clef, what is shown, bars to a line, size; `chosen` gets the next wish.
void addPageWishes(QMenu& menu, const PageWish& wish, const std::function<void(const PageWish&)>& chosen);

/// The strings that have a note's pitch, and the one the fingering finds; `pinned` gets the string chosen, or
/// none for the fingering's own.
void addStringsOf(QMenu& menu, const Note& note, const StringTuning& tuning,
                  const std::function<void(std::optional<int>)>& pinned);

/// 0.6 to 2.5 in steps.
double nextZoom(double zoom, bool larger);

} // namespace earwright::ui
