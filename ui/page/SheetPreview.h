// A page of a sheet as it will be printed, made small.
#pragma once

#include "core/engraving/EngravedPage.h"
#include "ui/page/MusicFont.h"

#include <QWidget>

#include <memory>
#include <vector>

namespace earwright::ui {

/// Shows one page at a time, whole; the page keys turn it. Threads: interface only.
class SheetPreview : public QWidget {
    Q_OBJECT
public:
    explicit SheetPreview(QWidget* parent = nullptr);

    void show(std::shared_ptr<MusicFont> with, std::vector<EngravedPage> pages);
    std::size_t pageCount() const { return sheets.size(); }
    std::size_t page() const { return current; }
    /// The page nearest to the one asked for.
    void turnTo(std::size_t page);
    QSize sizeHint() const override { return {420, 594}; }

signals:
    void turned();

protected:
    void paintEvent(QPaintEvent* event) override;
    void keyPressEvent(QKeyEvent* event) override;
    void mousePressEvent(QMouseEvent* event) override;

private:
    QRectF paperRect(const EngravedPage& page) const;

    std::shared_ptr<MusicFont> font;
    std::vector<EngravedPage> sheets;
    std::size_t current = 0;
};

} // namespace earwright::ui
