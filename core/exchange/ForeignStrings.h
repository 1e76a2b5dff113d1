// The strings and frets that a page from elsewhere says its notes are played on.
#pragma once

#include "core/engraving/TabPlace.h"
#include "core/exchange/Imported.h"

#include <optional>
#include <pugixml.hpp>
#include <vector>

namespace earwright {

/// The string and fret of a MusicXML note; nothing where it does not say both.
std::optional<TabPlace> tabPlaceIn(pugi::xml_node note);

/// The strings of a MusicXML part, from the first `staff-details` that has them: the part's own, or, for
/// one that says strings, those of the only part with any. Lines are counted from the bottom (MusicXML 4.0,
/// staff-tuning).
std::optional<StringTuning> tuningIn(pugi::xml_node part);

/// Gives the study the tuning that its file states, or else the one that the notes' strings and frets agree
/// in, and says in `leftOut` where they go with neither. Notes keep the places that go with it.
void settleTuning(Imported& imported, std::vector<ForeignNote>& notes,
                  const std::optional<StringTuning>& stated);

/// Takes the pins off notes that tablature finds the same place for by itself: they are nobody's wish.
/// Requires: isPlayable(study.tuning).
void loosenPins(Study& study);

} // namespace earwright
