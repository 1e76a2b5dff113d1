// Under the feel: how the selected note is played, once that was asked for.
#pragma once

#include <QWidget>

class QLabel;

namespace earwright::ui {

/// Takes no room while there is nothing to say. Threads: interface only.
class PlayingLine : public QWidget {
    Q_OBJECT
public:
    explicit PlayingLine(QWidget* parent = nullptr);

    /// An empty text takes the line away.
    void show(const QString& text);
    QString text() const;

private:
    QLabel* line;
};

} // namespace earwright::ui
