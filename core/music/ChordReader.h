// Takes a chord symbol apart, from root to bass.
#pragma once

#include "core/music/ChordSymbol.h"

#include <initializer_list>
#include <optional>
#include <string_view>
#include <vector>

namespace earwright {

/// What "alt" stands for: both altered fifths and both altered ninths (common practice).
std::vector<Alteration> alteredDominant();

/// Reads one symbol once; blanks are let pass inside parentheses. Each step takes what it knows from the
/// front of what is left; a step that meets what it cannot read makes the whole symbol unreadable.
class ChordReader {
public:
    explicit ChordReader(std::string_view symbol) : rest(symbol) {}

    /// The chord, or nothing where any part of the symbol cannot be read.
    std::optional<Chord> read();

private:
    /// The word after the root.
    enum class Stem {
        None,
        Dominant,
        Major,
        Triangle,
        Minor,
        MinorMajor,
        Diminished,
        HalfDiminished,
        Augmented,
        AugmentedMajor
    };

    bool take(std::string_view word);
    bool takeAny(std::initializer_list<std::string_view> words);
    std::optional<PitchName> takeName();
    std::optional<int> takeDegree(std::initializer_list<int> degrees);
    bool takeMajorWord();
    Stem takeStem();
    /// True if a major seventh follows a stem, as in m(maj7) or +Δ7.
    bool takeMajorSeventh();
    bool takeExtension(Stem stem);
    bool applyStem(Stem stem);
    bool takeModifier();
    bool takeAlteration();
    bool addDegree(std::optional<int> degree);
    bool addAlteration(int degree, int alter);
    bool suspend(ChordQuality suspended);
    bool takeBass();
    /// One way of writing for each chord: m7♭5 is half-diminished, a triad with ♯5 augmented.
    void settle();
    bool isSound() const;

    std::string_view rest;
    Chord chord;
    /// 0 until the symbol names one.
    int number = 0;
    int openParentheses = 0;
};

} // namespace earwright
