#include "core/theory/LineSpelling.h"

#include "core/music/PitchNames.h"
#include "core/theory/ChordDegree.h"

#include <algorithm>
#include <cstdlib>

namespace earwright {

namespace {

/// What a note goes on to by a semitone.
struct Goal {
    int midi = 60;
    PitchName name;
};

bool isOneOff(int a, int b) {
    return std::abs(a - b) == 1;
}

/// The pitch on a letter counted from C, beyond the octave too; nothing beyond a double accidental.
std::optional<PitchName> nameOn(int letter, int midi) {
    const auto step = static_cast<Step>(((letter % 7) + 7) % 7);
    int alter = pitchClassOf(midi - PitchName{step, 0}.pitchClass());
    if (alter > 6) alter -= 12;
    if (std::abs(alter) > 2) return std::nullopt;
    return PitchName{step, alter};
}

/// A black key raised or lowered; white keys keep the name.
PitchName blackKeyOr(const PitchName& name, int midi, int alter) {
    for (const PitchName& other : namesOf(midi))
        if (other.alter == alter && !isWhiteWithAccidental(other)) return other;
    return name;
}

/// The triad on the key's first note.
Chord tonicOf(const KeySignature& key) {
    Chord chord;
    chord.root = key.tonic();
    if (key.mode == Mode::Minor) chord.quality = ChordQuality::Minor;
    return chord;
}

/// Of the major scale.
bool isNaturalDegree(int semitones) {
    constexpr unsigned scale = 0b1010'1011'0101;
    return (scale >> semitones & 1U) != 0;
}

std::optional<PitchName> keyName(int midi, const KeySignature& key) {
    for (const PitchName& name : namesOf(midi))
        if (key.alterOf(name.step) == name.alter) return name;
    return std::nullopt;
}

/// Another pitch on that letter is a tone of the chord.
bool isTaken(const PitchName& name, const Chord& chord) {
    const std::vector<int> tones = chord.intervals();
    return std::any_of(tones.begin(), tones.end(), [&](int tone) {
        const PitchName other = degreeOf(chord.root.pitchClass() + tone, chord).name;
        return other.step == name.step && other != name;
    });
}

class Speller {
public:
    explicit Speller(const std::vector<LineNote>& notes) : line(notes), names(notes.size()) {}

    std::vector<LineName> spell() {
        // From behind, since a chromatic note is called after what it goes on to.
        for (std::size_t i = line.size(); i-- > 0;) {
            const PitchName name = withoutDoubles(nameAt(i));
            names[i] = {line[i].wish.value_or(name), name};
        }
        return std::move(names);
    }

private:
    PitchName nameAt(std::size_t index) const {
        const LineNote& note = line[index];
        const Chord chord = note.chord.value_or(tonicOf(note.key));
        const ChordDegree degree = degreeOf(note.midi, chord);
        if (note.chord && degree.isChordTone) return chordTone(note.midi, chord, degree);
        const auto goal = goalOf(index);
        const auto led = goal ? ledTo(*goal, note.midi) : std::nullopt;
        const auto inKey = keyName(note.midi, note.key);
        if (inKey && !(note.chord && isTaken(*inKey, chord))) return *inKey;
        const int semitones = pitchClassOf(note.midi - chord.root.pitchClass());
        if (isNaturalDegree(semitones) && isReadable(degree.name, note.key, led)) return degree.name;
        if (led && isReadable(*led, note.key, degree.name)) return *led;
        if (!note.chord && !led) return arrived(index, degree.name);
        return isReadable(degree.name, note.key, led) ? degree.name : withoutAccidental(degree.name);
    }

    static PitchName chordTone(int midi, const Chord& chord, const ChordDegree& degree) {
        const bool isBass = chord.bass && chord.bass->pitchClass() == pitchClassOf(midi);
        return isBass ? *chord.bass : degree.name;
    }

    /// The letter next to the goal's; nothing where that takes a double accidental.
    static std::optional<PitchName> ledTo(const Goal& goal, int midi) {
        const int letter = static_cast<int>(goal.name.step) + (goal.midi > midi ? -1 : 1);
        const auto name = nameOn(letter, midi);
        return name && std::abs(name->alter) < 2 ? name : std::nullopt;
    }

    /// A white key with an accidental reads well where the key has it, or another reason names it so; a flat
    /// one where nothing speaks against it.
    static bool isReadable(const PitchName& name, const KeySignature& key,
                           const std::optional<PitchName>& otherReason) {
        if (!isWhiteWithAccidental(name) || key.alterOf(name.step) == name.alter) return true;
        return otherReason ? *otherReason == name : name.alter < 0;
    }

    static PitchName withoutAccidental(const PitchName& name) {
        return isWhiteWithAccidental(name) ? plainName(name.pitchClass()) : name;
    }

    PitchName arrived(std::size_t index, const PitchName& otherwise) const {
        const int midi = line[index].midi;
        for (std::size_t i = index; i-- > 0;) {
            if (line[i].moment == line[index].moment || line[i].midi == midi) continue;
            if (!isOneOff(line[i].midi, midi)) break;
            return blackKeyOr(otherwise, midi, line[i].midi < midi ? 1 : -1);
        }
        return otherwise;
    }

    /// Where the next moment with another pitch begins, and where it ends.
    std::pair<std::size_t, std::size_t> nextMoment(std::size_t from, int midi) const {
        std::size_t begin = from;
        std::size_t end = from;
        while (begin < line.size()) {
            while (end < line.size() && line[end].moment == line[begin].moment)
                ++end;
            if (end - begin > 1 || line[begin].midi != midi) break;
            begin = end;
        }
        return {begin, end};
    }

    std::optional<Goal> goalOf(std::size_t index) const {
        const int midi = line[index].midi;
        std::size_t behind = index;
        while (behind < line.size() && line[behind].moment == line[index].moment)
            ++behind;
        const auto [begin, end] = nextMoment(behind, midi);
        for (std::size_t i = begin; i < end; ++i)
            if (isOneOff(line[i].midi, midi)) return Goal{line[i].midi, names[i].name};
        if (end - begin != 1) return std::nullopt;
        return goalAround(midi, begin, end);
    }

    /// D♭ to B and then C: the two lie around their goal.
    std::optional<Goal> goalAround(int midi, std::size_t between, std::size_t from) const {
        if (from >= line.size() || !isOneOff(line[from].midi, midi)) return std::nullopt;
        const int goal = line[from].midi;
        const int other = line[between].midi;
        const bool isAround = (other - goal) * (midi - goal) < 0 && std::abs(other - goal) <= 2;
        return isAround ? std::optional(Goal{goal, names[from].name}) : std::nullopt;
    }

    const std::vector<LineNote>& line;
    std::vector<LineName> names;
};

} // namespace

std::vector<LineName> spelledLine(const std::vector<LineNote>& line) {
    return Speller(line).spell();
}

} // namespace earwright
