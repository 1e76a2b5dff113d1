#include "ui/grid/LooseEndModel.h"

#include "core/study/LooseEndEdits.h"
#include "ui/theme/PlaceText.h"

#include <algorithm>

namespace earwright::ui {

void LooseEndModel::setStudy(std::shared_ptr<const Study> given) {
    const auto ids = [](const Study* of) {
        std::vector<LooseEndId> list;
        if (of)
            for (const LooseEnd& end : of->looseEnds)
                list.push_back(end.id);
        return list;
    };
    // Rows stay selected and in edit unless some came or went.
    const bool sameRows = ids(study.get()) == ids(given.get());
    if (!sameRows) beginResetModel();
    study = std::move(given);
    if (!sameRows)
        endResetModel();
    else if (rowCount() > 0)
        emit dataChanged(index(0), index(rowCount() - 1));
}

const LooseEnd* LooseEndModel::looseEnd(const QModelIndex& at) const {
    if (!study || !at.isValid() || at.row() >= rowCount()) return nullptr;
    return &study->looseEnds[static_cast<std::size_t>(at.row())];
}

QModelIndex LooseEndModel::indexOf(LooseEndId id) const {
    for (int row = 0; row < rowCount(); ++row)
        if (study->looseEnds[static_cast<std::size_t>(row)].id == id) return index(row);
    return {};
}

int LooseEndModel::openCount() const {
    if (!study) return 0;
    return static_cast<int>(std::count_if(study->looseEnds.begin(), study->looseEnds.end(),
                                          [](const LooseEnd& end) { return !end.done; }));
}

int LooseEndModel::rowCount(const QModelIndex& parent) const {
    return parent.isValid() || !study ? 0 : static_cast<int>(study->looseEnds.size());
}

QVariant LooseEndModel::data(const QModelIndex& at, int role) const {
    const LooseEnd* end = looseEnd(at);
    if (!end) return {};
    switch (role) {
    case Qt::DisplayRole:
    case Qt::EditRole:
        return QString::fromStdString(end->text);
    case Qt::CheckStateRole:
        return end->done ? Qt::Checked : Qt::Unchecked;
    case placeRole:
        return study->beatMap.hasTempo()
                   ? placeText(Beats::nearest(study->beatMap.beatsAt(end->time), 12), study->meters())
                   : clockText(end->time);
    case Qt::AccessibleTextRole:
        return tr("%1, %2, %3")
            .arg(data(at, Qt::DisplayRole).toString(), data(at, placeRole).toString(),
                 end->done ? tr("ticked off") : tr("open"));
    default:
        return {};
    }
}

bool LooseEndModel::setData(const QModelIndex& at, const QVariant& value, int role) {
    const LooseEnd* end = looseEnd(at);
    if (!end) return false;
    if (role == Qt::CheckStateRole) {
        const bool done = value.toInt() == Qt::Checked;
        emit edited(setLooseEndDone(*study, end->id, done),
                    done ? tr("tick off loose end") : tr("reopen loose end"));
        return true;
    }
    const std::string text = value.toString().trimmed().toStdString();
    if (role != Qt::EditRole || text == end->text) return false;
    emit edited(retextLooseEnd(*study, end->id, text), tr("change loose end"));
    return true;
}

void LooseEndModel::remove(const QModelIndex& at) {
    if (const LooseEnd* end = looseEnd(at))
        emit edited(removeLooseEnd(*study, end->id), tr("take out loose end"));
}

Qt::ItemFlags LooseEndModel::flags(const QModelIndex& at) const {
    if (!looseEnd(at)) return Qt::NoItemFlags;
    return Qt::ItemIsEnabled | Qt::ItemIsSelectable | Qt::ItemIsEditable | Qt::ItemIsUserCheckable;
}

} // namespace earwright::ui
