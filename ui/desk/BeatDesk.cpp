#include "ui/desk/BeatDesk.h"

#include "core/playback/BeatPlaces.h"
#include "ui/transport/ClickRow.h"

#include <algorithm>
#include <cmath>

namespace earwright::ui {

namespace {

/// Beats that are counted in the bar at a place.
int beatsOfBar(const Study& study, Seconds place) {
    const MeterMap meters = study.meters();
    const std::int64_t bar =
        study.beatMap.hasTempo()
            ? std::llround(std::floor(meters.barsAt(study.beatMap.beatsAt(place)) + 1e-6)) + 1
            : 1;
    return meters.at(bar).beatsPerBar / meters.at(bar).unitsPerCount();
}

} // namespace

BeatDesk::BeatDesk(DeskSession& desk, QObject* parent) : QObject(parent), session(desk) {
    connect(&session, &DeskSession::opened, this, [this] { tellBeats(); });
    connect(&session, &DeskSession::recordingChanged, this, [this] { tellBeats(); });
    connect(&session, &DeskSession::studyChanged, this, [this](const Study& before) {
        const Study& now = session.study();
        if (before.beatMap != now.beatMap || before.meters() != now.meters() ||
            before.recording != now.recording)
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

void BeatDesk::nextCountIn(Seconds place) {
    const int bar = session.isOpen() ? beatsOfBar(session.study(), place) : 4;
    const int more = counted < bar ? bar : counted + bar;
    const bool again = counted >= ClickRow::mostCountIn || (counted >= bar && more > ClickRow::mostCountIn);
    setCountIn(again ? 0 : more);
}

} // namespace earwright::ui
