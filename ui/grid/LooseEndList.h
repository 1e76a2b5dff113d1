// The loose ends, listed under the grid: to be gone to, worded and ticked off.
#pragma once

#include "core/study/Study.h"
#include "ui/commands/KeyWords.h"

#include <QPoint>
#include <QWidget>

#include <memory>

class QLabel;
class QListView;
class QModelIndex;

namespace earwright::ui {

class LooseEndModel;

/// A click or Enter goes to the place, F2 or a double click words it, Space or a click in its box ticks it
/// off, Delete or Backspace takes it out. Threads: interface only.
class LooseEndList : public QWidget {
    Q_OBJECT
public:
    explicit LooseEndList(QWidget* parent = nullptr);

    void setStudy(std::shared_ptr<const Study> study);
    /// The key each command has now, for the word of advice.
    void setKeys(const KeyOf& keyOf);
    QListView* view() const { return list; }

signals:
    void edited(const earwright::Study& study, const QString& what);
    void placeChosen(earwright::Seconds time);

protected:
    bool eventFilter(QObject* watched, QEvent* event) override;

private:
    void showCounts();
    void goTo(const QModelIndex& index);
    /// What a key does to the row it is on; false where it is none of the list's own.
    bool act(int key, const QModelIndex& index);

    LooseEndModel* model;
    QLabel* counts;
    QLabel* empty;
    QListView* list;
    /// Where the pointer let go last, in the list's viewport.
    QPoint releasedAt;
};

} // namespace earwright::ui
