// The signs a note of a MusicXML page has of its own.
#pragma once

#include "core/engraving/PageBars.h"
#include "core/music/KeySignature.h"
#include "core/music/Note.h"

#include <pugixml.hpp>

namespace earwright {

/// Appends `<name type="type"/>`.
void addMark(pugi::xml_node parent, const char* name, const char* type);

/// Of an accidental that adds −2 to 3 semitones: "flat", "triple-sharp".
const char* accidentalName(int alter);

/// Says of a note under a slur that it is picked (other-technical).
inline constexpr const char* pickedWord = "picked";
/// Says of a note of a double stop that it is struck anew though its neighbour is slurred.
inline constexpr const char* struckWord = "struck";

/// Says of a note of a double stop that it has no signs of the first one's, only those it names.
inline constexpr const char* ownSignsWord = "own signs";

/// What a trill's upper note is named by, as the page's reader has it: the note, their key, and how the bar
/// alters the letter above the note so far.
struct TrillPlace {
    PitchName name;
    KeySignature key;
    int standing = 0;
    /// Other notes of the chord have the trill as well, each up to the next note of the key.
    bool isByKey = false;
};

/// Whether a trill of so many semitones goes to the next note of the key.
bool goesByKey(int semitones, const TrillPlace& place);

/// Ornaments, articulations, bends and let-ring ties, each at the piece of the note where it belongs: signs
/// of the beginning at the first, of the end at the last. MusicXML 4.0 has scoop, plop, doit and
/// falloff for slides and for what the breath does; straight ones are slides here, curved ones the breath's.
/// Threads: any.
void addPhrasing(pugi::xml_node notations, const PagePiece& piece, const Phrasing& phrasing,
                 const TrillPlace& place);
/// The same of what tablature shows: bends.
void addTabPhrasing(pugi::xml_node notations, const PagePiece& piece, const Phrasing& phrasing);

} // namespace earwright
