#include "ui/grid/SwungText.h"

#include <QCoreApplication>
#include <QLocale>

#include <cmath>

namespace earwright::ui {

namespace {

QString tr(const char* text) {
    return QCoreApplication::translate("SwungText", text);
}

/// One decimal, none where it is nought.
QString ratioText(double ratio) {
    const double rounded = std::round(ratio * 10) / 10;
    return QLocale().toString(rounded, 'f', rounded == std::round(rounded) ? 0 : 1);
}

} // namespace

QString swungText(const PhraseCheck& check, const KeyOf& keyOf) {
    if (!check.unwrittenSwing) return {};
    const SwingFeel& swing = *check.unwrittenSwing;
    const QString heard = tr("eighths swing %1:1 here (%2 to %3)")
                              .arg(ratioText(swing.ratio), ratioText(swing.least), ratioText(swing.most));
    // Pairs of which some are hardly divided and some wide apart make no swing for the page: a note that is
    // wrong may be among them.
    constexpr double widest = 2;
    if (swing.most > widest * swing.least) return heard;
    return tr("%1; %2 to write it").arg(heard, howTo(CommandId::SwingHere, keyOf));
}

} // namespace earwright::ui
