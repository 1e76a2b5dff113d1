#include "ui/grid/MarkWords.h"

#include <QCoreApplication>
#include <QStringList>

namespace earwright::ui {

namespace {

QString said(const char* text) {
    return QCoreApplication::translate("MarkWords", text);
}

#define SAID(text) said(QT_TRANSLATE_NOOP("MarkWords", text))

/// Of 1 to 8 quarter tones.
QString intervalText(int quarterTones) {
    switch (quarterTones) {
    case 1:
        return SAID("a quarter tone");
    case 2:
        return SAID("a semitone");
    case 4:
        return SAID("a whole tone");
    case 6:
        return SAID("a tone and a half");
    case 8:
        return SAID("two tones");
    default:
        return SAID("%1 quarter tones").arg(quarterTones);
    }
}

QString slideText(const Phrasing& phrasing) {
    QStringList words;
    if (phrasing.slideIn)
        words << (phrasing.slideIn == SlideFrom::Below ? SAID("slide in from below")
                                                       : SAID("slide in from above"));
    if (phrasing.slideOut)
        words << (phrasing.slideOut == SlideTo::Up ? SAID("slide out upwards") : SAID("slide out downwards"));
    return words.join(QStringLiteral(", "));
}

QString bendWords(const Bend& bend) {
    const QString depth = intervalText(bend.quarterTones);
    switch (bend.shape) {
    case BendShape::Up:
        return SAID("bend up %1").arg(depth);
    case BendShape::UpAndDown:
        return SAID("bend up %1 and release").arg(depth);
    case BendShape::PrebentHeld:
        return SAID("bent up %1 before, held").arg(depth);
    case BendShape::PrebentDown:
        return SAID("bent up %1 before, let down").arg(depth);
    }
    return {};
}

QString graceText(const std::vector<int>& pitches) {
    QStringList names;
    for (const int midi : pitches)
        names << QString::fromStdString(toString(Pitch{midi, {}}));
    return (pitches.size() == 1 ? SAID("grace note %1") : SAID("grace notes %1"))
        .arg(names.join(QLatin1Char(' ')));
}

} // namespace

std::vector<MarkGroup> markGroups() {
    using enum PhrasingKind;
    return {{SAID("Attack"), {Slur, PickedInSlur, HammerPull, Ghost}},
            {SAID("Movement of pitch"), {Slide, SlideOn, PhrasingKind::Bend, Scoop, Fall, Vibrato}},
            {SAID("Ornament"), {Grace, Trill, PhrasingKind::Turn, PhrasingKind::Mordent}},
            {SAID("Weight and length"), {Accent, Staccato, Tenuto, LetRing}}};
}

CommandId commandFor(PhrasingKind kind) {
    switch (kind) {
    case PhrasingKind::Slur:
        return CommandId::Slur;
    case PhrasingKind::PickedInSlur:
        return CommandId::PickedInSlur;
    case PhrasingKind::HammerPull:
        return CommandId::HammerPull;
    case PhrasingKind::Ghost:
        return CommandId::Ghost;
    case PhrasingKind::Slide:
        return CommandId::Slide;
    case PhrasingKind::SlideOn:
        return CommandId::SlideOn;
    case PhrasingKind::Bend:
        return CommandId::BendNote;
    case PhrasingKind::Scoop:
        return CommandId::Scoop;
    case PhrasingKind::Fall:
        return CommandId::Fall;
    case PhrasingKind::Vibrato:
        return CommandId::Vibrato;
    case PhrasingKind::Grace:
        return CommandId::Grace;
    case PhrasingKind::Trill:
        return CommandId::Trill;
    case PhrasingKind::Turn:
        return CommandId::TurnNote;
    case PhrasingKind::Mordent:
        return CommandId::MordentNote;
    case PhrasingKind::Accent:
        return CommandId::Accent;
    case PhrasingKind::Staccato:
        return CommandId::Staccato;
    case PhrasingKind::Tenuto:
        return CommandId::Tenuto;
    case PhrasingKind::LetRing:
        return CommandId::LetRing;
    }
    return CommandId::Accent;
}

QString markName(PhrasingKind kind) {
    switch (kind) {
    case PhrasingKind::Slur:
        return SAID("slur");
    case PhrasingKind::PickedInSlur:
        return SAID("picked in the slur");
    case PhrasingKind::HammerPull:
        return SAID("hammer-on or pull-off");
    case PhrasingKind::Ghost:
        return SAID("ghost note");
    case PhrasingKind::Slide:
        return SAID("slide");
    case PhrasingKind::SlideOn:
        return SAID("slide to the next note");
    case PhrasingKind::Bend:
        return SAID("bend");
    case PhrasingKind::Scoop:
        return SAID("scoop");
    case PhrasingKind::Fall:
        return SAID("fall");
    case PhrasingKind::Vibrato:
        return SAID("vibrato");
    case PhrasingKind::Grace:
        return SAID("grace note");
    case PhrasingKind::Trill:
        return SAID("trill");
    case PhrasingKind::Turn:
        return SAID("turn");
    case PhrasingKind::Mordent:
        return SAID("mordent");
    case PhrasingKind::Accent:
        return SAID("accent");
    case PhrasingKind::Staccato:
        return SAID("staccato");
    case PhrasingKind::Tenuto:
        return SAID("tenuto");
    case PhrasingKind::LetRing:
        return SAID("let ring");
    }
    return {};
}

QString markText(const Note& note, PhrasingKind kind) {
    const Phrasing& phrasing = note.phrasing;
    if (!carries(phrasing, kind)) return {};
    switch (kind) {
    case PhrasingKind::Slide:
        return slideText(phrasing);
    case PhrasingKind::Bend:
        return bendWords(*phrasing.bend);
    case PhrasingKind::Grace:
        return graceText(phrasing.graceNotes);
    case PhrasingKind::Trill:
        return SAID("trill, %1").arg(intervalText(2 * *phrasing.trill));
    case PhrasingKind::Turn:
        return phrasing.turn == Turn::FromAbove ? SAID("turn from above") : SAID("turn from below");
    case PhrasingKind::Mordent:
        return phrasing.mordent == Mordent::Lower ? SAID("mordent, lower note") : SAID("mordent, upper note");
    case PhrasingKind::HammerPull:
        return phrasing.slurBy == SlurBy::HammerOn ? SAID("hammered on") : SAID("pulled off");
    default:
        return markName(kind);
    }
}

QString marksText(const Note& note) {
    QStringList words;
    for (const PhrasingKind kind : allPhrasingKinds)
        if (const QString text = markText(note, kind); !text.isEmpty()) words << text;
    return words.join(QStringLiteral(", "));
}

#undef SAID

} // namespace earwright::ui
