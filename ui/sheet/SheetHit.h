// What lies under a point of the chorus sheet.
#pragma once

#include "ui/sheet/SheetGeometry.h"
#include "ui/sheet/SheetModel.h"

#include <cstddef>
#include <optional>

namespace earwright::ui {

enum class SheetPart {
    Nothing,
    PillStep,
    PillClimb,
    PillGap,
    PillTrade,
    Pill,
    LoopStart,
    LoopEnd,
    Mark,
    Phrase,
    LooseEnd,
    Chords,
    Heading,
    Ground
};

struct SheetHit {
    SheetPart part = SheetPart::Nothing;
    std::size_t line = 0;
    /// The time under the point.
    Seconds place;
    /// For PillStep.
    int percent = 0;
    /// For Mark: its index in the beat map.
    std::size_t mark = 0;
    /// For Phrase and Heading.
    std::optional<SpanId> span;
    /// For LooseEnd.
    std::optional<LooseEndId> looseEnd;
    /// For Chords and, in lines of bars, for Ground.
    std::optional<std::int64_t> bar;
};

/// The mark whose line is under the hand at any height: its handle is shown, so that it can be found.
std::optional<std::size_t> markUnder(const SheetModel& model, const SheetGeometry& geometry,
                                     const QPointF& point);
/// Small things win over what they lie on: the pill, then flags, then loop edges and marks – marks first
/// under the box, edges in it –, then the rows.
SheetHit hitAt(const SheetModel& model, const SheetGeometry& geometry, const QPointF& point);

} // namespace earwright::ui
