// The menu under the right button on the chorus sheet, for what lies there.
#pragma once

#include "ui/sheet/SheetHit.h"
#include "ui/sheet/SheetWish.h"

#include <QMenu>

#include <functional>

namespace earwright::ui {

/// What the menu needs typed before it is a wish.
struct SheetTyping {
    std::function<void(std::int64_t bar)> chords;
    std::function<void(SpanKind kind, const Range<Seconds>& stretch)> stretchName;
    std::function<void(SpanId span)> spanName;
    std::function<void(Seconds place)> looseEnd;
    std::function<void(LooseEndId looseEnd)> looseEndText;
};

/// Fills the menu. Requires: what it is given outlives the menu's use.
void fillSheetMenu(QMenu& menu, const SheetModel& model, const SheetHit& hit, const SheetTyping& typing,
                   const std::function<void(const SheetWish&)>& wish);

} // namespace earwright::ui
