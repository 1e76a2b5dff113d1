// The marks of phrasing by name, for whoever offers, sets, draws or tells them one by one.
#pragma once

#include "core/music/Note.h"

#include <array>

namespace earwright {

/// One kind of mark each. Slide is into or out of the note, SlideOn to the next one; HammerPull says how a
/// slur is made.
enum class PhrasingKind {
    Slur,
    PickedInSlur,
    HammerPull,
    Ghost,
    Slide,
    SlideOn,
    Bend,
    Scoop,
    Fall,
    Vibrato,
    Grace,
    Trill,
    Turn,
    Mordent,
    Accent,
    Staccato,
    Tenuto,
    LetRing
};

inline constexpr std::array allPhrasingKinds{
    PhrasingKind::Slur,   PhrasingKind::PickedInSlur, PhrasingKind::HammerPull, PhrasingKind::Ghost,
    PhrasingKind::Slide,  PhrasingKind::SlideOn,      PhrasingKind::Bend,       PhrasingKind::Scoop,
    PhrasingKind::Fall,   PhrasingKind::Vibrato,      PhrasingKind::Grace,      PhrasingKind::Trill,
    PhrasingKind::Turn,   PhrasingKind::Mordent,      PhrasingKind::Accent,     PhrasingKind::Staccato,
    PhrasingKind::Tenuto, PhrasingKind::LetRing};

/// The note is played so.
bool carries(const Phrasing& phrasing, PhrasingKind kind);

/// The mark is more than there or not: it goes from or to somewhere, or so far (stepValue in
/// PhrasingEdits.h).
bool hasValue(PhrasingKind kind);

} // namespace earwright
