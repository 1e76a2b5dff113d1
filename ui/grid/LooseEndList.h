// The loose ends, listed under the grid: to be gone to, worded and ticked off.
#pragma once

#include "core/study/Study.h"

#include <QWidget>

#include <memory>

class QLabel;
class QListView;

namespace earwright::ui {

class LooseEndModel;

/// Threads: interface only.
class LooseEndList : public QWidget {
    Q_OBJECT
public:
    explicit LooseEndList(QWidget* parent = nullptr);

    void setStudy(std::shared_ptr<const Study> study);
    /// Shows one as the current one.
    void setCurrent(LooseEndId id);
    /// Opens the field for its word of text, for one just set.
    void editText(LooseEndId id);

    QListView* view() const { return list; }

signals:
    void edited(const earwright::Study& study, const QString& what);
    void placeChosen(earwright::Seconds time);

protected:
    bool eventFilter(QObject* watched, QEvent* event) override;

private:
    void showCounts();

    LooseEndModel* model;
    QLabel* counts;
    QLabel* empty;
    QListView* list;
};

} // namespace earwright::ui
