// The loose ends of a study as rows of a list; changing a row asks for an edit instead of making it.
#pragma once

#include "core/study/Study.h"

#include <QAbstractListModel>

#include <memory>

namespace earwright::ui {

/// Display and edit role: the text. CheckState role: ticked off. Threads: interface only.
class LooseEndModel : public QAbstractListModel {
    Q_OBJECT
public:
    using QAbstractListModel::QAbstractListModel;

    /// "bar 30, beat 3", or the clock where no bars are marked.
    static constexpr int placeRole = Qt::UserRole;

    void setStudy(std::shared_ptr<const Study> study);
    /// Null for a row that is not there. Points into the study.
    const LooseEnd* looseEnd(const QModelIndex& index) const;
    QModelIndex indexOf(LooseEndId id) const;
    int openCount() const;

    int rowCount(const QModelIndex& parent = {}) const override;
    QVariant data(const QModelIndex& index, int role) const override;
    bool setData(const QModelIndex& index, const QVariant& value, int role) override;
    Qt::ItemFlags flags(const QModelIndex& index) const override;

    void remove(const QModelIndex& index);

signals:
    void edited(const earwright::Study& study, const QString& what);

private:
    std::shared_ptr<const Study> study;
};

} // namespace earwright::ui
