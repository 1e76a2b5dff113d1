#include "core/music/PhrasingKind.h"

namespace earwright {

bool carries(const Phrasing& phrasing, PhrasingKind kind) {
    using enum PhrasingKind;
    switch (kind) {
    case Slur:
        return phrasing.slurred;
    case PickedInSlur:
        return phrasing.pickedInSlur;
    case HammerPull:
        return phrasing.slurBy.has_value();
    case Ghost:
        return phrasing.ghosted;
    case Slide:
        return phrasing.slideIn || phrasing.slideOut;
    case SlideOn:
        return phrasing.slidesToNext;
    case PhrasingKind::Bend:
        return phrasing.bend.has_value();
    case Scoop:
        return phrasing.scoop;
    case Fall:
        return phrasing.fall;
    case Vibrato:
        return phrasing.vibrato;
    case Grace:
        return !phrasing.graceNotes.empty();
    case Trill:
        return phrasing.trill.has_value();
    case PhrasingKind::Turn:
        return phrasing.turn.has_value();
    case PhrasingKind::Mordent:
        return phrasing.mordent.has_value();
    case Accent:
        return phrasing.accented;
    case Staccato:
        return phrasing.staccato;
    case Tenuto:
        return phrasing.tenuto;
    case LetRing:
        return phrasing.letRing;
    }
    return false;
}

bool hasValue(PhrasingKind kind) {
    using enum PhrasingKind;
    return kind == Slide || kind == PhrasingKind::Bend || kind == Grace || kind == Trill ||
           kind == PhrasingKind::Turn || kind == PhrasingKind::Mordent || kind == HammerPull;
}

} // namespace earwright
