// The takes of a study: heard, named, taken off the list.
#pragma once

#include "core/study/Study.h"

#include <QListWidget>

#include <memory>

namespace earwright::ui {

/// Enter or a double click lets a take be heard as "yours", and again gives the written notes back; F2 names
/// it, Delete takes it off the list (undo brings it back). The chosen one is marked in words and with a full
/// head.
///
/// Threads: interface only.
class TakeList : public QListWidget {
    Q_OBJECT
public:
    explicit TakeList(QWidget* parent = nullptr);

    void setStudy(std::shared_ptr<const Study> study);
    /// The row the keyboard is on; null for none.
    const Take* current() const;
    void chooseCurrent();
    void removeCurrent();

signals:
    void edited(const earwright::Study& study, const QString& what);

protected:
    void keyPressEvent(QKeyEvent* event) override;

private:
    QString describe(const Take& take) const;
    void rename(QListWidgetItem* item);
    bool hasItsTakes() const;
    void fill(QListWidgetItem& item, const Take& take);
    void listAnew(bool toTheHeard);

    std::shared_ptr<const Study> study;
    bool filling = false;
};

} // namespace earwright::ui
