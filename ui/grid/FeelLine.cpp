#include "ui/grid/FeelLine.h"

#include "ui/grid/ListenedText.h"
#include "ui/theme/Type.h"

#include <QLabel>
#include <QLocale>
#include <QVBoxLayout>

#include <cmath>

namespace earwright::ui {

namespace {

QString milliseconds(Seconds time) {
    return QString::number(std::lround(std::abs(time.value) * 1000));
}

QString swingText(const Feel& feel) {
    if (!feel.swing)
        return FeelLine::tr("Too few pairs of eighths are heard to tell the swing: %1 of the %2 it takes.")
            .arg(feel.pairsHeard)
            .arg(Feel::leastPairs);
    const SwingFeel& swing = *feel.swing;
    const auto number = [](double ratio) { return QLocale().toString(ratio, 'f', 1); };
    return FeelLine::tr("Eighths %1 to 1 (%2 to %3), the short one %4 ms: %5 pairs.")
        .arg(number(swing.ratio), number(swing.least), number(swing.most), milliseconds(swing.shortEighth))
        .arg(swing.pairs);
}

QString placementText(const Feel& feel) {
    if (!feel.placement)
        return FeelLine::tr(
                   "Too few notes on the beat are heard to tell how they lie: %1 of the %2 it takes.")
            .arg(feel.notesHeard)
            .arg(Feel::leastNotes);
    const BeatPlacement& placement = *feel.placement;
    const QString words = placement.behind < Seconds(0)
                              ? FeelLine::tr("%1 ms ahead of the beat (± %2): %3 notes.")
                              : FeelLine::tr("%1 ms behind the beat (± %2): %3 notes.");
    return words.arg(milliseconds(placement.behind), milliseconds(placement.spread)).arg(placement.notes);
}

} // namespace

FeelLine::FeelLine(QWidget* parent) : QWidget(parent), line(new QLabel(this)) {
    setAccessibleName(tr("Feel of the phrase"));
    line->setFont(ui::font(TextStyle::Small));
    line->setWordWrap(true);
    line->setTextFormat(Qt::PlainText);
    line->setToolTip(tr("How the record places the written notes in time. The beat is where you marked it; "
                        "behind, ahead and swing are style, not right or wrong."));
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(0, 0, 0, 0);
    column->addWidget(line);
    clear();
}

void FeelLine::show(const Feel& feel, const HeardPart& listened) {
    QString where = listenedText(listened, true);
    if (!where.isEmpty())
        where = QStringLiteral(" ") + where.left(1).toUpper() + where.mid(1) + QLatin1Char('.');
    line->setText(feelText(feel) + where);
    setVisible(true);
}

void FeelLine::clear() {
    line->clear();
    setVisible(false);
}

QString FeelLine::text() const {
    return line->text();
}

QString feelText(const Feel& feel) {
    return swingText(feel) + QLatin1Char(' ') + placementText(feel);
}

} // namespace earwright::ui
