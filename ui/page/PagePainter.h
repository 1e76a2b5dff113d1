// Paints engraved shapes.
#pragma once

#include "core/engraving/EngravedPage.h"
#include "ui/page/MusicFont.h"

#include <QColor>
#include <QPainter>

#include <optional>
#include <set>

namespace earwright::ui {

/// How shapes are coloured. A selected note is marked by its colour and by a ground behind it.
struct PageLook {
    QColor ink = Qt::black;
    /// What fret numbers lie on, so that the string does not run through them.
    QColor paper = Qt::white;
    QColor selected;
    QColor ground;
    /// Letters as outlines instead of text, for files that cannot bring their fonts along.
    bool lettersAsOutlines = false;
};

/// Paints shapes in their own units: the painter is scaled so that 1 is a staff space. Where only a part of
/// the paper is `exposed`, in the shapes' own place, what lies elsewhere is left out. Threads: the font's.
void paintShapes(QPainter& painter, const PlacedShapes& shapes, MusicFont& font, const PageLook& look,
                 const std::set<NoteId>& selected = {}, const std::optional<PageBox>& exposed = {});

} // namespace earwright::ui
