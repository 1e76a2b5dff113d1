// The shapes that stand for roles, so that none of them is told by its colour alone.
#pragma once

#include "core/check/Verdict.h"

#include <QColor>
#include <QPainter>
#include <QPointF>

namespace earwright::ui {

/// How the head of a written note is drawn: what nobody has judged yet does not look like what is borne out.
enum class HeadShape {
    Full,   ///< supported by the record
    Dotted, ///< unclear
    Struck, ///< contradicted
    Open,   ///< not judged: not checked yet, or changed or written since the check
};

/// The same shapes wherever verdicts are shown.
HeadShape headShapeOf(Verdict verdict);

/// A note head. `ground` fills the inside of rings. Radius in pixels of the painter.
void paintHead(QPainter& painter, QPointF centre, double radius, HeadShape shape, const QColor& colour,
               const QColor& ground);
/// A loose end: a flag whose pole stands on `foot`. Height in pixels of the painter; a settled one is hollow.
void paintFlag(QPainter& painter, QPointF foot, double height, const QColor& colour, bool settled = false);
/// An onset of the recording: a small triangle that points down to `tip`.
void paintOnset(QPainter& painter, QPointF tip, double size, const QColor& colour);

} // namespace earwright::ui
