// The phrase on the page while it is written: staff and tablature.
#pragma once

#include "core/engraving/EngravedPage.h"
#include "core/engraving/StringTuning.h"
#include "core/study/Study.h"
#include "ui/page/MusicFont.h"

#include <QScrollArea>

#include <memory>
#include <optional>
#include <vector>

namespace earwright::ui {

class PageCanvas;

/// Shows the written notes of some bars and is laid out anew when they change; a note that is pressed is
/// chosen. Takes no room where nothing is written there yet. Threads: interface only.
class PageView : public QScrollArea {
    Q_OBJECT
public:
    explicit PageView(QWidget* parent = nullptr);

    void setStudy(std::shared_ptr<const Study> study);
    /// The bars the grid shows.
    void setBars(const std::optional<Range<Beats>>& bars);
    void setSelected(const std::optional<NoteId>& note);
    /// Whether the user wants to see it.
    void setWanted(bool wanted);
    bool isWanted() const { return wanted; }

    /// In the canvas's pixels; for pointing at a note. Empty where it is not shown.
    QRect placeOf(NoteId note) const;
    QWidget* canvas() const;
    /// Why there is no page, where there could be one.
    QString trouble() const { return problem; }

signals:
    void noteChosen(earwright::NoteId note);

protected:
    void resizeEvent(QResizeEvent* event) override;

private:
    void layOut();

    std::shared_ptr<MusicFont> font;
    std::shared_ptr<const Study> study;
    std::optional<Range<Beats>> bars;
    StringTuning tuning;
    PageCanvas* paper;
    QString problem;
    bool wanted = true;
};

} // namespace earwright::ui
