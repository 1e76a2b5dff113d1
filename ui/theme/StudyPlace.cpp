#include "ui/theme/StudyPlace.h"

#include "ui/theme/PlaceText.h"

#include <QCoreApplication>

#include <cmath>

namespace earwright::ui {

namespace {

QString tr(const char* text) {
    return QCoreApplication::translate("StudyPlace", text);
}

/// The counted beat that is heard; the ear stands on a frame, which may lie a hair before it.
Beats beatUnder(const Study& study, Seconds ear) {
    constexpr double hair = 1e-6;
    return study.meters().countAt(study.beatMap.beatsAt(ear) + hair);
}

} // namespace

QString placeIn(const Study& study, Seconds time) {
    if (!study.beatMap.hasTempo()) return clockText(time);
    return placeText(Beats::nearest(study.beatMap.beatsAt(time), 12), study.meters());
}

QString stretchIn(const Study& study, const Range<Seconds>& stretch) {
    return tr("%1 to %2").arg(placeIn(study, stretch.begin), placeIn(study, stretch.end));
}

QString earIn(const Study& study, Seconds ear, const std::optional<Range<Seconds>>& chosen) {
    // By the beat, or the second: a reader that follows every change can still be understood.
    const QString place = study.beatMap.hasTempo() ? placeText(beatUnder(study, ear), study.meters())
                                                   : lengthText(Seconds(std::floor(ear.value)));
    QString text = tr("The ear is at %1.").arg(place);
    if (chosen) text += QLatin1Char(' ') + tr("Chosen: %1.").arg(stretchIn(study, *chosen));
    if (study.practice.loop)
        text += QLatin1Char(' ') + tr("The loop: %1.").arg(stretchIn(study, *study.practice.loop));
    return text;
}

} // namespace earwright::ui
