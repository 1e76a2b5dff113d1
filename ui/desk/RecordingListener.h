// Listening to the whole recording in the background: its tuning, its onsets, and what a check will ask for.
#pragma once

#include "core/listening/RecordingEvidence.h"
#include "core/sound/Recording.h"
#include "ui/desk/BackgroundJob.h"

#include <QElapsedTimer>
#include <QObject>

#include <filesystem>
#include <memory>
#include <optional>
#include <vector>

namespace earwright::ui {

/// Finds the tuning first, then the onsets passage by passage, those near the place on screen before the
/// others. What was heard is kept on disk, so that the next time it is there at once.
///
/// Threads: interface only; the listening itself goes on elsewhere.
class RecordingListener : public QObject {
    Q_OBJECT
public:
    explicit RecordingListener(QObject* parent = nullptr);

    /// Where to keep what was heard; an empty path keeps nothing. Before setRecording().
    void keepIn(const std::filesystem::path& folder) { cache = folder; }
    /// Another recording, or none: what was heard before is let go.
    void setRecording(std::shared_ptr<Recording> recording);
    /// Listens unless it was done, is being done or there is nothing to listen to.
    void listen();
    /// Passages near this place come next.
    void listenNear(Seconds place) { wanted = place; }
    void cancel();
    /// Null until ready().
    std::shared_ptr<const RecordingEvidence> evidence() const { return known; }

signals:
    void progressed(double share);
    /// evidence() is there; its tuning with it.
    void ready();
    /// One sentence; evidence() stays null.
    void failed(const QString& sentence);
    /// Where sounds of the line begin, rising, as far as they are found.
    void onsetsFound(const std::vector<earwright::Seconds>& onsets);

private:
    using Onsets = std::vector<Seconds>;

    void recallOnsets();
    void findOnsets();
    void hearNextPassage();
    void takeOnsets(std::size_t passage, Onsets onsets);
    void keep(const Onsets& all);
    std::optional<std::size_t> nextPassage() const;

    std::filesystem::path cache;
    std::shared_ptr<Recording> sound;
    std::shared_ptr<const RecordingEvidence> known;
    Seconds wanted{0};
    /// By passage; nothing where it was not listened to yet.
    std::vector<std::optional<Onsets>> heard;
    QElapsedTimer sinceTold;
    BackgroundJob soundJob;
    BackgroundJob onsetJob;
};

/// The places of a track where something more likely begins than not, one for each rise. Rising.
std::vector<Seconds> onsetTimes(const OnsetTrack& track);

} // namespace earwright::ui
