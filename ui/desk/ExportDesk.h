// The line, written for other programs.
#pragma once

#include "core/result/Result.h"
#include "ui/desk/BackgroundJob.h"
#include "ui/desk/DeskSession.h"
#include "ui/desk/ExportChoices.h"
#include "ui/desk/ListenedWork.h"
#include "ui/desk/MessageBar.h"

#include <QObject>

#include <filesystem>
#include <memory>
#include <optional>

class QSettings;
class QWidget;

namespace earwright::ui {

/// Threads: interface only; listening and writing go on beside it.
class ExportDesk : public QObject {
    Q_OBJECT
public:
    /// Requires: all outlive this.
    ExportDesk(DeskSession& session, RecordingListener& listener, MessageBar& messages, QSettings& settings,
               QWidget& window);

    /// Opens the dialog, as it was answered the last time; says why not where nothing is written, or a file
    /// is being written already.
    void askWhatToWrite();
    /// Writes .musicxml, .mxl or .mid of the study as it is now and says so, or why not; that it is under way
    /// is said meanwhile, and it can be called off. What is there already is not replaced without being asked
    /// about.
    void write(ExportChoices choices);
    bool isWriting() const { return isPreparing() || writing.isRunning(); }
    /// Where the playing is measured: the user's focus and band, or where the line is clearest.
    void listenTo(const HeardPart& part) { heardPart = part; }

private:
    /// What is about to be written.
    struct Plan {
        ExportChoices choices;
        std::shared_ptr<const Study> study;
        /// Where the playing is measured; nothing where the file is not to have that.
        std::optional<HeardPart> measuredIn;
    };
    struct Measured {
        Plan plan;
        PlayedNotes played;
    };

    /// Says why not, where a study is open.
    bool mayWrite();
    /// Says so where a file is being written already, and that it can be called off while it can.
    bool tellBusy();
    void tellUnderWay(const QString& what);
    void lookForFile(const Plan& plan);
    void carryOut(const Plan& plan);
    void put(const Plan& plan, PlayedNotes played);
    /// What comes before the writing; that itself is soon done.
    bool isPreparing() const { return looking.isRunning() || listening.isBusy(); }
    void callOff();
    void tellCalledOff();

    DeskSession& session;
    MessageBar& messages;
    QWidget& window;
    QSettings& settings;
    /// For a file that is there already.
    BackgroundJob looking;
    BackgroundJob writing;
    /// Measures how the notes are played, where the file is to have that.
    ListenedWork listening;
    /// Until the row that tells of listening is closed: the next takes its place.
    std::optional<Measured> measured;
    HeardPart heardPart;
    /// Of the study that is open.
    std::filesystem::path lastFile;
    /// Of the writing that was begun last, whatever study is open by then.
    std::filesystem::path fileUnderWay;
};

} // namespace earwright::ui
