#include "ui/grid/HintText.h"

#include "core/music/Pitch.h"

#include <QCoreApplication>

#include <cstdlib>

namespace earwright::ui {

namespace {

QString tr(const char* text) {
    return QCoreApplication::translate("HintText", text);
}

QString semitonesText(int count) {
    return count == 1 ? tr("1 semitone") : tr("%1 semitones").arg(count);
}

QString whichWay(const Hint& hint) {
    const int direction = hint.direction.value_or(0);
    switch (*hint.kind) {
    case PlaceKind::WrongPitch:
        return direction > 0   ? tr("the record is higher")
               : direction < 0 ? tr("the record is lower")
                               : tr("the record has another pitch");
    case PlaceKind::NothingThere:
        return tr("no note of the line begins here");
    case PlaceKind::Unclear:
        return tr("the band covers this note");
    case PlaceKind::Unwritten:
        return direction > 0   ? tr("a note is missing, higher than the one before")
               : direction < 0 ? tr("a note is missing, lower than the one before")
                               : tr("a note is missing");
    }
    return {};
}

QString howFar(const Hint& hint) {
    const int semitones = *hint.semitones;
    const QString far = semitonesText(std::abs(semitones));
    if (*hint.kind == PlaceKind::Unwritten) {
        if (semitones == 0) return tr("a note is missing, the same as the one before");
        return (semitones > 0 ? tr("a note is missing, %1 above the one before")
                              : tr("a note is missing, %1 below the one before"))
            .arg(far);
    }
    if (semitones == 0) return whichWay(hint);
    return (semitones > 0 ? tr("the record is %1 higher") : tr("the record is %1 lower")).arg(far);
}

/// Two ways in which a note can be where none begins.
QString extraOrMoved(const Hint& hint) {
    if (!hint.moved) return tr("nothing begins here, the note may be extra");
    return *hint.moved < 0 ? tr("nothing begins here, the record has it earlier")
                           : tr("nothing begins here, the record has it later");
}

QString told(const Hint& hint, const QString& heardName) {
    if (hint.heardMidi) {
        const QString name =
            heardName.isEmpty() ? QString::fromStdString(toString(Pitch{*hint.heardMidi, {}})) : heardName;
        return hint.kind == PlaceKind::Unwritten ? tr("the record has %1, not written yet").arg(name)
                                                 : tr("the record has %1").arg(name);
    }
    if (!hint.kind) return tr("something is off");
    if (hint.kind == PlaceKind::NothingThere && hint.step >= HelpStep::HowFar) return extraOrMoved(hint);
    return hint.semitones ? howFar(hint) : whichWay(hint);
}

} // namespace

QString hintText(const Hint& hint, const QString& place, const QString& heardName) {
    if (hint.step == HelpStep::None) return place;
    const QString text = told(hint, heardName);
    if (!place.isEmpty()) return tr("%1: %2").arg(place, text);
    return text.left(1).toUpper() + text.mid(1);
}

} // namespace earwright::ui
