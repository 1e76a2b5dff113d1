#include "ui/theme/PassageText.h"

#include "core/music/TempoFigure.h"

#include <QCoreApplication>
#include <QLocale>
#include <QStringList>

#include <algorithm>
#include <cmath>

namespace earwright::ui {

namespace {

QString tr(const char* text) {
    return QCoreApplication::translate("PassageText", text);
}

QString meterAt(const Study& study, std::int64_t bar) {
    const MeterMap meters = study.meters();
    const Meter& meter = meters.at(bar);
    const bool isFirst = bar == 1 && (meter != Meter{} || !study.page.meters.empty());
    const bool changes = bar > 1 && meters.at(bar - 1) != meter;
    return isFirst || changes ? QStringLiteral("%1/%2").arg(meter.beatsPerBar).arg(meter.beatUnit)
                              : QString();
}

/// "1.5 of 4 beats on the page".
QString pickupAt(const Study& study, std::int64_t bar) {
    if (bar != 0 || !study.page.pickup) return {};
    const double beats = std::round(100 * study.page.pickup->toDouble()) / 100;
    return tr("%1 of %2 beats on the page")
        .arg(QLocale().toString(beats, 'g', 6))
        .arg(study.meter.beatsPerBar);
}

/// In the beat that is counted, as on the page.
QString tempoText(const TempoMark& mark, const Meter& meter) {
    QStringList parts;
    if (!mark.words.empty()) parts << QString::fromStdString(mark.words);
    if (mark.quartersPerMinute) {
        const bool isDotted = meter.goesInThrees();
        const double beats = *mark.quartersPerMinute * (isDotted ? 2.0 / 3 : 1);
        parts << QStringLiteral("♩%1 = %2")
                     .arg(QLatin1String(isDotted ? "." : ""), QString::fromStdString(tempoFigure(beats)));
    }
    return parts.join(QStringLiteral(", "));
}

QStringList repeatsAt(const Study& study, std::int64_t bar) {
    QStringList signs;
    for (const Repeat& repeat : study.page.repeats) {
        if (repeat.firstBar == bar)
            signs << tr("repeat to %1, %2 times").arg(repeat.lastBar).arg(repeat.times);
        if (repeat.endingBars == 0) continue;
        if (repeat.lastBar + 1 - repeat.endingBars == bar) signs << tr("ending 1");
        if (repeat.lastBar + 1 == bar) signs << tr("ending 2");
    }
    return signs;
}

} // namespace

QString keyText(const KeySignature& key) {
    const QString tonic = QString::fromStdString(toString(key.tonic()));
    return (key.mode == Mode::Major ? tr("%1 major") : tr("%1 minor")).arg(tonic);
}

QString swingText(const Swing& swing) {
    if (swing.isEven()) return tr("even");
    return (swing.noteValue == 16 ? tr("swing of sixteenths %1:1") : tr("swing %1:1")).arg(swing.ratio);
}

QString signsAt(const Study& study, std::int64_t bar) {
    QStringList signs;
    if (const QString meter = meterAt(study, bar); !meter.isEmpty()) signs << meter;
    if (const QString pickup = pickupAt(study, bar); !pickup.isEmpty()) signs << pickup;
    for (const KeyChange& change : study.page.keys)
        if (change.bar == bar) signs << keyText(change.key);
    const MeterMap meters = study.meters();
    const Range<Beats> beats{meters.barStart(bar), meters.barStart(bar + 1)};
    for (const SwingChange& change : study.page.swings)
        if (beats.contains(change.at)) signs << swingText(change.swing);
    for (const TempoMark& mark : study.page.tempos)
        if (beats.contains(mark.at)) signs << tempoText(mark, meters.at(std::max<std::int64_t>(bar, 1)));
    signs << repeatsAt(study, bar);
    return signs.join(QStringLiteral(" · "));
}

} // namespace earwright::ui
