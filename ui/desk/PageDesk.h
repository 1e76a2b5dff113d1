// The page under the grid at the desk: laid out beside the interface, and read as it was the last time.
#pragma once

#include "ui/desk/BackgroundJob.h"
#include "ui/page/PageView.h"

#include <QObject>
#include <QTimer>

#include <functional>
#include <optional>

class QSettings;

namespace earwright::ui {

/// Threads: interface only; the layout goes on elsewhere. What is wanted last wins: a layout under way is let
/// go of, and of several wishes in one turn of the event loop only the last is begun at all.
class PageDesk : public QObject {
    Q_OBJECT
public:
    /// Requires: view and settings outlive this.
    PageDesk(PageView& view, QSettings& settings, QObject* parent = nullptr);

    bool isLayingOut() const { return next.has_value() || work.isRunning(); }

private:
    struct Wanted {
        PageOrder order;
        std::function<void(PageView::Laid)> done;
    };
    void begin();

    std::optional<Wanted> next;
    QTimer endOfTurn;
    BackgroundJob work;
};

} // namespace earwright::ui
