// How the pitch of a note moves while it sounds, in semitones from the written one.
#pragma once

#include "core/music/Note.h"

#include <vector>

namespace earwright {

/// A place of the note, from 0 (its onset) to 1 (its end), and how far it is from the written pitch there.
struct GlidePoint {
    double at = 0;
    double semitones = 0;
};

/// Points in order, to be joined by lines, for a note that lasts so long; empty where its pitch stays.
/// `toNext`: semitones to the note a slide leads to, 0 where there is none. Slides come from, and go to, a
/// whole tone away; a scoop comes from a semitone below and a fall goes down a fifth, as the string voice
/// plays them. A vibrato swings by a third of a semitone, five and a half times a second (common practice).
std::vector<GlidePoint> pitchGlide(const Phrasing& phrasing, int toNext, double seconds);

/// How far it can go in either direction.
inline constexpr int widestGlide = 12;

} // namespace earwright
