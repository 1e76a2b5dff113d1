#include "ui/desk/TapDesk.h"

#include "ui/grid/NoteGrid.h"
#include "ui/theme/PlaceText.h"

#include <QApplication>
#include <QKeyEvent>
#include <QLineEdit>
#include <QPlainTextEdit>
#include <QStringList>

#include <algorithm>
#include <chrono>
#include <utility>

namespace earwright::ui {

namespace {

const QString subject = QStringLiteral("tapping");
/// Of one beat; what is further down the list is hardly ever meant.
constexpr std::size_t mostReadings = 6;

/// When the key was pressed. The window system stamps keys with milliseconds of the steady clock; a stamp of
/// any other kind counts as now.
std::chrono::steady_clock::time_point momentOf(const QKeyEvent& key) {
    constexpr qint64 oldest = 500;
    const auto now = std::chrono::steady_clock::now();
    const auto milliseconds =
        std::chrono::duration_cast<std::chrono::milliseconds>(now.time_since_epoch()).count();
    // Stamps are 32 bits wide and wrap around.
    const auto ago =
        static_cast<qint64>(static_cast<quint32>(milliseconds) - static_cast<quint32>(key.timestamp()));
    return ago >= 0 && ago <= oldest ? now - std::chrono::milliseconds(ago) : now;
}

/// What the book calls a key of a MIDI keyboard: letters are positive.
int keyOf(const KeyStroke& stroke) {
    return -1 - stroke.midi;
}

QString nameOf(int midi) {
    return QString::fromStdString(toString(Pitch{midi, {}}));
}

bool isArrow(int key) {
    return key == Qt::Key_Left || key == Qt::Key_Right || key == Qt::Key_Up || key == Qt::Key_Down;
}

/// The line, and what decides where it is played, are the same: speed, loop and the like are not.
bool isWrittenAlike(const Study& a, const Study& b) {
    return a.notes == b.notes && a.divisions == b.divisions && a.beatMap == b.beatMap && a.meter == b.meter &&
           a.page == b.page;
}

/// Where the hand was least clear is where a user looks first.
std::size_t mostDoubtful(const RhythmReader& reader) {
    std::size_t found = 0;
    for (std::size_t i = 1; i < reader.shares().size(); ++i)
        if (reader.shares()[i].front() < reader.shares()[found].front()) found = i;
    return found;
}

bool isLetter(const QKeyEvent& key) {
    return key.key() >= Qt::Key_A && key.key() <= Qt::Key_Z;
}

/// "bar 2, beat 3 in 3": where a proposal divides a beat otherwise than the first.
QString difference(const RhythmProposal& first, const RhythmProposal& other, const MeterMap& meters) {
    QStringList words;
    for (const auto& [beat, division] : other.divisions) {
        const auto found = first.divisions.find(beat);
        if (found == first.divisions.end() || found->second != division)
            words << TapDesk::tr("%1 in %2").arg(placeText(beat, meters)).arg(static_cast<int>(division));
    }
    for (std::size_t i = 0; words.isEmpty() && i < other.notes.size() && i < first.notes.size(); ++i)
        if (other.notes[i].onset != first.notes[i].onset)
            words << TapDesk::tr("a note at %1").arg(placeText(other.notes[i].onset, meters));
    constexpr int most = 2;
    if (words.size() > most) words = words.mid(0, most) << QStringLiteral("…");
    return words.join(QStringLiteral(", "));
}

} // namespace

TapDesk::TapDesk(DeskSession& theSession, ListeningDesk& theEars, const TuningDesk& theTuning,
                 const KeyboardDesk& theKeyboard, NoteGrid& theGrid, MessageBar& theMessages,
                 QWidget& theWindow)
    : QObject(&theWindow),
      session(theSession),
      ears(theEars),
      tuning(theTuning),
      keyboard(theKeyboard),
      grid(theGrid),
      messages(theMessages),
      window(theWindow) {
    qApp->installEventFilter(this);
    connect(&session, &DeskSession::opened, this, [this] { end(); });
    connect(&keyboard, &KeyboardDesk::changed, this, [this] {
        if (state == State::Tapping) invite();
    });
    connect(&session, &DeskSession::studyChanged, this, [this](const Study& before) {
        if (state != State::Choosing) return;
        if (!isWrittenAlike(before, session.study())) return end();
        // The grid has the study anew, without what was shown in it; it gets that later than this.
        QMetaObject::invokeMethod(
            this, [this] { showAgain(); }, Qt::QueuedConnection);
    });
}

void TapDesk::startOrFinish() {
    switch (state) {
    case State::Off:
        return start();
    case State::Tapping:
        return offer();
    case State::Choosing:
        return write();
    }
}

void TapDesk::start() {
    book = {};
    wasOutside = false;
    state = State::Tapping;
    invite();
}

void TapDesk::invite() {
    const QString manner =
        keyboard.isThere()
            ? tr("Play the line on %1, or tap its rhythm on any letter, while the record plays")
                  .arg(keyboard.name())
            : tr("Tap the rhythm on any letter while the record plays");
    messages.say(subject, MessageBar::Tone::Question,
                 tr("%1, and hold each key as long as its note. Enter when it is done, Esc to give it up.")
                     .arg(manner));
}

void TapDesk::offer() {
    if (!session.study().beatMap.hasTempo()) {
        end();
        return messages.notice(tr("What was tapped cannot be written: the bars are not marked any more."));
    }
    const double speed = ears.heard().speed;
    RhythmWishes wishes;
    // Hands scatter in the time of the room; the record goes slower or faster than that.
    wishes.spread = Seconds(wishes.spread.value * speed);
    wishes.lag = Seconds(wishes.lag.value * speed);
    reader.emplace(session.study(), book.notes(), wishes);
    offered = reader->proposals();
    if (offered.empty()) {
        end();
        return messages.notice(
            tr("There is no rhythm in what was tapped. Tap or play while the record plays, no more than "
               "eight notes to a beat."));
    }
    state = State::Choosing;
    beat = mostDoubtful(*reader);
    show(0);
}

void TapDesk::show(std::size_t proposal) {
    if (proposal >= offered.size()) return;
    chosen = proposal;
    current = offered[chosen];
    picked.clear();
    present();
}

void TapDesk::present() {
    grid.preview(std::make_shared<const Study>(writeProposal(session.study(), current)));
    point();
}

void TapDesk::point() {
    grid.goTo(beatInHand());
    messages.say(subject, MessageBar::Tone::Question, describe());
}

void TapDesk::showAgain() {
    if (state == State::Choosing)
        grid.preview(std::make_shared<const Study>(writeProposal(session.study(), current)));
}

void TapDesk::stepBeat(int by) {
    const auto last = static_cast<int>(reader->beats().size()) - 1;
    beat = static_cast<std::size_t>(std::clamp(static_cast<int>(beat) + by, 0, last));
    point();
}

std::size_t TapDesk::readingsOfBeat() const {
    // A way as a whole may have taken one that is not worth a look by itself.
    return std::max(std::min(reader->beats()[beat].readings.size(), mostReadings), current.taken[beat] + 1);
}

std::map<std::size_t, std::size_t> TapDesk::readingsOfWay() const {
    std::map<std::size_t, std::size_t> own;
    const std::vector<std::size_t>& way = offered[chosen].taken;
    for (std::size_t i = 0; i < way.size(); ++i)
        if (way[i] != offered.front().taken[i]) own[i] = way[i];
    return own;
}

void TapDesk::stepReading(int by) {
    const auto last = static_cast<int>(readingsOfBeat()) - 1;
    const auto now = static_cast<int>(current.taken[beat]);
    const int next = std::clamp(now + by, 0, last);
    if (next == now) return;
    auto mine = picked;
    mine[beat] = static_cast<std::size_t>(next);
    auto wanted = mine;
    wanted.merge(readingsOfWay());
    auto proposal = reader->with(wanted);
    if (!proposal) {
        // Two beats can't both have a note on the line between them: what was picked last stands.
        for (auto* const readings : {&mine, &wanted}) {
            readings->erase(beat + 1);
            if (beat > 0) readings->erase(beat - 1);
        }
        proposal = reader->with(wanted);
    }
    if (!proposal) return;
    picked = std::move(mine);
    current = *std::move(proposal);
    present();
}

std::size_t TapDesk::changedBeats() const {
    std::size_t count = 0;
    for (std::size_t i = 0; i < current.taken.size(); ++i)
        if (current.taken[i] != offered[chosen].taken[i]) ++count;
    return count;
}

QString TapDesk::describe() const {
    if (const std::size_t changes = changedBeats()) {
        const QString changed = changes == 1 ? tr("one beat changed") : tr("%1 beats changed").arg(changes);
        return tr("The grid shows way %1 of %2 with %3. %4 A number shows a way as a whole, Enter writes "
                  "what is shown, Esc gives it up.")
            .arg(chosen + 1)
            .arg(offered.size())
            .arg(changed, describeBeat());
    }
    QStringList words;
    for (std::size_t i = 0; i < offered.size(); ++i) {
        const QString what =
            i == 0 ? tr("simplest") : difference(offered[0], offered[i], session.study().meters());
        const QString number = QString::number(i + 1);
        words << (i == chosen ? tr("[%1] %2") : tr("%1 %2")).arg(number, what);
    }
    return tr("The grid shows %1 of %2 ways to write it: %3. A number shows another. %4 Enter writes it, Esc "
              "gives it up.")
        .arg(chosen + 1)
        .arg(offered.size())
        .arg(words.join(QStringLiteral("; ")), describeBeat());
}

QString TapDesk::describeBeat() const {
    return tr("← → choose a beat, ↑ ↓ its reading: %1 in %2, %3 of %4.")
        .arg(placeText(beatInHand(), session.study().meters()))
        .arg(static_cast<int>(reader->beats()[beat].readings[current.taken[beat]].figure.division))
        .arg(current.taken[beat] + 1)
        .arg(readingsOfBeat());
}

void TapDesk::write() {
    const RhythmProposal proposal = current;
    end();
    session.apply(tr("tap rhythm"), writeProposal(session.study(), proposal));
    grid.goTo(proposal.notes.front().onset);
}

void TapDesk::end() {
    if (state == State::Off) return;
    state = State::Off;
    offered.clear();
    reader.reset();
    picked.clear();
    book = {};
    grid.preview(nullptr);
    messages.close(subject);
}

bool TapDesk::giveUp() {
    if (state == State::Off) return false;
    end();
    return true;
}

void TapDesk::play(const KeyStroke& stroke) {
    if (state != State::Tapping) return;
    const Seconds at = ears.earAt(stroke.at);
    if (stroke.kind == KeyStroke::Kind::AllUp) return book.releaseAll(at);
    if (stroke.kind == KeyStroke::Kind::Up) return book.release(keyOf(stroke), at);
    const int midi = stroke.midi - tuning.transposed();
    if (midi >= lowestMidi && midi <= highestMidi) return book.press(keyOf(stroke), at, midi);
    if (!std::exchange(wasOutside, true))
        messages.notice(tr("Keys from %1 to %2 are notes of a line; others are left out.")
                            .arg(nameOf(lowestMidi), nameOf(highestMidi)));
}

bool TapDesk::isMine(const QKeyEvent& key) const {
    if (state == State::Off || !window.isActiveWindow() || QApplication::activePopupWidget()) return false;
    const QWidget* focus = QApplication::focusWidget();
    if (qobject_cast<const QLineEdit*>(focus) || qobject_cast<const QPlainTextEdit*>(focus)) return false;
    const Qt::KeyboardModifiers modifiers = key.modifiers() & ~Qt::KeypadModifier;
    if (modifiers != Qt::NoModifier) return false;
    if (key.key() == Qt::Key_Return || key.key() == Qt::Key_Enter || key.key() == Qt::Key_Escape) return true;
    if (state == State::Tapping) return isLetter(key);
    return (key.key() >= Qt::Key_1 && key.key() <= Qt::Key_9) || isArrow(key.key());
}

void TapDesk::act(const QKeyEvent& key, bool down) {
    if (key.isAutoRepeat() && !(state == State::Choosing && isArrow(key.key()))) return;
    if (state == State::Tapping && isLetter(key)) {
        const Seconds at = ears.earAt(momentOf(key));
        return down ? book.press(key.key(), at, grid.cursor().midi) : book.release(key.key(), at);
    }
    if (!down) return;
    switch (key.key()) {
    case Qt::Key_Escape:
        giveUp();
        return;
    case Qt::Key_Return:
    case Qt::Key_Enter:
        return startOrFinish();
    case Qt::Key_Left:
    case Qt::Key_Right:
        return stepBeat(key.key() == Qt::Key_Left ? -1 : 1);
    case Qt::Key_Up:
    case Qt::Key_Down:
        return stepReading(key.key() == Qt::Key_Up ? -1 : 1);
    default:
        show(static_cast<std::size_t>(key.key() - Qt::Key_1));
    }
}

bool TapDesk::eventFilter(QObject*, QEvent* event) {
    const bool isPress = event->type() == QEvent::KeyPress;
    const bool isRelease = event->type() == QEvent::KeyRelease;
    if (!isPress && !isRelease && event->type() != QEvent::ShortcutOverride) return false;
    const auto& key = *static_cast<QKeyEvent*>(event);
    if (!isMine(key)) return false;
    event->accept();
    if (isPress || isRelease) act(key, isPress);
    return true;
}

} // namespace earwright::ui
