#include "ui/desk/ClimbDesk.h"

namespace earwright::ui {

ClimbDesk::ClimbDesk(DeskSession& desk, ListeningDesk& ears, QObject* parent)
    : QObject(parent), session(desk), listening(ears) {
    connect(&session, &DeskSession::opened, this, [this] { choose(std::nullopt); });
    connect(&session, &DeskSession::studyChanged, this, [this](const Study& before) {
        const Practice& practice = session.study().practice;
        if (on && !practice.loop) return choose(std::nullopt);
        if (practice.loop != before.practice.loop || practice.speed != reached) restart();
    });
}

void ClimbDesk::choose(const std::optional<Climb>& climb) {
    on = climb.has_value();
    if (climb) chosen = *climb;
    restart();
    emit changed();
}

void ClimbDesk::toggle() {
    if (on)
        choose(std::nullopt);
    else if (session.isOpen() && session.study().practice.loop)
        choose(chosen);
}

void ClimbDesk::stepBack() {
    if (!session.isOpen()) return;
    playAt(chosen.stepBack(session.study().practice.speed));
    restart();
}

void ClimbDesk::follow() {
    if (!on || !session.isOpen()) return;
    count.hear(listening.heard(), listening.hearing());
    const double speed = chosen.speedAfter(from, count.rounds());
    if (speed != session.study().practice.speed) playAt(speed);
}

void ClimbDesk::restart() {
    from = session.isOpen() ? session.study().practice.speed : 1.0;
    reached = from;
    count.restart();
}

void ClimbDesk::playAt(double speed) {
    reached = speed;
    listening.playAt(speed);
}

} // namespace earwright::ui
