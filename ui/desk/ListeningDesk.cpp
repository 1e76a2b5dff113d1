#include "ui/desk/ListeningDesk.h"

#include "core/study/PracticeEdits.h"
#include "ui/desk/EarSteps.h"
#include "ui/desk/SpeedSteps.h"

#include <algorithm>
#include <cmath>
#include <utility>

namespace earwright::ui {

namespace {

constexpr int ways = 5;
constexpr int parts = 5;
/// The ear has arrived when it is this near; after the longest wait (milliseconds) it counts as arrived
/// anyhow.
constexpr Seconds arrival{0.03};
constexpr qint64 longestWait = 400;

} // namespace

QString nameOf(Hearing hearing) {
    switch (hearing) {
    case Hearing::Record:
        return ListeningDesk::tr("record");
    case Hearing::Yours:
        return ListeningDesk::tr("yours");
    case Hearing::Together:
        return ListeningDesk::tr("together");
    case Hearing::Split:
        return ListeningDesk::tr("split");
    case Hearing::Trade:
        return ListeningDesk::tr("trade");
    }
    return {};
}

ListeningDesk::ListeningDesk(DeskSession& desk, QObject* parent) : QObject(parent), session(desk) {
    session.engine().setLevel(gain);
    connect(&session, &DeskSession::opened, this, [this] {
        chosen.reset();
        giveUpLoop();
    });
    connect(&session, &DeskSession::recordingChanged, this, [this] { focusOn(Focus::All); });
}

const Heard& ListeningDesk::listen() {
    last = session.engine().now();
    // The engine tells it once, to whoever asks first.
    heldBack = heldBack || last.limited;
    return last;
}

bool ListeningDesk::takeHeldBack() {
    return std::exchange(heldBack, false);
}

Seconds ListeningDesk::ear() {
    if (!session.isOpen()) return Seconds(0);
    const Seconds heardNow = session.study().recording.rate.seconds(listen().position);
    return last.playing ? heardNow : orChosen(heardNow);
}

Seconds ListeningDesk::earAt(std::chrono::steady_clock::time_point at) {
    const Seconds now = ear();
    if (!last.playing) return now;
    Engine& engine = session.engine();
    const auto then = engine.heardAt(engine.heardFrame(at));
    return then && then->playing ? session.study().recording.rate.seconds(then->position) : now;
}

Seconds ListeningDesk::place() {
    if (!session.isOpen()) return Seconds(0);
    return orChosen(session.study().recording.rate.seconds(listen().position));
}

Seconds ListeningDesk::orChosen(Seconds heardNow) {
    if (!chosen) return heardNow;
    if (!session.recording()) return *chosen; // nothing will ever be heard there
    const bool arrived = std::abs(heardNow.value - chosen->value) < arrival.value;
    if (!arrived && sinceChosen.elapsed() < longestWait) return *chosen;
    chosen.reset();
    return heardNow;
}

void ListeningDesk::playOrPause() {
    listen().playing ? session.engine().pause() : session.engine().play();
}

void ListeningDesk::hearFrom(Seconds place) {
    chosen = std::clamp(place, Seconds(0), session.duration());
    sinceChosen.start();
    // Upwards, so that a place chosen at the start of a bar or phrase lies in it.
    const double frames = chosen->value * session.study().recording.rate.hertz;
    const Frames frame(std::llround(std::ceil(frames - 1e-6)));
    if (last.holding)
        session.engine().hold(frame);
    else
        session.engine().seek(frame);
}

void ListeningDesk::holdOrLetGo() {
    listen();
    if (letHeldGo() || !session.isOpen()) return;
    session.engine().hold(session.framesOf(place()));
    last.holding = true;
}

bool ListeningDesk::letHeldGo() {
    if (!last.holding) return false;
    session.engine().hold(std::nullopt);
    last.holding = false;
    return true;
}

void ListeningDesk::stepBeats(int steps) {
    hearFrom(ui::stepBeats(session.study(), place(), steps, session.duration()));
}

void ListeningDesk::stepBars(int steps) {
    hearFrom(ui::stepBars(session.study(), place(), steps, session.duration()));
}

void ListeningDesk::hearSlice(const Range<Seconds>& slice) {
    const Range<Frames> frames{session.framesOf(std::max(slice.begin, Seconds(0))),
                               session.framesOf(slice.end)};
    if (!frames.isEmpty()) session.engine().playSlice(frames);
}

void ListeningDesk::loopFromOrToHere() {
    if (const auto loop = making.tap(ear())) loopOver(loop);
    emit loopMakingChanged();
}

bool ListeningDesk::giveUpLoop() {
    if (!making.start()) return false;
    making.giveUp();
    emit loopMakingChanged();
    return true;
}

void ListeningDesk::loopOver(const std::optional<Range<Seconds>>& loop) {
    session.adjust(setLoop(session.study(), loop));
}

void ListeningDesk::nudgeLoop(LoopEnd end, int direction) {
    if (const auto& loop = session.study().practice.loop)
        loopOver(LoopMaking::nudged(*loop, end, direction, session.duration()));
}

void ListeningDesk::playAt(double speed) {
    session.adjust(setSpeed(session.study(), speed));
}

void ListeningDesk::slower() {
    playAt(slowerThan(session.study().practice.speed));
}

void ListeningDesk::faster() {
    playAt(fasterThan(session.study().practice.speed));
}

void ListeningDesk::transpose(int semitones, int cents) {
    session.adjust(setTransposition(session.study(), semitones, cents));
}

void ListeningDesk::transposeBy(int semitones) {
    const Practice& practice = session.study().practice;
    transpose(practice.semitones + semitones, practice.cents);
}

void ListeningDesk::hear(Hearing hearing) {
    way = hearing;
    session.engine().setHearing(hearing);
    emit hearingChanged();
}

Hearing ListeningDesk::neighbour(int step) const {
    return static_cast<Hearing>((static_cast<int>(way) + ways + step) % ways);
}

void ListeningDesk::focusOn(Focus focus) {
    part = focus;
    session.engine().setFocus(focus);
    emit focusChanged();
}

Focus ListeningDesk::focusNeighbour(int step) const {
    return static_cast<Focus>((static_cast<int>(part) + parts + step) % parts);
}

bool ListeningDesk::isStereo() const {
    const auto recording = session.recording();
    return recording && recording->channels() == 2;
}

void ListeningDesk::setLevel(double level) {
    gain = std::clamp(level, 0.0, 1.0);
    session.engine().setLevel(gain);
    emit levelChanged();
}

void ListeningDesk::setBalance(int decibels) {
    yoursDecibels = std::clamp(decibels, Engine::softestYours, Engine::loudestYours);
    session.engine().setBalance(yoursDecibels);
    emit levelChanged();
}

} // namespace earwright::ui
