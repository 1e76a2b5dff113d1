// Playing along at the desk: the input, recording with the loop, and the take that is heard as "yours".
#pragma once

#include "core/engine/Input.h"
#include "ui/desk/BackgroundJob.h"
#include "ui/desk/DeskSession.h"
#include "ui/desk/ListeningDesk.h"
#include "ui/desk/MessageBar.h"
#include "ui/desk/TakeKeeping.h"

#include <QObject>

#include <optional>
#include <vector>

class QSettings;

namespace earwright::ui {

class TakePanel;

/// The input is opened only when asked for, and the first time only after a word about the ears. What was
/// recorded becomes one step to undo when recording ends; of the passes of a loop the last whole one is
/// heard. Files of takes are never deleted: taking one off the list can be undone.
///
/// Threads: interface only.
class TakeDesk : public QObject {
    Q_OBJECT
public:
    /// Requires: all outlive this.
    TakeDesk(DeskSession& session, ListeningDesk& listening, TakePanel& panel, MessageBar& messages,
             QSettings& settings);

    /// Opens the input chosen last; the first time the caution comes first, and inputRefused() where it ends
    /// there.
    void openInput();
    /// Starts to play and to keep what is played along, or ends it; opens the input where it is closed.
    void recordOrStop();
    /// Also while the last sound is on its way in.
    bool isRecording() const;
    void stop();
    /// Looks at input and recorder; to be called some ten times a second.
    void follow();

signals:
    /// The user does not want the input open: said so, closed the word of caution, or closed the input.
    void inputRefused();

private:
    void connectPanel();
    void refuse();
    void openNow();
    void startRecording();
    void collect();
    RecordingReport recordingNow(DeviceState state);
    void playChosen();
    void measured();
    void recallRoundTrip();
    QString pairKey();

    DeskSession& session;
    ListeningDesk& listening;
    TakePanel& panel;
    MessageBar& messages;
    QSettings& settings;

    std::vector<RecordedTake> fresh;
    /// The word of caution waits for its answer.
    bool isAsking = false;
    bool wasRecording = false;
    bool wasMeasuring = false;
    /// Record as soon as the input is there.
    bool recordWhenOpen = false;
    /// Another study was opened while it was recorded.
    bool isOfStudyBefore = false;
    /// Since the last recording ended the input was not there, and is again.
    bool wasGone = false;
    bool isBack = false;
    /// Of the recording that runs or ran last: when it began, and its sound.
    QString moment;
    std::filesystem::path recordedFile;
    /// The pair of devices whose round trip is in use.
    QString knownPair;
    /// What the engine was given last.
    std::optional<Take> heard;
    std::filesystem::path heardFolder;
    BackgroundJob openingJob;
    TakeKeeping keeping;
};

} // namespace earwright::ui
