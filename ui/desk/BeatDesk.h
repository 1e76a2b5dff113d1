// The beat at the desk: clicks on it, and beats counted in before the sound begins.
#pragma once

#include "ui/desk/DeskSession.h"

#include <QObject>

namespace earwright::ui {

/// Tells the player where the beats are, whenever marks move. Clicks and count-in are kept while the program
/// runs, from study to study.
/// Threads: interface only.
class BeatDesk : public QObject {
    Q_OBJECT
public:
    explicit BeatDesk(DeskSession& session, QObject* parent = nullptr);

    bool isClicking() const { return clicking; }
    void click(bool audible);
    /// Decibels against their usual loudness, −24 to 12.
    int clickLevel() const { return decibels; }
    void setClickLevel(int decibels);
    /// Beats, 0 to 8.
    int countIn() const { return counted; }
    void setCountIn(int beats);
    /// From none to a bar, two bars where there is room for them, and none again.
    void nextCountIn(Seconds place);

signals:
    void changed();

private:
    void tellBeats();

    DeskSession& session;
    bool clicking = false;
    int decibels = 0;
    int counted = 0;
};

} // namespace earwright::ui
