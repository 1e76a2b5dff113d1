// The side panel: the note grid under its heading, the check and its help, and the loose ends.
#pragma once

#include "core/study/Study.h"
#include "ui/commands/KeyWords.h"

#include <QWidget>

#include <memory>
#include <optional>

class QLabel;
class QVBoxLayout;

namespace earwright::ui {

class FeelLine;
class LadderPanel;
class LooseEndList;
class NoteGrid;
class PlayingLine;

/// Lays them out and keeps the heading; the desk talks to each of them directly.
class NoteGridPanel : public QWidget {
    Q_OBJECT
public:
    explicit NoteGridPanel(QWidget* parent = nullptr);

    NoteGrid* grid() const { return noteGrid; }
    LadderPanel* ladder() const { return ladderPanel; }
    FeelLine* feel() const { return feelLine; }
    PlayingLine* playing() const { return playingLine; }
    LooseEndList* looseEnds() const { return looseEndList; }

    /// Puts another view of the same bars under the grid; the panel owns it then.
    void addUnderGrid(QWidget* view);

    /// The key each command has now, for all that names one.
    void setKeys(const KeyOf& keyOf);
    /// To the grid and the list, and into the heading.
    void setStudy(std::shared_ptr<const Study> study);
    /// A phrase by its bars, or the bars of a range.
    void showPhrase(SpanId phrase);
    void showRange(const Range<Beats>& range);

    QString heading() const;

protected:
    void paintEvent(QPaintEvent* event) override;

private:
    void writeHeading();

    std::shared_ptr<const Study> study;
    std::optional<SpanId> phrase;
    QVBoxLayout* column;
    QLabel* subtitle;
    NoteGrid* noteGrid;
    LadderPanel* ladderPanel;
    FeelLine* feelLine;
    PlayingLine* playingLine;
    LooseEndList* looseEndList;
};

} // namespace earwright::ui
