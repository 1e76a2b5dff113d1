// A chord in the words of MusicXML: a kind and changes to its degrees.
#pragma once

#include "core/music/ChordSymbol.h"

#include <string>
#include <vector>

namespace earwright {

/// One `degree` element: type is "add" or "alter". An added degree is altered against a dominant chord, whose
/// seventh is minor (MusicXML 4.0, degree-alter).
struct HarmonyDegree {
    int value = 9;
    int alter = 0;
    std::string type;
    friend bool operator==(const HarmonyDegree&, const HarmonyDegree&) = default;
};

/// Kind as in MusicXML 4.0's kind-value, and the degrees that make it this chord. Threads: any.
struct HarmonyKind {
    std::string kind;
    std::vector<HarmonyDegree> degrees;
};
HarmonyKind harmonyKind(const Chord& chord);

} // namespace earwright
