#include "ui/desk/EntryDesk.h"

#include "core/engine/Input.h"
#include "ui/grid/NoteGrid.h"

#include <QSettings>

#include <algorithm>
#include <array>
#include <cmath>

namespace earwright::ui {

namespace {

using Clock = std::chrono::steady_clock;

const auto subject = QStringLiteral("entry");
const auto octavesKey = QStringLiteral("input/octaves");

/// What played dies away in the room, and comes in late by the latencies of both devices.
constexpr auto ringing = std::chrono::milliseconds(500);
/// A note that is tried sounds for about so long.
constexpr auto tried = std::chrono::milliseconds(1200);
/// An input that was not asked for by then was refused.
constexpr auto patience = std::chrono::milliseconds(700);

} // namespace

EntryDesk::EntryDesk(DeskSession& desk, ListeningDesk& ears, TakeDesk& taking, NoteGrid& noteGrid,
                     MessageBar& bar, QSettings& store, QObject* parent)
    : QObject(parent),
      session(desk),
      listening(ears),
      takes(taking),
      grid(noteGrid),
      messages(bar),
      settings(store),
      shift(std::clamp(store.value(octavesKey, 0).toInt(), -furthestOctave, furthestOctave)) {
    connect(&session, &DeskSession::opened, this, [this] { end(); });
    connect(&grid, &NoteGrid::audition, this, [this] { lastSound = Clock::now() + tried; });
}

void EntryDesk::startOrEnd() {
    if (isOn()) return end();
    if (!grid.hasColumns()) return;
    state = State::Opening;
    closedSince = Clock::now();
    if (session.engine().input().report().state == DeviceState::Running) return begin();
    takes.openInput();
}

bool EntryDesk::giveUp() {
    const bool wasOn = isOn();
    end();
    return wasOn;
}

void EntryDesk::setOctaves(int octaves) {
    shift = std::clamp(octaves, -furthestOctave, furthestOctave);
    settings.setValue(octavesKey, shift);
    if (state == State::Listening) show();
}

void EntryDesk::begin() {
    state = State::Listening;
    heard.reset();
    ear.reset();
    session.engine().input().setTapped(true);
    shown.clear();
    show();
}

void EntryDesk::end(const QString& why) {
    if (!isOn()) return;
    state = State::Off;
    ear.reset();
    session.engine().input().setTapped(false);
    messages.close(subject);
    if (!why.isEmpty()) messages.notice(why);
}

void EntryDesk::follow() {
    if (state == State::Opening) waitForInput();
    if (state != State::Listening) return;
    // Its message closed by hand ends it as well.
    if (!grid.hasColumns() || messages.sentence(subject).isEmpty()) return end();
    Input& input = session.engine().input();
    if (input.report().state != DeviceState::Running)
        return end(tr("The input has gone, so notes are no longer entered by instrument."));
    const TappedSound sound = input.tapped();
    const bool wasDeaf = isDeaf;
    isDeaf = isSoundingHere();
    if (isDeaf)
        ear.reset();
    else if (!sound.samples.empty())
        hear(sound.samples, sound.rate);
    if (wasDeaf != isDeaf && state == State::Listening) show();
}

/// The question about the ears may wait for its answer as long as it likes.
void EntryDesk::waitForInput() {
    const InputReport report = session.engine().input().report();
    if (report.state == DeviceState::Running) return begin();
    if (report.state == DeviceState::Missing)
        return end(report.message.empty() ? tr("There is no input to hear your instrument by.")
                                          : QString::fromStdString(report.message));
    const bool isAsked = !messages.sentence(QStringLiteral("caution")).isEmpty();
    if (isAsked || report.state != DeviceState::Closed) closedSince = Clock::now();
    if (Clock::now() - closedSince > patience) end();
}

bool EntryDesk::isSoundingHere() {
    const auto now = Clock::now();
    if (listening.heard().playing || listening.isHolding()) lastSound = std::max(lastSound, now);
    return now - lastSound < ringing;
}

void EntryDesk::hear(std::span<const float> samples, SampleRate rate) {
    if (state != State::Listening) return;
    if (!ear || earRate != rate) ear.emplace(rate);
    earRate = rate;
    for (const double midi : ear->give(samples))
        if (state == State::Listening) enter(midi);
}

void EntryDesk::enter(double midi) {
    heard = static_cast<int>(std::lround(midi));
    const int written = *heard + 12 * shift;
    if (written < lowestMidi || written > highestMidi) return show();
    const bool goesOn = grid.enterPitch(written);
    if (!goesOn) return end(tr("That was the last column of the grid."));
    show();
}

QString EntryDesk::heardText() const {
    if (!heard) return tr("Nothing heard yet.");
    const int written = *heard + 12 * shift;
    const QString name = QString::fromStdString(toString(Pitch{*heard, {}}));
    if (written < lowestMidi || written > highestMidi)
        return tr("%1 heard; %2 is outside of what a line can have.")
            .arg(name, QString::fromStdString(toString(Pitch{written, {}})));
    return tr("%1 heard.").arg(name);
}

QString EntryDesk::words() const {
    if (isDeaf) return tr("Waiting until nothing sounds here, to hear you alone. Esc ends it.");
    const std::array manners{tr("two octaves lower than it sounds"), tr("an octave lower than it sounds"),
                             tr("as it sounds"), tr("an octave higher than it sounds"),
                             tr("two octaves higher than it sounds")};
    return tr("Play or sing a note: the grid's cursor takes its pitch, written %1, and goes on. %2 Esc ends "
              "it.")
        .arg(manners[static_cast<std::size_t>(shift + furthestOctave)], heardText());
}

void EntryDesk::show() {
    const QString now = words();
    if (now == shown && messages.sentence(subject) == now) return;
    shown = now;
    messages.say(subject, MessageBar::Tone::Question, now,
                 {{tr("Octave lower"), [this] { setOctaves(shift - 1); }},
                  {tr("Octave higher"), [this] { setOctaves(shift + 1); }},
                  {tr("Done"), [this] { end(); }}});
}

} // namespace earwright::ui
