#include "ui/grid/RunText.h"

#include "core/check/MovedStep.h"

#include <QCoreApplication>

#include <cmath>

namespace earwright::ui {

namespace {

QString tr(const char* text) {
    return QCoreApplication::translate("RunText", text);
}

/// "an eighth", where it is a step of the page, or "120 ms".
QString distanceText(const Hint& hint) {
    if (hint.apartInBeats) return tr(nameOfStep(*hint.apartInBeats));
    return tr("%1 ms").arg(std::lround(1000 * std::abs(hint.apart->value)));
}

QString movedText(const Hint& hint, const QString& elsewhere) {
    if (!hint.moved)
        return tr("%1 notes from here on have the right pitches, but begin elsewhere").arg(hint.notes);
    const bool isEarlier = *hint.moved < 0;
    if (!hint.apart)
        return (isEarlier ? tr("the record has %1 notes from here on earlier")
                          : tr("the record has %1 notes from here on later"))
            .arg(hint.notes);
    const QString sentence = (isEarlier ? tr("the record has %1 notes from here on %2 earlier")
                                        : tr("the record has %1 notes from here on %2 later"))
                                 .arg(hint.notes)
                                 .arg(distanceText(hint));
    return elsewhere.isEmpty() ? sentence : tr("%1, the first at %2").arg(sentence, elsewhere);
}

QString octaveText(const Hint& hint, const QString& heardName) {
    const int direction = hint.direction.value_or(0);
    if (direction == 0) return tr("the record has %1 notes from here on in another octave").arg(hint.notes);
    const QString sentence = (direction > 0 ? tr("the record has %1 notes from here on an octave higher")
                                            : tr("the record has %1 notes from here on an octave lower"))
                                 .arg(hint.notes);
    // The name of the note is known all along, but told with the last step only.
    return hint.heardMidi && !heardName.isEmpty() ? tr("%1, the first as %2").arg(sentence, heardName)
                                                  : sentence;
}

} // namespace

QString runText(const Hint& hint, const QString& heardName, const QString& elsewhere) {
    if (!hint.kind) return tr("something is off with %1 notes from here on").arg(hint.notes);
    return hint.kind == PlaceKind::MovedRun ? movedText(hint, elsewhere) : octaveText(hint, heardName);
}

} // namespace earwright::ui
