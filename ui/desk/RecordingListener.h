// Listening to the whole recording in the background: its sound made ready for checks, its tuning, its
// onsets.
#pragma once

#include "core/listening/RecordingEvidence.h"
#include "core/sound/Recording.h"
#include "ui/desk/BackgroundJob.h"

#include <QObject>

#include <memory>
#include <vector>

namespace earwright::ui {

/// Threads: interface only; the listening itself goes on elsewhere.
class RecordingListener : public QObject {
    Q_OBJECT
public:
    explicit RecordingListener(QObject* parent = nullptr);

    /// Another recording, or none: what was heard before is let go.
    void setRecording(std::shared_ptr<Recording> recording);
    /// Listens unless it was done or is being done. Requires: a recording.
    void listen();
    /// The same, but leaves very long recordings until a check asks for them.
    void listenAhead();
    void cancel();
    bool isListening() const { return soundJob.isRunning(); }
    /// Null until ready().
    std::shared_ptr<const RecordingEvidence> evidence() const { return known; }

signals:
    void progressed(double share);
    /// evidence() is there; its tuning with it.
    void ready();
    /// One sentence; evidence() stays null.
    void failed(const QString& sentence);
    /// Where sounds of the line begin, rising; the whole recording.
    void onsetsFound(const std::vector<earwright::Seconds>& onsets);

private:
    void findOnsets();

    std::shared_ptr<Recording> sound;
    std::shared_ptr<const RecordingEvidence> known;
    BackgroundJob soundJob;
    BackgroundJob onsetJob;
};

/// The places of a track where something more likely begins than not, one for each rise. Rising.
std::vector<Seconds> onsetTimes(const OnsetTrack& track);

} // namespace earwright::ui
