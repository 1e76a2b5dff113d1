// Shows how much was found by ear: over time, by interval and by what was off first.
#pragma once

#include "core/study/EarSummary.h"

#include <QDialog>

class QComboBox;
class QLabel;
class QTreeWidget;
class QTreeWidgetItem;

namespace earwright::ui {

/// The record as it stood when the dialog came up; counts only what was found, so that it tells nothing of
/// what is left to find.
class EarRecordDialog : public QDialog {
    Q_OBJECT
public:
    explicit EarRecordDialog(const EarRecord& record, QWidget* parent = nullptr);

    QTreeWidget* table() const { return list; }
    QString sentence() const;

private:
    void fill(EarPeriod period);
    QTreeWidgetItem* addGroup(const QString& name);
    void addRow(QTreeWidgetItem* group, const QString& name, const EarCount& count, int most);

    EarRecord record;
    QLabel* about;
    QComboBox* periods;
    QTreeWidget* list;
};

} // namespace earwright::ui
