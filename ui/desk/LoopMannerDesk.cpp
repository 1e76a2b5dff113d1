#include "ui/desk/LoopMannerDesk.h"

#include "ui/desk/SpeedSteps.h"

#include <algorithm>

namespace earwright::ui {

LoopMannerDesk::LoopMannerDesk(DeskSession& desk, ListeningDesk& ears, QObject* parent)
    : QObject(parent), session(desk), listening(ears) {
    connect(&session, &DeskSession::opened, this, [this] {
        manner = {};
        tellEngine();
    });
    connect(&session, &DeskSession::studyChanged, this, [this] {
        if (isClimbing() && !session.study().practice.loop) chooseClimb(std::nullopt);
    });
}

void LoopMannerDesk::chooseClimb(const std::optional<Climb>& climb) {
    manner.climb = climb;
    if (climb) chosen = *climb;
    tellEngine();
}

void LoopMannerDesk::toggleClimb() {
    if (isClimbing())
        chooseClimb(std::nullopt);
    else if (session.isOpen() && session.study().practice.loop)
        chooseClimb(chosen);
}

void LoopMannerDesk::stepBack() {
    if (!session.isOpen()) return;
    if (isClimbing()) return session.engine().climbBack();
    listening.playAt(chosen.stepBack(session.study().practice.speed));
}

void LoopMannerDesk::chooseGap(int beats) {
    manner.gapBeats = std::clamp(beats, 0, LoopManner::mostGapBeats);
    tellEngine();
}

void LoopMannerDesk::chooseYoursSpeed(const std::optional<double>& speed) {
    manner.tradeYoursSpeed = speed;
    tellEngine();
}

void LoopMannerDesk::stepYoursSpeed(int step) {
    if (!session.isOpen()) return;
    const double now = manner.tradeYoursSpeed.value_or(session.study().practice.speed);
    chooseYoursSpeed(step > 0 ? fasterThan(now) : slowerThan(now));
}

void LoopMannerDesk::follow() {
    if (!isClimbing() || !session.isOpen()) return;
    // The engine says at once what was set by hand, so that this never takes a choice back.
    const double reached = listening.heard().reachedSpeed;
    if (reached != session.study().practice.speed) listening.playAt(reached);
}

void LoopMannerDesk::tellEngine() {
    session.engine().setLoopManner(manner);
    emit changed();
}

} // namespace earwright::ui
