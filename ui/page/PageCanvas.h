// Lines of music, one under the other, on the window.
#pragma once

#include "core/engraving/EngravedPage.h"
#include "ui/page/MusicFont.h"

#include <QPainter>
#include <QWidget>

#include <memory>
#include <optional>
#include <set>
#include <vector>

namespace earwright::ui {

struct PageLook;

/// Threads: interface only.
class PageCanvas : public QWidget {
    Q_OBJECT
public:
    explicit PageCanvas(QWidget* parent = nullptr);

    /// Zoom 1: heads about as large as those of the grid.
    void show(std::shared_ptr<MusicFont> with, std::vector<EngravedSystem> lines, double zoom);
    void select(std::set<NoteId> notes);
    /// Pixels of a staff space.
    static double pixelsAt(double zoom);
    /// The place that is heard, as a line over its staff; none where it is not on the page.
    void setPlayhead(const std::optional<Beats>& place);
    /// Which line of music a place is on; −1 for none.
    int lineAt(const Beats& place) const;
    QRect boxOfLine(int line) const;
    /// Of as many whole lines as so many pixels have room for; just those pixels where there is none for one.
    int heightOfWholeLines(int most) const;
    std::optional<NoteId> noteAt(const QPointF& pixel) const;
    /// Pixels.
    QRect placeOf(NoteId note) const;
    /// The whole line of music a note is on; pixels, empty where it is not shown.
    QRect lineOf(NoteId note) const;

signals:
    void noteChosen(earwright::NoteId note);

protected:
    void paintEvent(QPaintEvent* event) override;
    void mousePressEvent(QMouseEvent* event) override;

private:
    struct Line {
        EngravedSystem system;
        /// Where its origin stands, in staff spaces.
        PagePoint origin;
    };
    QRect pixelsOf(const PageBox& box) const;
    PageBox spacesOf(const QRect& pixels) const;
    void paintLine(QPainter& painter, const Line& line, const PageBox& exposed, const PageLook& look) const;
    /// Paints all of a note anew, on every line it is on.
    void updateNote(NoteId note);
    /// All that is coloured with a note on one line; an empty box where there is nothing. Requires: a font.
    PageBox inkOf(NoteId note, const EngravedSystem& system) const;
    /// Of the line over the staff; pixels, empty where there is none.
    QRect playheadBox() const;
    void paintPlayhead(QPainter& painter) const;

    std::shared_ptr<MusicFont> font;
    std::vector<Line> lines;
    std::set<NoteId> selected;
    std::optional<Beats> playhead;
    double pixelsOfSpace = 6;
};

} // namespace earwright::ui
