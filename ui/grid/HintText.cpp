#include "ui/grid/HintText.h"

#include "core/music/Pitch.h"
#include "ui/grid/RunText.h"
#include "ui/theme/SemitonesText.h"

#include <QCoreApplication>

#include <cmath>
#include <cstdlib>

namespace earwright::ui {

namespace {

QString tr(const char* text) {
    return QCoreApplication::translate("HintText", text);
}

/// A note of which cannot be told whether it is right: no more than what keeps it open.
QString whichWayUnclear(const Hint& hint) {
    const int direction = hint.direction.value_or(0);
    switch (hint.doubt.value_or(Doubt::Faint)) {
    case Doubt::Another:
        return direction > 0   ? tr("the record may be higher")
               : direction < 0 ? tr("the record may be lower")
                               : tr("the record may have another pitch");
    case Doubt::Beginning:
        return tr("its pitch sounds, but it is not clear that it begins here");
    case Doubt::Short:
        return tr("the note is too short to tell");
    case Doubt::Covered:
        return tr("a stronger sound covers this note");
    case Doubt::Unheard:
        return tr("this pitch lies outside what the check can hear");
    case Doubt::Faint:
        break;
    }
    return tr("what sounds here is too faint to tell");
}

QString whichWayTrill(const Hint& hint) {
    const bool isWider = hint.direction.value_or(0) > 0;
    if (hint.isUnsure)
        return isWider ? tr("the record may trill farther up") : tr("the record may not trill so far up");
    return isWider ? tr("the record trills farther up") : tr("the record does not trill so far up");
}

QString howFarTrill(const Hint& hint) {
    return (hint.isUnsure ? tr("the record may trill over %1") : tr("the record trills over %1"))
        .arg(semitonesText(*hint.trillHeard));
}

/// A pitch that is heard where a note is contradicted, and that is not surely the line's. Of 281 such in
/// renderings 218 were what is played there; most others stood at notes too many or out of place.
QString heardMeanwhile(const Hint& hint, const QString& name) {
    const bool isHigher = hint.direction.value_or(0) > 0;
    if (hint.heardMidi)
        return tr("the record probably has %1; if that is the band, the note is extra").arg(name);
    if (!hint.semitones)
        return isHigher ? tr("the record is probably higher") : tr("the record is probably lower");
    return (isHigher ? tr("the record is probably %1 higher") : tr("the record is probably %1 lower"))
        .arg(semitonesText(std::abs(*hint.semitones)));
}

QString whichWay(const Hint& hint) {
    const int direction = hint.direction.value_or(0);
    switch (*hint.kind) {
    case PlaceKind::WrongPitch:
        return direction > 0   ? tr("the record is higher")
               : direction < 0 ? tr("the record is lower")
                               : tr("the record has another pitch");
    case PlaceKind::NothingThere:
        return tr("this note does not begin here");
    case PlaceKind::Unclear:
        return whichWayUnclear(hint);
    case PlaceKind::MovedRun:
    case PlaceKind::OctaveRun:
        break; // runText() words them
    case PlaceKind::Unwritten:
        return direction > 0   ? tr("a note is missing, higher than the one before")
               : direction < 0 ? tr("a note is missing, lower than the one before")
                               : tr("a note is missing");
    case PlaceKind::OtherTrill:
        return whichWayTrill(hint);
    case PlaceKind::MissingTrill:
        return tr("the record trills here");
    }
    return {};
}

QString howFarMissing(int semitones) {
    if (semitones == 0) return tr("a note is missing, the same as the one before");
    return (semitones > 0 ? tr("a note is missing, %1 above the one before")
                          : tr("a note is missing, %1 below the one before"))
        .arg(semitonesText(std::abs(semitones)));
}

QString howFar(const Hint& hint) {
    const int semitones = *hint.semitones;
    if (*hint.kind == PlaceKind::Unwritten) return howFarMissing(semitones);
    if (semitones == 0) return whichWay(hint);
    const bool isHigher = semitones > 0;
    const QString sentence =
        *hint.kind == PlaceKind::Unclear
            ? (isHigher ? tr("the record may be %1 higher") : tr("the record may be %1 lower"))
            : (isHigher ? tr("the record is %1 higher") : tr("the record is %1 lower"));
    return sentence.arg(semitonesText(std::abs(semitones)));
}

/// Of a note that does not begin where it is written, or may not.
QString earlierOrLater(const Hint& hint) {
    const bool isEarlier = *hint.moved < 0;
    if (hint.kind == PlaceKind::Unclear)
        return isEarlier ? tr("its pitch may begin earlier") : tr("its pitch may begin later");
    return isEarlier ? tr("the record has this note earlier") : tr("the record has this note later");
}

/// "140 ms earlier, at bar 30, beat 2½". `elsewhere` is empty where the page has no other place for it.
QString placeOf(const Hint& hint, const QString& elsewhere) {
    const double apart = hint.apart.value_or(*hint.beginsAt - hint.range.begin).value;
    const QString far =
        (apart < 0 ? tr("%1 ms earlier") : tr("%1 ms later")).arg(std::lround(1000 * std::abs(apart)));
    const QString sentence =
        hint.kind == PlaceKind::Unclear ? tr("its pitch may begin %1") : tr("the record has this note %1");
    return sentence.arg(elsewhere.isEmpty() ? far : tr("%1, at %2").arg(far, elsewhere));
}

/// What helps the ear where the check cannot.
QString advice(const Hint& hint) {
    const QString why = whichWay(hint);
    switch (hint.doubt.value_or(Doubt::Faint)) {
    case Doubt::Covered:
        return tr("%1: bring the line into focus, or listen in a band").arg(why);
    case Doubt::Beginning:
        return tr("%1: slow it down and listen for its beginning").arg(why);
    case Doubt::Short:
    case Doubt::Faint:
        return tr("%1: slow it down and go by your ear").arg(why);
    default:
        return why;
    }
}

QString nameOfHeard(const Hint& hint, const QString& heardName) {
    if (!heardName.isEmpty() || !hint.heardMidi) return heardName;
    return QString::fromStdString(toString(Pitch{*hint.heardMidi, {}}));
}

QString pitchHeard(const Hint& hint, const QString& name) {
    switch (*hint.kind) {
    case PlaceKind::Unwritten:
        return tr("the record has %1, not written yet").arg(name);
    case PlaceKind::Unclear:
        return tr("the record may have %1, but what you wrote is likelier").arg(name);
    case PlaceKind::OtherTrill:
    case PlaceKind::MissingTrill:
        return (hint.isUnsure ? tr("the record may trill up to %1") : tr("the record trills up to %1"))
            .arg(name);
    default:
        return tr("the record has %1").arg(name);
    }
}

QString told(const Hint& hint, const HintNames& names) {
    if (hint.notes > 0) return runText(hint, nameOfHeard(hint, names.heard), names.elsewhere);
    if (!hint.kind)
        return hint.isUnsure ? tr("this note is not certain, listen again") : tr("something is off");
    const QString heard = nameOfHeard(hint, names.heard);
    if (hint.mayBeBand) return heardMeanwhile(hint, heard);
    if (hint.heardMidi) return pitchHeard(hint, heard);
    if (hint.beginsAt) return placeOf(hint, names.elsewhere);
    if (hint.moved) return earlierOrLater(hint);
    if (hint.trillHeard) return howFarTrill(hint);
    if (hint.step >= HelpStep::HowFar && hint.kind == PlaceKind::NothingThere)
        return tr("this note does not begin here, it may be extra");
    if (hint.semitones) return howFar(hint);
    return hint.step >= HelpStep::HowFar && hint.kind == PlaceKind::Unclear ? advice(hint) : whichWay(hint);
}

} // namespace

QString hintText(const Hint& hint, const QString& place, const HintNames& names) {
    if (hint.step == HelpStep::None) return place;
    const QString text = told(hint, names);
    if (!place.isEmpty()) return tr("%1: %2").arg(place, text);
    return text.left(1).toUpper() + text.mid(1);
}

} // namespace earwright::ui
