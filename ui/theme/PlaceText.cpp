#include "ui/theme/PlaceText.h"

#include <QCoreApplication>

#include <algorithm>
#include <cmath>
#include <cstdint>

namespace earwright::ui {

namespace {

/// A fraction of a beat as print has it; nothing for the twelfths that have no sign.
QString fractionSign(std::int64_t twelfths) {
    static constexpr const char* signs[12] = {"", "", "⅙", "¼", "⅓", "", "½", "", "⅔", "¾", "⅚", ""};
    return QString::fromUtf8(signs[twelfths]);
}

/// Counted beats and twelfths, at the nearest one that has a sign.
Beats readable(double counts) {
    static constexpr std::int64_t shown[] = {0, 2, 3, 4, 6, 8, 9, 10, 12};
    const double whole = std::floor(counts);
    const double into = (counts - whole) * 12;
    std::int64_t best = 0;
    for (const std::int64_t candidate : shown)
        if (std::abs(into - static_cast<double>(candidate)) < std::abs(into - static_cast<double>(best)))
            best = candidate;
    return Beats(std::llround(whole)) + Beats(best, 12);
}

QString clock(std::int64_t tenths, bool withTenths) {
    const std::int64_t seconds = tenths / 10;
    const std::int64_t hours = seconds / 3600;
    const QLatin1Char zero('0');
    QString text = hours > 0 ? QStringLiteral("%1:%2:%3")
                                   .arg(hours)
                                   .arg(seconds / 60 % 60, 2, 10, zero)
                                   .arg(seconds % 60, 2, 10, zero)
                             : QStringLiteral("%1:%2").arg(seconds / 60).arg(seconds % 60, 2, 10, zero);
    if (withTenths) text += QStringLiteral(".%1").arg(tenths % 10);
    return text;
}

QString tr(const char* text) {
    return QCoreApplication::translate("PlaceText", text);
}

} // namespace

QString placeText(const Beats& exact, const MeterMap& meters) {
    std::int64_t bar = meters.barOf(exact);
    const double counts = meters.withinBar(exact).toDouble() / meters.countLength(bar).toDouble();
    Beats within = readable(counts);
    if (within.toDouble() * meters.countLength(bar).toDouble() >= meters.barLength(bar).toDouble()) {
        ++bar;
        within = Beats(0);
    }
    const QString fraction = fractionSign((within.fraction() * 12).floor());
    return tr("%1, beat %2").arg(barText(bar), QString::number(within.floor() + 1) + fraction);
}

QString placeSentence(const Beats& exact, const MeterMap& meters) {
    QString sentence = placeText(exact, meters);
    if (!sentence.isEmpty()) sentence[0] = sentence[0].toUpper();
    return sentence;
}

QString barText(std::int64_t bar) {
    if (bar >= 1) return tr("bar %1").arg(bar);
    if (bar == 0) return tr("pickup");
    return tr("%1 bars before bar 1").arg(1 - bar);
}

QString barsText(std::int64_t first, std::int64_t last) {
    if (last <= first) return barText(first);
    if (first >= 1) return tr("bars %1–%2").arg(first).arg(last);
    return tr("%1 to %2").arg(barText(first), barText(last));
}

QString chordsTitle(std::int64_t bar) {
    if (bar == 0) return tr("Chords of the pickup");
    return tr(bar > 0 ? "Chords of %1" : "Chords %1").arg(barText(bar));
}

QString clockText(Seconds time) {
    return clock(std::llround(std::max(0.0, time.value) * 10), true);
}

QString lengthText(Seconds length) {
    return clock(std::llround(std::max(0.0, length.value)) * 10, false);
}

} // namespace earwright::ui
