// Chord symbols as MusicXML elements.
#pragma once

#include "core/music/ChordSymbol.h"

#include <cstdint>
#include <optional>
#include <pugixml.hpp>
#include <string>

namespace earwright {

/// Words with an id that begins so are a chord symbol that has no element of its own.
inline constexpr const char* symbolIdPrefix = "symbol";

/// A harmony that MusicXML has a kind for and no chord here says: its root, one of the kind-values, and the
/// text printed for it where that is another.
struct NamedHarmony {
    PitchName root;
    std::string kind;
    std::string text;
    friend bool operator==(const NamedHarmony&, const NamedHarmony&) = default;
};

/// "C(Italian)", "E♭(Tristan)", "G(other:quartal)", "C7(omit3)": what namedSymbol() makes, read back. Nothing
/// for other symbols.
std::optional<NamedHarmony> namedHarmony(const ChordSymbol& symbol);
/// Nothing where the symbol would be read as something else.
std::optional<ChordSymbol> namedSymbol(const NamedHarmony& harmony);

/// Appends the symbol, as the page's reader has it, so many divisions behind where the measure has come to;
/// `index` counts the symbols of the score.
void addSymbol(pugi::xml_node measure, const ChordSymbol& symbol, std::int64_t offset, std::size_t index);

} // namespace earwright
