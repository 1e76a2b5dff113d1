// Files of other programs at the desk: opened as studies, and written for them.
#pragma once

#include "core/exchange/Imported.h"
#include "core/result/Result.h"
#include "ui/desk/BackgroundJob.h"
#include "ui/desk/DeskSession.h"
#include "ui/desk/ExportChoices.h"
#include "ui/desk/KeepingDesk.h"
#include "ui/desk/ListenedWork.h"
#include "ui/desk/MessageBar.h"

#include <QObject>

#include <filesystem>
#include <memory>
#include <optional>
#include <string>

class QSettings;
class QWidget;

namespace earwright::ui {

/// Threads: interface only; reading and writing go on beside it.
class ExchangeDesk : public QObject {
    Q_OBJECT
public:
    /// Requires: all outlive this.
    ExchangeDesk(DeskSession& session, KeepingDesk& keeping, RecordingListener& listener,
                 MessageBar& messages, QSettings& settings, QWidget& window);

    /// Reads the file, asks for a part where it has several, and opens the line as a new study: with the
    /// recording that is open, and its beat marks, where there is one. What was left out is told. Nothing
    /// unsaved is lost without being asked. Requires: isForeign(path).
    void open(const std::filesystem::path& path);
    /// The same with a part chosen, by number or name, and where the notes of a MIDI file go.
    void openPart(const std::filesystem::path& path, const std::string& part,
                  MidiRhythm rhythm = MidiRhythm::Fitting);
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
    /// What was asked of a file.
    struct Wish {
        std::filesystem::path path;
        std::string part{};
        MidiRhythm rhythm = MidiRhythm::Fitting;
        /// Where it has several parts and none is chosen.
        bool asksForPart = false;
    };

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

    void read(const Wish& wish);
    void askForPart(const std::filesystem::path& path, const Imported& imported);
    void take(const std::filesystem::path& path, Imported imported);
    void tell(const std::filesystem::path& path, const Imported& imported);
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
    /// To read the same part the other way, where that makes another line.
    std::optional<MessageBar::Answer> otherRhythm(const std::filesystem::path& path,
                                                  const Imported& imported);

    DeskSession& session;
    KeepingDesk& keeper;
    MessageBar& messages;
    QWidget& window;
    BackgroundJob reading;
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
