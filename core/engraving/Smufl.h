// The glyphs of music that a page here is set with, by the names and code points of SMuFL 1.4 (W3C Music
// Notation Community Group).
#pragma once

#include <span>
#include <string_view>

namespace earwright {

enum class Smufl : char32_t {
    BarlineSingle = 0xE030,
    GClef = 0xE050,
    FClef = 0xE062,
    SixStringTabClef = 0xE06D,
    TimeSig0 = 0xE080,
    NoteheadWhole = 0xE0A2,
    NoteheadHalf = 0xE0A3,
    NoteheadBlack = 0xE0A4,
    NoteheadParenthesisLeft = 0xE0F5,
    NoteheadParenthesisRight = 0xE0F6,
    AugmentationDot = 0xE1E7,
    MetNoteQuarterUp = 0xECA5,
    Flag8thUp = 0xE240,
    Flag8thDown = 0xE241,
    Flag16thUp = 0xE242,
    Flag16thDown = 0xE243,
    Flag32ndUp = 0xE244,
    Flag32ndDown = 0xE245,
    Flag64thUp = 0xE246,
    Flag64thDown = 0xE247,
    AccidentalFlat = 0xE260,
    AccidentalNatural = 0xE261,
    AccidentalSharp = 0xE262,
    AccidentalDoubleSharp = 0xE263,
    AccidentalDoubleFlat = 0xE264,
    ArticAccentAbove = 0xE4A0,
    ArticAccentBelow = 0xE4A1,
    RestWhole = 0xE4E3,
    RestHalf = 0xE4E4,
    RestQuarter = 0xE4E5,
    Rest8th = 0xE4E6,
    Rest16th = 0xE4E7,
    Rest32nd = 0xE4E8,
    Rest64th = 0xE4E9,
    OrnamentTrill = 0xE566,
    GraceNoteSlashStemUp = 0xE564,
    BrassScoop = 0xE5D0,
    Tuplet0 = 0xE880,
    WiggleTrill = 0xEAA4,
};

/// Its canonical name, "noteheadBlack": how a font's metadata calls it. Digits (TimeSig0 + n, Tuplet0 + n)
/// are named too; anything else has an empty name.
std::string_view smuflName(Smufl glyph);

/// All of them, without the digits.
std::span<const Smufl> smuflGlyphs();

/// The digit 0 to 9 of a row of digits that starts with `zero`.
constexpr Smufl digitOf(Smufl zero, int digit) {
    return static_cast<Smufl>(static_cast<char32_t>(zero) + static_cast<char32_t>(digit));
}

} // namespace earwright
