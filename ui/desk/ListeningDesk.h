// What is heard and how: playing, the place of the ear, loop, speed, pitch and ways of hearing.
#pragma once

#include "core/engine/Engine.h"
#include "ui/desk/DeskSession.h"
#include "ui/desk/LoopMaking.h"

#include <QElapsedTimer>
#include <QObject>

#include <chrono>

namespace earwright::ui {

/// Threads: interface only.
class ListeningDesk : public QObject {
    Q_OBJECT
public:
    explicit ListeningDesk(DeskSession& session, QObject* parent = nullptr);

    /// Asks the engine anew; the rest of this frame's questions are answered from it.
    const Heard& listen();
    const Heard& heard() const { return last; }
    /// Something was too loud and was held back since this was asked last.
    bool takeHeldBack();
    /// Where the ear is, asked at this moment: for taps. While nothing sounds it is the place chosen last.
    Seconds ear();
    /// Where the ear was at a moment just gone: for keys whose stroke is told later. While nothing sounds it
    /// is as ear().
    Seconds earAt(std::chrono::steady_clock::time_point at);
    /// The place the user has in mind: the one just chosen, until it is heard, and then where the ear is. So
    /// keys pressed one right after the other count from each other, not from what is still sounding.
    Seconds place();

    void playOrPause();
    /// While an instant is held, the one there is held from now on.
    void hearFrom(Seconds place);
    void stepBeats(int steps);
    void stepBars(int steps);
    /// Sustains the instant where the ear is; while one is held, lets it go.
    void holdOrLetGo();
    bool isHolding() const { return last.holding; }
    /// True if an instant was held.
    bool letHeldGo();
    /// Once, at the chosen speed; then the ear is at its start.
    void hearSlice(const Range<Seconds>& slice);

    /// First from here, then to here.
    void loopFromOrToHere();
    std::optional<Seconds> loopBeingMade() const { return making.start(); }
    /// True if a loop was being made.
    bool giveUpLoop();
    void loopOver(const std::optional<Range<Seconds>>& loop);
    void nudgeLoop(LoopEnd end, int direction);

    void playAt(double speed);
    void slower();
    void faster();
    void transpose(int semitones, int cents);
    void transposeBy(int semitones);

    Hearing hearing() const { return way; }
    void hear(Hearing hearing);
    /// The way of hearing some steps on in their order, round and round.
    Hearing neighbour(int step) const;
    /// Every recording starts with all of it in focus.
    Focus focus() const { return part; }
    void focusOn(Focus focus);
    /// The focus some steps on in their order, round and round.
    Focus focusNeighbour(int step) const;
    /// The recording can be heard and has two channels.
    bool isStereo() const;
    double level() const { return gain; }
    void setLevel(double level);
    /// Decibels by which the written notes are louder than the record, −24 to 12.
    int balance() const { return yoursDecibels; }
    void setBalance(int decibels);

signals:
    void hearingChanged();
    void focusChanged();
    void levelChanged();
    /// A loop is being made, or no longer.
    void loopMakingChanged();

private:
    Seconds orChosen(Seconds heardNow);

    DeskSession& session;
    LoopMaking making;
    Heard last;
    /// A place just chosen that is not heard yet.
    std::optional<Seconds> chosen;
    QElapsedTimer sinceChosen;
    Hearing way = Hearing::Record;
    Focus part = Focus::All;
    double gain = 0.8;
    int yoursDecibels = 0;
    bool heldBack = false;
};

/// The words for a way of hearing.
QString nameOf(Hearing hearing);

} // namespace earwright::ui
