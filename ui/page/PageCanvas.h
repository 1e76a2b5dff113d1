// Lines of music, one under the other, on the window.
#pragma once

#include "core/engraving/EngravedPage.h"
#include "ui/page/MusicFont.h"

#include <QWidget>

#include <memory>
#include <optional>
#include <vector>

namespace earwright::ui {

/// Threads: interface only.
class PageCanvas : public QWidget {
    Q_OBJECT
public:
    /// Pixels of a staff space: heads about as large as those of the grid.
    static constexpr double pixelsOfSpace = 6;

    explicit PageCanvas(QWidget* parent = nullptr);

    void show(std::shared_ptr<MusicFont> with, std::vector<EngravedSystem> lines);
    void select(const std::optional<NoteId>& note);
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
    static QRect pixelsOf(const PageBox& box);
    std::optional<NoteId> noteAt(const QPointF& pixel) const;

    std::shared_ptr<MusicFont> font;
    std::vector<Line> lines;
    std::optional<NoteId> selected;
};

} // namespace earwright::ui
