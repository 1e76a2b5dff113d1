// Under the check: how the phrase is placed in time, once that was asked for.
#pragma once

#include "core/check/Feel.h"
#include "core/listening/HeardPart.h"

#include <QWidget>

class QLabel;

namespace earwright::ui {

/// Takes no room while there is nothing to say. Threads: interface only.
class FeelLine : public QWidget {
    Q_OBJECT
public:
    explicit FeelLine(QWidget* parent = nullptr);

    /// `listened`: the part of the recording the user had in focus; everything says nothing.
    void show(const Feel& feel, const HeardPart& listened = {});
    void clear();
    QString text() const;

private:
    QLabel* line;
};

/// "Eighths 1.6 to 1 (1.4 to 1.8), the short one 168 ms: 12 pairs. 28 ms behind the beat (± 12): 9 notes."
QString feelText(const Feel& feel);

} // namespace earwright::ui
