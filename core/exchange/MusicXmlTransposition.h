// How a part sounds beside what its player reads.
#pragma once

#include "core/engraving/PageView.h"
#include "core/music/ChordSymbol.h"

#include <optional>
#include <pugixml.hpp>

namespace earwright {

/// What is added to what is read: letters and semitones, octaves included. A B♭ trumpet has −1 and −2.
struct Transposition {
    int letters = 0;
    int semitones = 0;

    bool isOctaves() const { return semitones % 12 == 0; }
    /// The name as it sounds; nothing where that takes more than a double accidental.
    std::optional<PitchName> sounding(const PitchName& read) const;
    /// Of two names for one key the one with fewer accidentals.
    KeySignature sounding(const KeySignature& read) const;
    /// For what is read under a key: where that key sounds as its other name says, so do notes and chords.
    Transposition under(const KeySignature& read) const;
    /// The reading with these semitones, octaves aside; nothing for other instruments.
    std::optional<Reading> reading() const;
};

/// Of what is read so.
Transposition transpositionOf(Reading reading);

/// Appends `transpose` for a reading that is not at concert pitch.
void addTransposition(pugi::xml_node attributes, Reading reading);
/// From a `transpose` element. Where it does not say how many letters the interval has, the usual number.
Transposition transpositionIn(pugi::xml_node transpose);

} // namespace earwright
