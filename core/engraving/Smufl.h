// The glyphs of music that a page here is set with, by the names and code points of SMuFL 1.4 (W3C Music
// Notation Community Group).
#pragma once

#include <span>
#include <string_view>

namespace earwright {

enum class Smufl : char32_t {
    BarlineSingle = 0xE030,
    RepeatDot = 0xE044,
    GClef = 0xE050,
    GClef8vb = 0xE052,
    FClef = 0xE062,
    SixStringTabClef = 0xE06D,
    FourStringTabClef = 0xE06E,
    TimeSig0 = 0xE080,
    NoteheadWhole = 0xE0A2,
    NoteheadHalf = 0xE0A3,
    NoteheadBlack = 0xE0A4,
    NoteheadParenthesisLeft = 0xE0F5,
    NoteheadParenthesisRight = 0xE0F6,
    NoteheadSlash = 0xE101,
    AugmentationDot = 0xE1E7,
    Flag8thUp = 0xE240,
    Flag8thDown = 0xE241,
    Flag16thUp = 0xE242,
    Flag16thDown = 0xE243,
    Flag32ndUp = 0xE244,
    Flag32ndDown = 0xE245,
    Flag64thUp = 0xE246,
    Flag64thDown = 0xE247,
    Flag128thUp = 0xE248,
    Flag128thDown = 0xE249,
    Flag256thUp = 0xE24A,
    Flag256thDown = 0xE24B,
    Flag512thUp = 0xE24C,
    Flag512thDown = 0xE24D,
    Flag1024thUp = 0xE24E,
    Flag1024thDown = 0xE24F,
    AccidentalFlat = 0xE260,
    AccidentalNatural = 0xE261,
    AccidentalSharp = 0xE262,
    AccidentalDoubleSharp = 0xE263,
    AccidentalDoubleFlat = 0xE264,
    AccidentalParensLeft = 0xE26A,
    AccidentalParensRight = 0xE26B,
    ArticAccentAbove = 0xE4A0,
    ArticAccentBelow = 0xE4A1,
    ArticStaccatoAbove = 0xE4A2,
    ArticStaccatoBelow = 0xE4A3,
    ArticTenutoAbove = 0xE4A4,
    ArticTenutoBelow = 0xE4A5,
    RestWhole = 0xE4E3,
    RestHalf = 0xE4E4,
    RestQuarter = 0xE4E5,
    Rest8th = 0xE4E6,
    Rest16th = 0xE4E7,
    Rest32nd = 0xE4E8,
    Rest64th = 0xE4E9,
    Rest128th = 0xE4EA,
    Rest256th = 0xE4EB,
    Rest512th = 0xE4EC,
    Rest1024th = 0xE4ED,
    DynamicPiano = 0xE520,
    DynamicForte = 0xE522,
    DynamicPPP = 0xE52A,
    DynamicPP = 0xE52B,
    DynamicMP = 0xE52C,
    DynamicMF = 0xE52D,
    DynamicFF = 0xE52F,
    DynamicFFF = 0xE530,
    DynamicSforzato = 0xE539,
    GraceNoteSlashStemUp = 0xE564,
    OrnamentTrill = 0xE566,
    OrnamentTurn = 0xE567,
    OrnamentTurnInverted = 0xE568,
    OrnamentShortTrill = 0xE56C,
    OrnamentMordent = 0xE56D,
    BrassScoop = 0xE5D0,
    BrassDoitShort = 0xE5D4,
    BrassFallLipShort = 0xE5D7,
    BrassFallLipMedium = 0xE5D8,
    StringsDownBow = 0xE610,
    CsymDiminished = 0xE870,
    CsymHalfDiminished = 0xE871,
    CsymMajorSeventh = 0xE873,
    Tuplet0 = 0xE880,
    WiggleTrill = 0xEAA4,
    WiggleVibrato = 0xEAB0,
    MetNoteHalfUp = 0xECA3,
    MetNoteQuarterUp = 0xECA5,
    MetNote8thUp = 0xECA7,
    MetNote16thUp = 0xECA9,
    MetNote32ndUp = 0xECAB,
    MetAugmentationDot = 0xECB7,
    CsymAccidentalFlat = 0xED60,
    CsymAccidentalNatural = 0xED61,
    CsymAccidentalSharp = 0xED62,
    CsymAccidentalDoubleSharp = 0xED63,
    CsymAccidentalDoubleFlat = 0xED64,
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
