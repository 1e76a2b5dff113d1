// Playing along: record, the input, the caution, and the takes.
#pragma once

#include "core/engine/Input.h"
#include "core/study/Study.h"

#include <QWidget>

#include <memory>

class QLabel;

namespace earwright::ui {

class InputRow;
class KeyboardChoice;
class QuietButton;
class TakeList;

/// Threads: interface only.
class TakePanel : public QWidget {
    Q_OBJECT
public:
    explicit TakePanel(QWidget* parent = nullptr);

    void setStudy(std::shared_ptr<const Study> study);
    void setRecording(const RecordingReport& report);
    /// Whether a take can be recorded now.
    void setReady(bool ready);

    InputRow* inputRow() const { return input; }
    KeyboardChoice* keyboardChoice() const { return keyboard; }
    TakeList* takeList() const { return takes; }
    QuietButton* recordButton() const { return record; }
    QString stateText() const;

    /// About the ears, where an input is opened.
    static QString caution();

signals:
    void recordRequested();
    void edited(const earwright::Study& study, const QString& what);

protected:
    void paintEvent(QPaintEvent* event) override;

private:
    void showTakeWords();
    void showState();

    std::shared_ptr<const Study> study;
    bool isRecording = false;
    /// What recording has to say; empty for nothing.
    QString word;
    QuietButton* record;
    QLabel* state;
    InputRow* input;
    KeyboardChoice* keyboard;
    QLabel* warning;
    TakeList* takes;
    QuietButton* hear;
    QuietButton* name;
    QuietButton* remove;
};

} // namespace earwright::ui
