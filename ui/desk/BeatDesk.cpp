#include "ui/desk/BeatDesk.h"

#include "core/playback/BeatPlaces.h"
#include "ui/transport/ClickRow.h"

#include <algorithm>

namespace earwright::ui {

BeatDesk::BeatDesk(DeskSession& desk, QObject* parent) : QObject(parent), session(desk) {
    connect(&session, &DeskSession::opened, this, [this] { tellBeats(); });
    connect(&session, &DeskSession::recordingChanged, this, [this] { tellBeats(); });
    connect(&session, &DeskSession::studyChanged, this, [this](const Study& before) {
        const Study& now = session.study();
        if (before.beatMap != now.beatMap || before.meter != now.meter || before.recording != now.recording)
            tellBeats();
    });
}

void BeatDesk::tellBeats() {
    if (session.isOpen()) session.engine().setBeats(beatPlaces(session.study(), session.duration()));
}

void BeatDesk::click(bool audible) {
    clicking = audible;
    session.engine().setClicks(audible);
    emit changed();
}

void BeatDesk::setClickLevel(int wanted) {
    decibels = std::clamp(wanted, ClickRow::softest, ClickRow::loudest);
    session.engine().setClickLevel(decibels);
    emit changed();
}

void BeatDesk::setCountIn(int beats) {
    counted = std::clamp(beats, 0, ClickRow::mostCountIn);
    session.engine().setCountIn(counted);
    emit changed();
}

void BeatDesk::nextCountIn() {
    const int bar = session.isOpen() ? session.study().meter.beatsPerBar : 4;
    const int more = counted < bar ? bar : counted + bar;
    const bool again = counted >= ClickRow::mostCountIn || (counted >= bar && more > ClickRow::mostCountIn);
    setCountIn(again ? 0 : more);
}

} // namespace earwright::ui
