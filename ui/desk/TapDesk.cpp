#include "ui/desk/TapDesk.h"

#include "ui/grid/NoteGrid.h"
#include "ui/theme/PlaceText.h"

#include <QApplication>
#include <QKeyEvent>
#include <QLineEdit>
#include <QPlainTextEdit>
#include <QStringList>

#include <chrono>

namespace earwright::ui {

namespace {

const QString subject = QStringLiteral("tapping");

/// How long ago the key was pressed. The window system stamps keys with milliseconds of the steady clock; a
/// stamp of any other kind counts as now.
Seconds age(const QKeyEvent& key) {
    constexpr qint64 oldest = 500;
    const auto now = std::chrono::duration_cast<std::chrono::milliseconds>(
                         std::chrono::steady_clock::now().time_since_epoch())
                         .count();
    // Stamps are 32 bits wide and wrap around.
    const auto ago = static_cast<qint64>(static_cast<quint32>(now) - static_cast<quint32>(key.timestamp()));
    return ago >= 0 && ago <= oldest ? Seconds(static_cast<double>(ago) / 1000) : Seconds(0);
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
    constexpr int most = 3;
    if (words.size() > most) words = words.mid(0, most) << QStringLiteral("…");
    return words.join(QStringLiteral(", "));
}

} // namespace

TapDesk::TapDesk(DeskSession& theSession, ListeningDesk& theEars, NoteGrid& theGrid, MessageBar& theMessages,
                 QWidget& theWindow)
    : QObject(&theWindow),
      session(theSession),
      ears(theEars),
      grid(theGrid),
      messages(theMessages),
      window(theWindow) {
    qApp->installEventFilter(this);
    connect(&session, &DeskSession::opened, this, [this] { end(); });
    connect(&session, &DeskSession::studyChanged, this, [this] {
        if (state == State::Choosing) end();
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
    state = State::Tapping;
    messages.say(
        subject, MessageBar::Tone::Question,
        tr("Tap the rhythm on any letter while the record plays, and hold each key as long as its note. "
           "Enter when it is done, Esc to give it up."));
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
    offered = proposeRhythms(session.study(), book.notes(), wishes);
    if (offered.empty()) {
        end();
        return messages.notice(
            tr("There is no rhythm in what was tapped. Press letters while the record plays, no "
               "more than eight to a beat."));
    }
    state = State::Choosing;
    show(0);
}

void TapDesk::show(std::size_t proposal) {
    if (proposal >= offered.size()) return;
    chosen = proposal;
    grid.preview(std::make_shared<const Study>(writeProposal(session.study(), offered[chosen])));
    grid.goTo(offered[chosen].notes.front().onset);
    messages.say(subject, MessageBar::Tone::Question, describe());
}

QString TapDesk::describe() const {
    QStringList words;
    for (std::size_t i = 0; i < offered.size(); ++i) {
        const QString what =
            i == 0 ? tr("simplest") : difference(offered[0], offered[i], session.study().meters());
        const QString number = QString::number(i + 1);
        words << (i == chosen ? tr("[%1] %2") : tr("%1 %2")).arg(number, what);
    }
    return tr("The grid shows %1 of %2 ways to write it: %3. A number shows another, Enter writes it, Esc "
              "gives "
              "it up.")
        .arg(chosen + 1)
        .arg(offered.size())
        .arg(words.join(QStringLiteral("; ")));
}

void TapDesk::write() {
    const RhythmProposal proposal = offered[chosen];
    end();
    session.apply(tr("tap rhythm"), writeProposal(session.study(), proposal));
    grid.goTo(proposal.notes.front().onset);
}

void TapDesk::end() {
    if (state == State::Off) return;
    state = State::Off;
    offered.clear();
    book = {};
    grid.preview(nullptr);
    messages.close(subject);
}

bool TapDesk::giveUp() {
    if (state == State::Off) return false;
    end();
    return true;
}

Seconds TapDesk::heardAt(const QKeyEvent& key) {
    const Seconds now = ears.ear();
    const Heard& heard = ears.heard();
    return heard.playing ? now - Seconds(age(key).value * heard.speed) : now;
}

bool TapDesk::isMine(const QKeyEvent& key) const {
    if (state == State::Off || !window.isActiveWindow() || QApplication::activePopupWidget()) return false;
    const QWidget* focus = QApplication::focusWidget();
    if (qobject_cast<const QLineEdit*>(focus) || qobject_cast<const QPlainTextEdit*>(focus)) return false;
    const Qt::KeyboardModifiers modifiers = key.modifiers() & ~Qt::KeypadModifier;
    if (modifiers != Qt::NoModifier) return false;
    if (key.key() == Qt::Key_Return || key.key() == Qt::Key_Enter || key.key() == Qt::Key_Escape) return true;
    if (state == State::Tapping) return isLetter(key);
    return key.key() >= Qt::Key_1 && key.key() <= Qt::Key_9;
}

void TapDesk::act(const QKeyEvent& key, bool down) {
    if (key.isAutoRepeat()) return;
    if (state == State::Tapping && isLetter(key)) {
        const Seconds at = heardAt(key);
        return down ? book.press(key.key(), at, grid.cursor().midi) : book.release(key.key(), at);
    }
    if (!down) return;
    if (key.key() == Qt::Key_Escape)
        giveUp();
    else if (key.key() == Qt::Key_Return || key.key() == Qt::Key_Enter)
        startOrFinish();
    else
        show(static_cast<std::size_t>(key.key() - Qt::Key_1));
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
