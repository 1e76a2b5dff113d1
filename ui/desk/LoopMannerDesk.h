// How the loop goes round at the desk: its gap, its climb, and the speed of yours in trade.
#pragma once

#include "core/engine/LoopManner.h"
#include "ui/desk/DeskSession.h"
#include "ui/desk/ListeningDesk.h"

#include <QObject>

#include <optional>

namespace earwright::ui {

/// The engine keeps the count and changes the speed on the seam; this tells it what was chosen. A climb lives
/// as long as there is a loop: it goes on over a moved or another one and ends where there is none. The speed
/// it reached stays. Threads: interface only.
class LoopMannerDesk : public QObject {
    Q_OBJECT
public:
    LoopMannerDesk(DeskSession& session, ListeningDesk& listening, QObject* parent = nullptr);

    /// The climb chosen last, also while it is off.
    const Climb& climb() const { return chosen; }
    bool isClimbing() const { return manner.climb.has_value(); }
    /// Nothing switches it off.
    void chooseClimb(const std::optional<Climb>& climb);
    void toggleClimb();
    /// A step slower; the rounds of a step are counted from here.
    void stepBack();

    int gapBeats() const { return manner.gapBeats; }
    /// Kept within 0 to 4.
    void chooseGap(int beats);

    /// The speed of yours in trade; nothing is the record's.
    std::optional<double> yoursSpeed() const { return manner.tradeYoursSpeed; }
    void chooseYoursSpeed(const std::optional<double>& speed);
    /// A speed step up (1) or down (−1) from what it is now.
    void stepYoursSpeed(int step);

    /// Looks at what was heard last, and takes a speed the climb has come to for the study's; to be called
    /// with every picture.
    void follow();

signals:
    void changed();

private:
    void tellEngine();

    DeskSession& session;
    ListeningDesk& listening;
    Climb chosen;
    LoopManner manner;
};

} // namespace earwright::ui
