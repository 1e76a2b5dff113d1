#include "ui/desk/EarRecordDialog.h"

#include "ui/desk/FoundBar.h"
#include "ui/theme/Type.h"

#include <QComboBox>
#include <QDate>
#include <QDialogButtonBox>
#include <QHBoxLayout>
#include <QHeaderView>
#include <QLabel>
#include <QLocale>
#include <QTreeWidget>
#include <QVBoxLayout>

#include <algorithm>

namespace earwright::ui {

namespace {

enum Column { Name, Found, ByEar, WithHelp, Bar };

QDate dateOf(Day day) {
    const std::chrono::year_month_day date(day);
    return {static_cast<int>(date.year()), static_cast<int>(static_cast<unsigned>(date.month())),
            static_cast<int>(static_cast<unsigned>(date.day()))};
}

QString periodText(Day day, EarPeriod period) {
    const QLocale locale;
    if (period == EarPeriod::Month) return locale.toString(dateOf(day), QStringLiteral("MMMM yyyy"));
    return EarRecordDialog::tr("from %1").arg(locale.toString(dateOf(day), QStringLiteral("d MMM yyyy")));
}

QString intervalText(int semitones) {
    const QStringList names{
        EarRecordDialog::tr("the same note"), EarRecordDialog::tr("semitone"),
        EarRecordDialog::tr("whole tone"),    EarRecordDialog::tr("minor third"),
        EarRecordDialog::tr("major third"),   EarRecordDialog::tr("fourth"),
        EarRecordDialog::tr("tritone"),       EarRecordDialog::tr("fifth"),
        EarRecordDialog::tr("minor sixth"),   EarRecordDialog::tr("major sixth"),
        EarRecordDialog::tr("minor seventh"), EarRecordDialog::tr("major seventh"),
        EarRecordDialog::tr("octave"),        EarRecordDialog::tr("wider than an octave")};
    return names.value(semitones);
}

QString mistakeText(const std::optional<Mistake>& mistake) {
    if (!mistake) return EarRecordDialog::tr("right at once");
    switch (*mistake) {
    case Mistake::Octave:
        return EarRecordDialog::tr("an octave off at first");
    case Mistake::Semitone:
        return EarRecordDialog::tr("a semitone off at first");
    case Mistake::Pitch:
        return EarRecordDialog::tr("another pitch at first");
    case Mistake::Rhythm:
        return EarRecordDialog::tr("at another place at first");
    case Mistake::Missing:
        return EarRecordDialog::tr("not written at first");
    }
    return {};
}

template <class Key>
int mostOf(const std::map<Key, EarCount>& counts) {
    int most = 0;
    for (const auto& [key, count] : counts)
        most = std::max(most, count.all());
    return most;
}

} // namespace

EarRecordDialog::EarRecordDialog(const EarRecord& kept, QWidget* parent)
    : QDialog(parent), record(kept), about(new QLabel), periods(new QComboBox), list(new QTreeWidget) {
    setWindowTitle(tr("Ear record"));
    resize(620, 560);
    about->setWordWrap(true);
    periods->addItem(tr("Week by week"), static_cast<int>(EarPeriod::Week));
    periods->addItem(tr("Month by month"), static_cast<int>(EarPeriod::Month));
    periods->setAccessibleName(tr("Over time"));
    list->setColumnCount(5);
    list->setHeaderLabels({QString(), tr("Found"), tr("By ear"), tr("With help"), QString()});
    list->setAccessibleName(tr("Notes found"));
    list->setRootIsDecorated(false);
    list->setItemDelegateForColumn(Bar, new FoundBar(list));
    list->header()->setStretchLastSection(true);
    auto* buttons = new QDialogButtonBox(QDialogButtonBox::Close);
    auto* head = new QHBoxLayout;
    head->addWidget(about, 1);
    head->addWidget(periods);
    auto* column = new QVBoxLayout(this);
    column->addLayout(head);
    column->addWidget(list, 1);
    column->addWidget(buttons);
    connect(buttons, &QDialogButtonBox::rejected, this, &QDialog::reject);
    connect(periods, &QComboBox::currentIndexChanged, this,
            [this] { fill(static_cast<EarPeriod>(periods->currentData().toInt())); });
    fill(EarPeriod::Week);
}

QString EarRecordDialog::sentence() const {
    return about->text();
}

void EarRecordDialog::fill(EarPeriod period) {
    const EarSummary summary = summaryOf(record, period);
    list->clear();
    const bool isEmpty = summary.all.all() == 0;
    list->setVisible(!isEmpty);
    periods->setVisible(!isEmpty);
    about->setText(
        isEmpty ? tr("Nothing is kept yet. Check a phrase: each note that the record bears out is kept "
                     "here with its day.")
                : tr("Notes found: %1, by ear alone: %2.").arg(summary.all.all()).arg(summary.all.unaided));
    QTreeWidgetItem* time = addGroup(tr("Over time"));
    for (const auto& [day, count] : summary.byPeriod)
        addRow(time, periodText(day, period), count, mostOf(summary.byPeriod));
    QTreeWidgetItem* intervals = addGroup(tr("By interval from the note before, up or down"));
    for (const auto& [semitones, count] : summary.byInterval)
        addRow(intervals, intervalText(semitones), count, mostOf(summary.byInterval));
    QTreeWidgetItem* mistakes = addGroup(tr("By what was off first"));
    for (const auto& [mistake, count] : summary.byMistake)
        addRow(mistakes, mistakeText(mistake), count, mostOf(summary.byMistake));
    list->expandAll();
    for (const int column : {Name, Found, ByEar, WithHelp})
        list->resizeColumnToContents(column);
}

QTreeWidgetItem* EarRecordDialog::addGroup(const QString& name) {
    auto* group = new QTreeWidgetItem(list, {name});
    group->setFirstColumnSpanned(true);
    group->setFont(Name, ui::font(TextStyle::Strong));
    group->setFlags(Qt::ItemIsEnabled);
    return group;
}

void EarRecordDialog::addRow(QTreeWidgetItem* group, const QString& name, const EarCount& count, int most) {
    auto* row = new QTreeWidgetItem(group, {name, QString::number(count.all()),
                                            QString::number(count.unaided), QString::number(count.helped)});
    for (const int column : {Found, ByEar, WithHelp})
        row->setTextAlignment(column, Qt::AlignRight | Qt::AlignVCenter);
    row->setData(Bar, FoundBar::byEarRole, static_cast<double>(count.unaided) / most);
    row->setData(Bar, FoundBar::withHelpRole, static_cast<double>(count.helped) / most);
}

} // namespace earwright::ui
