// Dynamics, hairpins and words as the keys and the menu of the grid set them.
#pragma once

#include "core/study/Study.h"
#include "ui/grid/GridEdits.h"

#include <QString>

#include <optional>

namespace earwright::ui {

/// "ppp" to "fff", "sfz".
QString dynamicText(Dynamic level);

// All: nothing where the edit would change nothing.

/// The dynamic at a place a step louder or softer, within ppp to fff; where there is none, the one that
/// stands there so far, or mf, begins.
std::optional<GridEdit> dynamicStepped(const Study& study, const Beats& at, int by);
/// The dynamic at a place; nothing takes it away.
std::optional<GridEdit> dynamicSet(const Study& study, const Beats& at, std::optional<Dynamic> level);
/// A hairpin over a range; the same one again takes it away.
std::optional<GridEdit> hairpinToggled(const Study& study, const Range<Beats>& range, HairpinKind kind);
/// Words at a place, over the line or below it; empty ones take them away.
std::optional<GridEdit> wordsSet(const Study& study, const Beats& at, const QString& words, bool below);
/// Dynamic, words, and every hairpin that lies there, taken away.
std::optional<GridEdit> pageMarksCleared(const Study& study, const Range<Beats>& range);

/// The words that stand at a place; empty for none.
QString wordsAt(const Study& study, const Beats& at, bool below);

} // namespace earwright::ui
