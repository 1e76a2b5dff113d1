#include "ui/desk/TuningDesk.h"

#include "core/study/PracticeEdits.h"

#include <QSettings>

#include <algorithm>

namespace earwright::ui {

namespace {

const auto referenceKey = QStringLiteral("desk/reference");

} // namespace

TuningDesk::TuningDesk(DeskSession& desk, QSettings& store, QObject* parent)
    : QObject(parent), session(desk), settings(store) {
    a.hertz = std::clamp(settings.value(referenceKey, ReferenceA::usual).toInt(), ReferenceA::lowest,
                         ReferenceA::highest);
    connect(&session, &DeskSession::recordingChanged, this, [this] { setRecord(std::nullopt); });
}

void TuningDesk::setRecord(std::optional<double> given, double givenDrift) {
    cents = given;
    driftCents = givenDrift;
    session.engine().setTuning(cents.value_or(0));
    emit changed();
}

bool TuningDesk::canMove() const {
    return cents && TuningShift::between(*cents, a).total() != 0;
}

bool TuningDesk::isInTune() const {
    return canMove() && session.isOpen() &&
           session.study().practice.cents == TuningShift::between(*cents, a).cents;
}

void TuningDesk::playInTune(bool inTune) {
    if (!session.isOpen() || !canMove() || inTune == isInTune()) return;
    const TuningShift shift = TuningShift::between(*cents, a);
    const int semitones = session.study().practice.semitones;
    session.adjust(setTransposition(session.study(),
                                    inTune ? semitones + shift.semitones : semitones - shift.semitones,
                                    inTune ? shift.cents : 0));
}

double TuningDesk::instrumentA() const {
    if (!session.isOpen() || !cents || isInTune()) return a.cents();
    return *cents + session.study().practice.cents;
}

int TuningDesk::transposed() const {
    if (!session.isOpen()) return 0;
    const int semitones = session.study().practice.semitones;
    return isInTune() ? semitones - TuningShift::between(*cents, a).semitones : semitones;
}

void TuningDesk::choose(const ReferenceA& reference) {
    const bool follows = isInTune();
    if (follows) playInTune(false);
    a.hertz = std::clamp(reference.hertz, ReferenceA::lowest, ReferenceA::highest);
    settings.setValue(referenceKey, a.hertz);
    if (follows) playInTune(true);
    emit changed();
}

} // namespace earwright::ui
