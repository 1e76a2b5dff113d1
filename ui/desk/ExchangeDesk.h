// Files of other programs at the desk: opened as studies, and written for them.
#pragma once

#include "core/exchange/Imported.h"
#include "core/result/Result.h"
#include "ui/desk/BackgroundJob.h"
#include "ui/desk/DeskSession.h"
#include "ui/desk/KeepingDesk.h"
#include "ui/desk/MessageBar.h"

#include <QObject>

#include <filesystem>
#include <optional>
#include <string>

class QWidget;

namespace earwright::ui {

/// Threads: interface only; reading and writing go on beside it.
class ExchangeDesk : public QObject {
    Q_OBJECT
public:
    ExchangeDesk(DeskSession& session, KeepingDesk& keeping, MessageBar& messages, QWidget& window);

    /// Reads the file, asks for a part where it has several, and opens the line as a new study: with the
    /// recording that is open, and its beat marks, where there is one. What was left out is told. Nothing
    /// unsaved is lost without being asked. Requires: isForeign(path).
    void open(const std::filesystem::path& path);
    /// The same with a part chosen, by number or name, and where the notes of a MIDI file go.
    void openPart(const std::filesystem::path& path, const std::string& part,
                  MidiRhythm rhythm = MidiRhythm::Fitting);
    void askWhereTo();
    /// Writes .musicxml, .mxl or .mid and says so, or why not.
    void writeTo(const std::filesystem::path& file);

private:
    /// What was asked of a file.
    struct Wish {
        std::filesystem::path path;
        std::string part{};
        MidiRhythm rhythm = MidiRhythm::Fitting;
        /// Where it has several parts and none is chosen.
        bool asksForPart = false;
    };

    void read(const Wish& wish);
    void askForPart(const std::filesystem::path& path, const Imported& imported);
    void take(const std::filesystem::path& path, Imported imported);
    void tell(const std::filesystem::path& path, const Imported& imported);
    /// To read the same part the other way, where that makes another line.
    std::optional<MessageBar::Answer> otherRhythm(const std::filesystem::path& path,
                                                  const Imported& imported);

    DeskSession& session;
    KeepingDesk& keeper;
    MessageBar& messages;
    QWidget& window;
    BackgroundJob reading;
    BackgroundJob writing;
};

} // namespace earwright::ui
