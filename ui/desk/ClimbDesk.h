// The climb at the desk: the speed rises as the loop is heard, and falls back when asked.
#pragma once

#include "core/engine/Climb.h"
#include "core/engine/RoundCount.h"
#include "ui/desk/DeskSession.h"
#include "ui/desk/ListeningDesk.h"

#include <QObject>

#include <optional>

namespace earwright::ui {

/// Lives as long as its loop: it goes on over a moved or another loop, and ends where there is none. A speed
/// chosen by hand is where it goes on from.
/// Threads: interface only.
class ClimbDesk : public QObject {
    Q_OBJECT
public:
    ClimbDesk(DeskSession& session, ListeningDesk& listening, QObject* parent = nullptr);

    /// The climb chosen last, also while it is off.
    const Climb& climb() const { return chosen; }
    bool isOn() const { return on; }
    /// Nothing switches it off; the speed stays.
    void choose(const std::optional<Climb>& climb);
    void toggle();
    /// A step slower; the rounds of a step are counted from here.
    void stepBack();
    /// Looks at what was heard last; to be called with every picture.
    void follow();

signals:
    void changed();

private:
    void restart();
    void playAt(double speed);

    DeskSession& session;
    ListeningDesk& listening;
    Climb chosen;
    bool on = false;
    /// Speed from which the rounds are counted.
    double from = 1;
    /// Speed as this left it; another one was chosen by hand.
    double reached = 1;
    RoundCount count;
};

} // namespace earwright::ui
