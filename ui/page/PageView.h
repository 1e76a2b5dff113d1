// The phrase on the page while it is written: staff and tablature.
#pragma once

#include "core/engraving/EngravedPage.h"
#include "core/study/Study.h"
#include "ui/page/MusicFont.h"
#include "ui/page/PageOrder.h"
#include "ui/theme/WheelNotches.h"

#include <QScrollArea>

#include <cstdint>
#include <functional>
#include <memory>
#include <optional>
#include <vector>

class QMenu;

namespace earwright::ui {

class PageCanvas;

/// Shows the written notes of some bars and is laid out anew when they change; until the new page is there
/// the one before stays. A note that is pressed is chosen. Takes no room where nothing is written there yet,
/// and otherwise as many lines of music as its panel has room for. While its panel is not in sight nothing is
/// laid out. Threads: interface only.
class PageView : public QScrollArea {
    Q_OBJECT
public:
    using Laid = Result<std::vector<EngravedSystem>>;
    /// Lays an order out beside the interface and hands the outcome to the function here, on the interface
    /// thread; of an order that a later one overtook it may do without.
    using Layer = std::function<void(PageOrder, std::function<void(Laid)>)>;

    explicit PageView(QWidget* parent = nullptr);

    /// Without one it lays out at once.
    void setLayer(Layer layer);
    void setStudy(std::shared_ptr<const Study> study);
    /// The bars the grid shows.
    void setBars(const std::optional<Range<Beats>>& bars);
    /// The line of the note at the cursor comes into sight; of one just written, once it is laid out.
    void setSelected(const std::vector<NoteId>& notes, const std::optional<NoteId>& atCursor);
    /// The line of a place comes into sight, such as that of the cursor where no note is; of a page that is
    /// being turned, once it is laid out.
    void showPlace(const Beats& place);
    /// The place that is heard; drawn where it is on the page, whose line comes into sight.
    void setPlayhead(const std::optional<Beats>& place);
    /// Whether the user wants to see it.
    void setWanted(bool wanted);
    bool isWanted() const { return wanted; }
    void setWish(const PageWish& wish);
    const PageWish& wish() const { return reading; }
    /// As the user chose it: is shown and told as changed.
    void choose(const PageWish& next);
    /// The menu of the view and, where there is one, of a note.
    void openMenu(const QPoint& globalPlace, const std::optional<NoteId>& note);
    /// The same by key: at the note where it is in sight.
    void openMenuByKey(const std::optional<NoteId>& note);

    /// In the canvas's pixels; for pointing at a note. Empty where it is not shown.
    QRect placeOf(NoteId note) const;
    QWidget* canvas() const;
    /// Why there is no page, where there could be one.
    QString trouble() const { return problem; }
    QSize sizeHint() const override;

signals:
    void noteChosen(earwright::NoteId note);
    /// By the menu or the wheel; the view shows it already.
    void wishChanged();
    void pinWanted(earwright::NoteId note, std::optional<int> string);
    void stringsWanted();

protected:
    void resizeEvent(QResizeEvent* event) override;
    void contextMenuEvent(QContextMenuEvent* event) override;
    void wheelEvent(QWheelEvent* event) override;
    bool eventFilter(QObject* watched, QEvent* event) override;
    void changeEvent(QEvent* event) override;

private:
    QMenu* makeMenu(const std::optional<NoteId>& note);
    void layOut();
    void take(Laid laid, double zoom);
    void bringIntoSight(const QRect& line);
    /// Brings the line of the note that is sought into sight, if it is there.
    void seek();
    /// Pixels: what there is to show, as far as the panel has room.
    int fittingHeight() const;
    void fitHeight();
    /// Pixels that the panel has left for the page.
    int roomInPanel() const;

    std::shared_ptr<MusicFont> font;
    std::shared_ptr<const FontMetrics> metrics;
    std::shared_ptr<const Study> study;
    std::optional<Range<Beats>> bars;
    PageWish reading;
    Layer layer;
    PageCanvas* paper;
    QString problem;
    /// How often something else was wanted: what was ordered before is not shown any more.
    std::uint64_t orders = 0;
    int playingLine = -1;
    /// Whether a page is being laid out.
    bool isOrdered = false;
    /// The note at the cursor, until its line was brought into sight on the page that is wanted.
    std::optional<NoteId> sought;
    /// The same of the cursor's place.
    std::optional<Beats> soughtPlace;
    /// Pixels in height.
    int fitting = 1;
    bool wanted = true;
    WheelNotches wheel;
};

} // namespace earwright::ui
