// One study at the desk with its recording and its player: what all views share, and the work behind them.
#pragma once

#include "core/engine/Engine.h"
#include "core/sound/PeakPyramid.h"
#include "core/study/History.h"
#include "core/study/PlayedNote.h"
#include "core/study/Recovery.h"
#include "ui/desk/BackgroundJob.h"
#include "ui/desk/Opening.h"

#include <QObject>
#include <QString>

#include <filesystem>
#include <memory>
#include <optional>
#include <vector>

namespace earwright::ui {

/// Edits come in as whole studies and go out as studyChanged(); files are read and written away from the
/// interface thread; the engine is told whatever of an edit concerns it.
///
/// Threads: interface only. Ownership: holds history, engine, recording, overview and recovery copy.
class DeskSession : public QObject {
    Q_OBJECT
public:
    struct Options {
        Engine::Options engine;
        /// Where copies of work without a file of its own go.
        std::filesystem::path unsavedWork;
        /// Where what was heard in recordings is kept to be there at once the next time; empty: nowhere.
        std::filesystem::path cache;
    };

    explicit DeskSession(const Options& options, QObject* parent = nullptr);
    ~DeskSession() override;

    // The study. -----------------------------------------------------------------------------------------
    bool isOpen() const { return history.has_value(); }
    /// Requires: isOpen().
    const Study& study() const { return history->present(); }
    std::shared_ptr<const Study> shared() const { return history->shared(); }
    /// One step to undo. An edit that changes nothing makes no step.
    void apply(const QString& name, Study next);
    /// Another present without a step: loop, speed, transposition, what was found by ear.
    void adjust(Study next);
    void undo();
    void redo();
    bool canUndo() const { return history && history->canUndo(); }
    bool canRedo() const { return history && history->canRedo(); }
    QString undoName() const;
    QString redoName() const;
    /// False while anything would be lost by closing.
    bool isSaved() const { return !history || history->isSaved(); }
    /// Empty for a study that has no file yet.
    const std::filesystem::path& studyFile() const { return file; }
    /// Where the sound of its takes lies: beside the study's file, or with unsaved work while it has none.
    std::filesystem::path takeFolder() const;

    // Files. ---------------------------------------------------------------------------------------------
    /// Opens a recording or a study; what is open stays until the new one is there. Ends in opened() or
    /// failed().
    void open(const std::filesystem::path& path);
    void openLost(const LostWork& lost);
    /// Puts a study that was made elsewhere on the desk at once; ends in opened().
    void begin(Opened fresh);
    void cancelOpening();
    /// Writes the study as it is now; ends in saved() or failed(). Requires: isOpen().
    void saveTo(const std::filesystem::path& path);
    /// A file the user picked as the recording; ends in recordingPicked() or failed(). Requires: isOpen().
    void pickRecording(const std::filesystem::path& path);
    /// Takes a picked recording, also one that was not recognised.
    void takeRecording(const PickedRecording& picked);
    /// The user keeps a recording whose bytes are not those the study was made with.
    void acceptRecording();
    /// The user is done with the study: its recovery copy goes.
    void giveUp();
    Recovery& recoveryCopy() { return recovery; }
    /// Looks for work that was never saved and that a crash left behind; ends in lostWorkFound() if there is
    /// any.
    void findLostWork();

    // Sound. ---------------------------------------------------------------------------------------------
    Engine& engine() { return player; }
    std::shared_ptr<Recording> recording() const { return sound; }
    /// There is a recording and bars are marked in it, so that what is written has its place in the sound.
    bool hasMarkedSound() const { return isOpen() && sound && study().beatMap.hasTempo(); }
    /// Length of the recording, also while only its name is known.
    Seconds duration() const;
    /// Highest level over a stretch, 0 to 1, where 1 is the loudest place known so far: soft recordings are
    /// drawn as large as loud ones. Nothing where the overview does not reach yet.
    std::optional<float> level(const Range<Seconds>& range) const;
    void cancelOverview() { overviewJob.cancel(); }
    /// How notes are played in the recording: those are heard so, the others as written. None: the grid.
    void playAs(PlayedNotes notes);
    Frames framesOf(Seconds time) const { return study().recording.rate.frames(time); }

signals:
    void opened(const earwright::ui::Opened& what);
    /// The present is another one; `before` is what it was.
    void studyChanged(const earwright::Study& before);
    /// Saved state or file name changed.
    void fileChanged();
    void saved();
    void recordingChanged();
    void recordingPicked(const earwright::ui::PickedRecording& picked);
    /// The recording's bytes are not those the study was made with.
    void recordingDiffers();
    void lostWorkFound(const earwright::LostWork& newest);
    /// One sentence for the user; nothing was lost.
    void failed(const QString& sentence);
    /// Share of the work, 0 to 1; nothing when it ended.
    void openingProgressed(std::optional<double> share);
    void overviewProgressed(std::optional<double> share);

private:
    void openBy(std::function<Result<Opened>(const std::stop_token&)> work);
    void take(Opened fresh);
    void takeSound(std::shared_ptr<Recording> recording);
    void drawOverview();
    void showOverview(std::optional<double> share);
    void fingerprint();
    void compareFingerprint(const std::string& hash);
    void takeSaved(std::shared_ptr<const Study> written, const std::filesystem::path& target);
    void referToSoundFrom(const std::filesystem::path& studyFile);
    void present(const Study& before);
    void tellEngine(const Study* before);

    std::optional<History> history;
    std::filesystem::path file;
    std::filesystem::path unsavedFolder;
    std::shared_ptr<Recording> sound;
    std::shared_ptr<PeakPyramid> peaks;
    float loudest = 1;
    PlayedNotes played;
    std::string measuredHash;
    Recovery recovery;
    Engine player;
    // Last, so that they end before what they work for.
    BackgroundJob searchJob;
    BackgroundJob openingJob;
    BackgroundJob pickingJob;
    BackgroundJob savingJob;
    BackgroundJob overviewJob;
    BackgroundJob fingerprintJob;
};

} // namespace earwright::ui
