#include "ui/desk/EntryDesk.h"

#include "core/engine/Input.h"
#include "ui/grid/NoteGrid.h"

#include <QSettings>

#include <algorithm>
#include <array>
#include <cmath>
#include <utility>

namespace earwright::ui {

namespace {

using Clock = std::chrono::steady_clock;

const auto subject = QStringLiteral("entry");
const auto octavesKey = QStringLiteral("input/octaves");

/// What played dies away in the room, and comes in late by the latencies of both devices.
constexpr auto ringing = std::chrono::milliseconds(500);
/// A note that is tried sounds for about so long.
constexpr auto tried = std::chrono::milliseconds(1200);
/// Keys within this are one chord: hands strike one within some 30 ms, and a tenth of a second is the
/// shortest two notes are played in turn (common practice).
constexpr auto together = std::chrono::milliseconds(50);
constexpr double loudestStroke = 127;

QString nameOfPitch(int midi) {
    return QString::fromStdString(toString(Pitch{midi, {}}));
}

bool isOfALine(int midi) {
    return midi >= lowestMidi && midi <= highestMidi;
}

QString lastColumn() {
    return EntryDesk::tr("That was the last column of the grid.");
}

} // namespace

EntryDesk::EntryDesk(DeskSession& desk, ListeningDesk& ears, const TuningDesk& tuned, TakeDesk& taking,
                     const KeyboardDesk& keys, NoteGrid& noteGrid, MessageBar& bar, QSettings& store,
                     QObject* parent)
    : QObject(parent),
      session(desk),
      listening(ears),
      tuning(tuned),
      takes(taking),
      keyboard(keys),
      grid(noteGrid),
      messages(bar),
      settings(store),
      shift(std::clamp(store.value(octavesKey, 0).toInt(), -furthestOctave, furthestOctave)) {
    connect(&session, &DeskSession::opened, this, [this] { end(); });
    connect(&takes, &TakeDesk::inputRefused, this, [this] {
        if (state == State::Opening) return end();
        if (state != State::Listening || isTapped) return;
        if (!keyboard.isThere()) return end();
        // The keyboard goes on alone.
        usesInput = false;
        show();
    });
    connect(&grid, &NoteGrid::audition, this, [this] { lastSound = Clock::now() + tried; });
    connect(&keyboard, &KeyboardDesk::changed, this, [this] {
        if (state == State::Opening && keyboard.isThere()) begin();
        if (state == State::Listening) show();
    });
}

void EntryDesk::startOrEnd() {
    if (isOn()) return end();
    if (!grid.hasColumns()) return;
    const bool isOpen = session.engine().input().report().state == DeviceState::Running;
    usesInput = isOpen || !keyboard.isThere();
    if (isOpen || keyboard.isThere()) return begin();
    state = State::Opening;
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

void EntryDesk::stepOctave(int by) {
    setOctaves(shift + by);
    if (isTapped || (state == State::Listening && usesInput)) return;
    const QString said = tr("What you play or sing into the input will be written %1.").arg(manner());
    messages.notice(state == State::Listening
                        ? said + QLatin1Char(' ') + tr("Keys of a keyboard are written as they are called.")
                        : said);
}

void EntryDesk::setKeys(KeyOf keys) {
    keyOf = std::move(keys);
    shown.clear();
    if (state == State::Listening) show();
}

void EntryDesk::begin() {
    state = State::Listening;
    heard.reset();
    keyDown.reset();
    isAtEnd = false;
    isTapped = false;
    isDeaf = false;
    shown.clear();
    show();
}

void EntryDesk::listenToInput() {
    ear.reset();
    isTapped = true;
    session.engine().input().setTapped(true);
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
    if (messages.sentence(subject).isEmpty()) return end();
    // A chord in the last column may have more keys on their way.
    if (isAtEnd && Clock::now() - *keyDown > together) return end(lastColumn());
    if (usesInput) followInput();
}

void EntryDesk::followInput() {
    Input& input = session.engine().input();
    const InputReport report = input.report();
    if (!isTapped && report.state == DeviceState::Running) listenToInput();
    if (!isTapped) {
        // Asked for beside the keyboard: where there is none, the keyboard goes on alone.
        if (report.state == DeviceState::Missing) inputIsMissing(report);
        return;
    }
    if (report.state != DeviceState::Running) {
        isTapped = usesInput = false;
        input.setTapped(false);
        if (!keyboard.isThere())
            return end(tr("The input has gone, so notes are no longer entered by instrument."));
        return show();
    }
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
    if (report.state == DeviceState::Missing) inputIsMissing(report);
}

void EntryDesk::inputIsMissing(const InputReport& report) {
    usesInput = false;
    const QString why = report.message.empty() ? tr("There is no input to hear your instrument by.")
                                               : QString::fromStdString(report.message);
    if (keyboard.isThere()) {
        messages.notice(why);
        return show();
    }
    end(keyboard.isPossible() ? tr("%1 With a MIDI keyboard plugged in no input is needed.").arg(why) : why);
}

bool EntryDesk::isSoundingHere() {
    const auto now = Clock::now();
    if (listening.heard().playing || listening.isHolding()) lastSound = std::max(lastSound, now);
    return now - lastSound < ringing;
}

void EntryDesk::hear(std::span<const float> samples, SampleRate rate) {
    if (state != State::Listening) return;
    const double a = tuning.instrumentA();
    if (!ear || earRate != rate || earA != a) ear.emplace(rate, a);
    earRate = rate;
    earA = a;
    for (const double midi : ear->give(samples))
        if (state == State::Listening) enter(midi);
}

void EntryDesk::enter(double midi) {
    const int played = static_cast<int>(std::lround(midi));
    heard = Entered{played, played + 12 * shift - tuning.transposed()};
    if (!isOfALine(heard->written)) return show();
    const bool goesOn = grid.enterPitch(heard->written);
    if (!goesOn) return end(lastColumn());
    show();
}

void EntryDesk::play(const KeyStroke& stroke) {
    if (state != State::Listening || stroke.kind != KeyStroke::Kind::Down) return;
    if (isAtEnd && !isChord(stroke)) return end(lastColumn());
    // Most keyboards of this kind have no sound of their own.
    session.engine().audition(stroke.midi - tuning.transposed(), stroke.velocity / loudestStroke);
    lastSound = Clock::now() + tried;
    enterKey(stroke);
    show();
}

bool EntryDesk::isChord(const KeyStroke& stroke) const {
    return keyDown && stroke.at - *keyDown <= together;
}

void EntryDesk::enterKey(const KeyStroke& stroke) {
    heard = Entered{stroke.midi, stroke.midi - tuning.transposed()};
    if (!isOfALine(heard->written)) return;
    if (isChord(stroke)) return grid.enterPitchBeside(heard->written);
    keyDown = stroke.at;
    isAtEnd = !grid.enterPitch(heard->written);
}

QString EntryDesk::heardText() const {
    if (!heard) return tr("Nothing heard yet.");
    const QString played = nameOfPitch(heard->played);
    const QString written = nameOfPitch(heard->written);
    if (!isOfALine(heard->written))
        return tr("%1 heard; %2 is outside of what a line can have.").arg(played, written);
    if (tuning.transposed() != 0)
        return tr("%1 heard, written %2 as the record is played transposed.").arg(played, written);
    return tr("%1 heard.").arg(played);
}

QString EntryDesk::manner() const {
    const std::array manners{tr("two octaves lower than it sounds"), tr("an octave lower than it sounds"),
                             tr("as it sounds"), tr("an octave higher than it sounds"),
                             tr("two octaves higher than it sounds")};
    return manners[static_cast<std::size_t>(shift + furthestOctave)];
}

/// "Octave lower (Alt+Shift+O)"; without a key the name alone.
QString EntryDesk::withKey(const QString& name, CommandId id) const {
    const QString key = keyOf(id).toString(QKeySequence::NativeText);
    return key.isEmpty() ? name : tr("%1 (%2)").arg(name, key);
}

QString EntryDesk::invitation() const {
    if (!keyboard.isThere() && !usesInput)
        return keyboard.name().isEmpty()
                   ? tr("Waiting for a MIDI keyboard.")
                   : tr("Waiting for the keyboard %1 to come back.").arg(keyboard.name());
    if (!usesInput)
        return tr("Press a key of %1: the grid's cursor takes its pitch and goes on.").arg(keyboard.name());
    if (keyboard.isThere())
        return tr("Press a key of %1, or play or sing a note, written %2: the grid's cursor takes its pitch "
                  "and goes on.")
            .arg(keyboard.name(), manner());
    return tr("Play or sing a note: the grid's cursor takes its pitch, written %1, and goes on.")
        .arg(manner());
}

QString EntryDesk::words() const {
    if (isTapped && isDeaf && !keyboard.isThere())
        return tr("Waiting until nothing sounds here, to hear you alone. Esc ends it.");
    return tr("%1 %2 Esc ends it.").arg(invitation(), heardText());
}

void EntryDesk::show() {
    const QString now = words();
    if (now == shown && messages.sentence(subject) == now) return;
    shown = now;
    const MessageBar::Answer done{tr("Done"), [this] { end(); }};
    if (!usesInput) {
        const auto listen = [this] {
            usesInput = true;
            show();
            takes.openInput();
        };
        return messages.say(subject, MessageBar::Tone::Question, now,
                            {{tr("Listen to the input too"), listen}, done});
    }
    messages.say(
        subject, MessageBar::Tone::Question, now,
        {{withKey(tr("Octave lower"), CommandId::EntryOctaveLower), [this] { setOctaves(shift - 1); }},
         {withKey(tr("Octave higher"), CommandId::EntryOctaveHigher), [this] { setOctaves(shift + 1); }},
         done});
}

} // namespace earwright::ui
