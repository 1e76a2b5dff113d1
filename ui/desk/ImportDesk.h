// Files of other programs, opened as studies.
#pragma once

#include "core/exchange/Imported.h"
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

/// Threads: interface only; reading goes on beside it.
class ImportDesk : public QObject {
    Q_OBJECT
public:
    /// Requires: all outlive this.
    ImportDesk(DeskSession& session, KeepingDesk& keeping, MessageBar& messages, QWidget& window);

    /// Reads the file, asks for a part where it has several, and opens the line as a new study: with the
    /// recording that is open, and its beat marks, where there is one. What was left out is told. Nothing
    /// unsaved is lost without being asked. Requires: isForeign(path).
    void open(const std::filesystem::path& path);

private:
    /// What was asked of a file.
    struct Wish {
        std::filesystem::path path;
        std::string part{};
        MidiRhythm rhythm = MidiRhythm::Fitting;
        /// Where it has several parts and none is chosen.
        bool asksForPart = false;
    };

    /// With a part chosen, by number or name, and where the notes of a MIDI file go.
    void openPart(const std::filesystem::path& path, const std::string& part,
                  MidiRhythm rhythm = MidiRhythm::Fitting);
    void read(const Wish& wish);
    void askForPart(const std::filesystem::path& path, const Imported& imported);
    void take(const Wish& wish, Imported imported);
    void tell(const Wish& wish, const Imported& imported);
    /// To read the same part another way, where that makes another line; from where its ticks were asked for
    /// back to what fits it.
    std::optional<MessageBar::Answer> otherRhythm(const Wish& wish, const Imported& imported);

    DeskSession& session;
    KeepingDesk& keeper;
    MessageBar& messages;
    QWidget& window;
    BackgroundJob reading;
};

} // namespace earwright::ui
