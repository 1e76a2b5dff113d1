// The foot of the desk: play, where the ear is, what is heard, tuning, level and the sound device.
#pragma once

#include "core/engine/Engine.h"
#include "core/study/Study.h"
#include "core/time/Seconds.h"
#include "ui/transport/ListeningTime.h"

#include <QElapsedTimer>
#include <QWidget>

#include <memory>
#include <optional>
#include <vector>

class QGridLayout;
class QLabel;
class QLayout;
class QSlider;

namespace earwright::ui {

class BandRow;
class ClickRow;
class DeviceLine;
class FocusRow;
class HearingRow;
class PlaceDisplay;
class PlayButton;
class QuietButton;
class SignedStepper;
class TuningLine;

/// Shows how the engine plays and asks for changes; what it shows follows the set functions only.
///
/// Threads: interface only.
class TransportBar : public QWidget {
    Q_OBJECT
public:
    explicit TransportBar(QWidget* parent = nullptr);

    /// For bars and beats; null shows the clock alone.
    void setStudy(std::shared_ptr<const Study> study);
    void setLength(Seconds length);
    /// Where the ear is; called many times a second.
    void setHeard(Seconds place, bool playing);
    /// How it is heard: speed, an instant held, and in large words what goes on instead of the record:
    /// counting in, or the gap after a pass.
    void showManner(const Heard& heard);
    void setHearing(Hearing hearing);
    void showFocus(Focus focus);
    /// Without two channels there is no focus to choose.
    void setIsStereo(bool isStereo);
    void setPlaying(const Playing& playing);
    /// Cents the record is above concert pitch; nothing while not known.
    void setTuning(std::optional<double> cents, double driftCents = 0);
    /// Linear gain, 0 to 1.
    void setLevel(double level);
    /// Decibels by which the written notes are louder than the record.
    void setBalance(int decibels);
    /// The written notes sound as the record plays them, not on the grid.
    void setAsPlayed(bool asPlayed);
    /// The guard against overloading is at work, or was a moment ago: a mark beside the level says so.
    void setHeldBack(bool heldBack);
    void setDevice(const DeviceReport& report);
    /// Without a recording there is nothing to play.
    void setHasRecording(bool hasRecording);

    PlayButton* playButton() const { return play; }
    PlaceDisplay* placeDisplay() const { return place; }
    HearingRow* hearingRow() const { return hearing; }
    FocusRow* focusRow() const { return picture; }
    BandRow* bandRow() const { return band; }
    ClickRow* clickRow() const { return clicks; }
    SignedStepper* balance() const { return balanceStepper; }
    QuietButton* asPlayedButton() const { return asPlayed; }
    QLabel* heldBackMark() const { return heldBack; }
    TuningLine* tuningLine() const { return tuning; }
    SignedStepper* semitones() const { return semitoneStepper; }
    SignedStepper* cents() const { return centStepper; }
    QSlider* levelSlider() const { return level; }
    DeviceLine* deviceLine() const { return device; }
    QuietButton* deviceButton() const { return chooseDevice; }

signals:
    void playPauseRequested();
    void hearingChosen(earwright::Hearing hearing);
    void focusChosen(earwright::Focus focus);
    void playingChosen(const earwright::Playing& playing);
    void levelChosen(double level);
    void balanceChosen(int decibels);
    void asPlayedChosen(bool asPlayed);
    /// The record is to sound at the reference A, or as it was made.
    void inTuneChosen(bool inTune);
    void tryDeviceAgainRequested();
    void devicePanelRequested();

protected:
    void paintEvent(QPaintEvent* event) override;

private:
    void buildLayout();
    void connectParts();
    void buildLevel(QGridLayout& grid, int column);
    QLabel* caption(const QString& text);
    /// A part with its caption in front, in two columns of a grid.
    void addLine(QGridLayout& grid, int line, int column, const QString& text, QLayout* parts);
    void countListening(bool playing);

    std::shared_ptr<const Study> study;
    Seconds length{0};
    Playing inUse;
    ListeningTime listening;
    QElapsedTimer sinceHeard;
    PlayButton* play;
    PlaceDisplay* place;
    HearingRow* hearing;
    SignedStepper* balanceStepper;
    QuietButton* asPlayed;
    FocusRow* picture;
    BandRow* band;
    TuningLine* tuning;
    SignedStepper* semitoneStepper;
    SignedStepper* centStepper;
    ClickRow* clicks;
    QSlider* level;
    QLabel* heldBack;
    std::optional<bool> isHeldBack;
    DeviceLine* device;
    QuietButton* chooseDevice;
    QuietButton* breakWord;
};

} // namespace earwright::ui
