// The chorus sheet: the recording in lines of bars, with chords, notes, phrases, loose ends and the loop.
#pragma once

#include "ui/commands/KeyWords.h"
#include "ui/sheet/LoopPill.h"
#include "ui/sheet/SheetGeometry.h"
#include "ui/sheet/SheetMenu.h"
#include "ui/sheet/SheetModel.h"
#include "ui/sheet/SheetTool.h"
#include "ui/sheet/SheetWish.h"
#include "ui/theme/WheelNotches.h"

#include <QAbstractScrollArea>
#include <QPixmap>

#include <cstdint>
#include <functional>
#include <map>
#include <memory>
#include <optional>
#include <set>
#include <vector>

class QVariantAnimation;

namespace earwright::ui {

class InlineEditor;

/// Owns scroll, zoom and the picture of what stands still; asks by signal for what the hand wants.
/// Threads: interface only.
class ChorusSheetView : public QAbstractScrollArea {
    Q_OBJECT
public:
    explicit ChorusSheetView(QWidget* parent = nullptr);

    void setStudy(std::shared_ptr<const Study> study);
    /// A recording and how to ask for its levels.
    void setRecording(Seconds duration, std::function<std::optional<float>(const Range<Seconds>&)> level);
    /// More of the overview is known.
    void levelsChanged();
    void setOnsets(std::vector<Seconds> onsets);
    void setVerdicts(std::map<NoteId, Verdict> verdicts);
    /// What the record says to the chords that were checked.
    void setChordAnswers(std::vector<CheckedChord> answers);
    /// Beats that wait to be accepted; none takes them away.
    void setProposal(std::vector<ProposedBeat> beats);
    void setPhrase(std::optional<SpanId> phrase);
    void setSpeedSteps(std::vector<int> percents);
    /// The climb on the loop; while off, the one that the first choice starts from.
    void setClimb(const Climb& climb, bool climbing);
    /// Beats of silence after each pass of the loop.
    void setGap(int beats);
    /// Whether record and yours take turns, and the speed of yours in per cent, 0 for the record's.
    void setTrade(bool trading, int yoursPercent);
    /// One instant is held: its place is marked.
    void setHeld(const std::optional<Seconds>& place);
    /// Follows the ear while it is in sight; scrolled away by hand, the sheet stays where it is put.
    void setHeard(Seconds place);
    /// The time of the lines in sight; empty where there are none.
    Range<Seconds> timeInSight() const;
    /// So many pixels at the foot lie under something else: what is there is not in sight, and the sheet can be
    /// scrolled clear of it. Nothing moves unless the ear was followed there.
    void setCoveredFoot(int height);
    /// Scrolls a place into sight.
    void reveal(Seconds place);

    /// Notes chosen in the note grid; nothing is scrolled.
    void setSelected(std::set<NoteId> notes);
    std::optional<Range<Seconds>> stretch() const { return model.stretch; }
    void setStretch(const std::optional<Range<Seconds>>& stretch);
    /// Bars on a line: 1 to 16.
    void setBarsPerLine(int bars);
    /// Half as many bars on a line (−1), or twice as many (+1).
    void stepBarsPerLine(int by);
    /// The key each command has now, for the invitation to open something.
    void setKeys(KeyOf keys);

    // Editors that open on the sheet; each ends in a wish.
    void typeChords(std::int64_t bar);
    void typeName(SpanKind kind, const Range<Seconds>& range);
    void typeNewName(SpanId span);
    void typeLooseEnd(Seconds place);
    void typeLooseEndAgain(LooseEndId looseEnd);

    /// The menu of the climb on the loop's pill, as if clicked. Nothing happens without a loop.
    void openClimbMenu();
    const SheetGeometry& places() const { return geometry; }
    /// Gives up a gesture; true if there was one.
    bool letGo();

signals:
    void wished(const earwright::ui::SheetWish& wish);
    /// Nothing: no climb any more.
    void climbChosen(const std::optional<earwright::Climb>& climb);
    void climbStepBackChosen();
    void gapChosen(int beats);
    /// In per cent; 0 for the record's speed.
    void yoursSpeedChosen(int percent);

protected:
    void paintEvent(QPaintEvent* event) override;
    void resizeEvent(QResizeEvent* event) override;
    void focusInEvent(QFocusEvent* event) override;
    void focusOutEvent(QFocusEvent* event) override;
    void changeEvent(QEvent* event) override;
    void scrollContentsBy(int dx, int dy) override;
    void wheelEvent(QWheelEvent* event) override;
    void mousePressEvent(QMouseEvent* event) override;
    void mouseMoveEvent(QMouseEvent* event) override;
    void mouseReleaseEvent(QMouseEvent* event) override;
    void mouseDoubleClickEvent(QMouseEvent* event) override;
    void contextMenuEvent(QContextMenuEvent* event) override;
    bool viewportEvent(QEvent* event) override;

private:
    void lay();
    /// As far as the lines go beyond what is clear.
    void letScroll();
    void paintInvitation(QPainter& painter) const;
    void redraw();
    /// For those who listen to the screen: told anew with every beat, not with every picture.
    void describe();
    std::int64_t beatOf(Seconds place) const;
    QPointF onSheet(const QPointF& inViewport) const;
    QRect inViewport(const QRectF& onSheet) const;
    bool isInSight(Seconds place) const;
    /// What is not covered.
    int clearHeight() const;
    void scrollTo(double top);
    /// A third of a line on where a gesture leads out of sight.
    void scrollTowards(const QPointF& place);
    void reachFor(std::optional<std::size_t> mark);
    void showPointer(const SheetHit& hit);
    void showTip(const SheetHit& hit);
    /// Where an editor for a place opens.
    QRect editorPlace(const QRectF& row, double x, int width) const;
    void openMenu(const SheetHit& hit, const QPoint& at);
    void openPillMenu(SheetPart part);
    void popUpAt(QMenu& menu, const PillPart& part);

    KeyOf keyOf = tableKey;
    SheetModel model;
    LineLength lineLength;
    SheetGeometry geometry;
    SheetTool tool;
    SheetTyping typing;
    InlineEditor* editor = nullptr;
    QVariantAnimation* glide = nullptr;
    std::int64_t describedBeat = 0;
    int coveredFoot = 0;
    WheelNotches wheel;
    /// All but the playhead, as large as the viewport; null when it has to be drawn anew.
    QPixmap still;
};

} // namespace earwright::ui
