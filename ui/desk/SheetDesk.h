// The example sheet from the desk: asked what is on it, then written beside the interface.
#pragma once

#include "ui/desk/BackgroundJob.h"
#include "ui/desk/DeskSession.h"
#include "ui/desk/MessageBar.h"
#include "ui/desk/SheetChoices.h"
#include "ui/desk/TuningDesk.h"

#include <QObject>

#include <filesystem>
#include <memory>
#include <optional>
#include <vector>

class QSettings;
class QWidget;

namespace earwright::ui {

/// Nothing is replaced without being asked about, the recording, takes and the study never are. How the last
/// sheet looked is remembered from day to day; its title, phrases and texts as long as the study is open.
/// Threads: interface only; laying out, writing and every look at the disk go on elsewhere.
class SheetDesk : public QObject {
    Q_OBJECT
public:
    /// Requires: all outlive this.
    SheetDesk(DeskSession& session, const TuningDesk& tuning, MessageBar& messages, QSettings& settings,
              QWidget& window);

    /// Opens the dialog; says why not where nothing is written.
    void ask();
    /// Lays the sheet out, asks about files that would be replaced, and writes; ends in one line that names
    /// what was written, or says why it was not.
    void write(SheetChoices choices);
    bool isWriting() const { return job.isRunning(); }

private:
    /// What is about to be written.
    struct Plan;
    using Planned = std::shared_ptr<const Plan>;

    SheetChoices startChoices() const;
    std::filesystem::path suggestedSheet() const;
    /// Says so where a sheet is being written already.
    bool tellBusy();
    void askToReplace(const Planned& plan);
    void carryOut(const Planned& plan);
    void tell(const std::vector<std::filesystem::path>& written);
    void fail(const Error& error);
    void showProgress(double share);

    DeskSession& session;
    const TuningDesk& tuning;
    MessageBar& messages;
    QSettings& settings;
    QWidget& window;
    /// Of the study that is open.
    std::optional<SheetChoices> last;
    BackgroundJob job;
};

} // namespace earwright::ui
