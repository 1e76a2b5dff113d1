// Opening, saving and closing, with every question that belongs to them; nothing is lost without being asked.
#pragma once

#include "ui/desk/DeskSession.h"
#include "ui/desk/MessageBar.h"

#include <QObject>
#include <QTimer>

#include <functional>

class QWidget;

namespace earwright::ui {

/// Questions are lines of the message bar, so that the music can run on. Threads: interface only.
class KeepingDesk : public QObject {
    Q_OBJECT
public:
    KeepingDesk(DeskSession& session, MessageBar& messages, QWidget& window);

    /// Opens a file at once if nothing would be lost; else asks first.
    void open(const std::filesystem::path& path);
    void askWhatToOpen();
    /// Saves under the study's own name, or asks for one.
    void save();
    void askWhereToSave();
    void askForRecording();
    void askForTitle();
    /// True if the window may close now. Otherwise the user is asked, and closeAgreed() may follow.
    bool mayClose();
    /// True while there are changes that a save would keep.
    bool hasUnsavedWork() const;

    /// Does the deed at once where nothing would be lost; else asks to save first, with this question.
    void whenNothingIsLost(const QString& question, std::function<void()> deed);

signals:
    void closeAgreed();
    /// A file of another program was chosen to be opened.
    void foreignChosen(const std::filesystem::path& path);

private:
    /// `otherwise`: done where saving fails; nothing to stay as it is.
    void afterSaving(std::function<void()> deed, std::function<void()> otherwise = {});
    void showOpened(const Opened& what);
    void offerUnsaved(const LostWork& lost);
    void offerLost(const QString& subject, const LostWork& lost, const QString& sentence);
    void showPicked(const PickedRecording& picked);
    void showDifferent();
    void showOpening();
    void startAt(const std::filesystem::path& path);
    void bringBack(const LostWork& lost);
    void settleLost();

    DeskSession& session;
    MessageBar& messages;
    QWidget& window;
    /// What waits until the study is saved.
    std::function<void()> pending;
    std::function<void()> pendingOtherwise;
    QString openingName;
    /// Opening is spoken of only when it takes its time.
    QTimer openingTimer;
    /// Lost work that was brought back; its copy goes once the work is saved or given up.
    std::optional<LostWork> broughtBack;
    /// The study as last written or read, with loop and speed.
    std::shared_ptr<const Study> onDisk;
    /// What is open came from no file of its own: work found again, or a file from elsewhere.
    bool recovered = false;
    bool agreed = false;
};

} // namespace earwright::ui
