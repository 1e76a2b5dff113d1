#include "ui/grid/ListenedText.h"

#include <QCoreApplication>

#include <cmath>

namespace earwright::ui {

namespace {

QString tr(const char* text) {
    return QCoreApplication::translate("ListenedText", text);
}

QString whereText(Focus focus) {
    switch (focus) {
    case Focus::All:
        return {};
    case Focus::Left:
        return tr("on the left");
    case Focus::Right:
        return tr("on the right");
    case Focus::Centre:
        return tr("in the centre");
    case Focus::Sides:
        return tr("at the sides");
    }
    return {};
}

QString bandText(const Band& band) {
    const QString text = band.remove ? tr("without %1 to %2 Hz") : tr("from %1 to %2 Hz");
    return text.arg(std::lround(band.lowHertz)).arg(std::lround(band.highHertz));
}

} // namespace

QString listenedText(const HeardPart& part, bool asAsked) {
    if (part.isEverything()) return {};
    QStringList where;
    if (part.focus != Focus::All) where += whereText(part.focus);
    if (part.band) where += bandText(*part.band);
    return (asAsked ? tr("listened %1, as you do") : tr("listened %1, where the line is clearest"))
        .arg(where.join(QLatin1Char(' ')));
}

QString listenedText(const PhraseCheck& check) {
    const auto part = check.listened();
    return part ? listenedText(*part, check.listenedAsAsked) : QString();
}

} // namespace earwright::ui
