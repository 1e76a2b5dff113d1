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

/// A minor key has its sixth and seventh degree raised as well, where that takes a single sign.
bool isRaised(const PitchName& name, const KeySignature& key) {
    const int degree = (static_cast<int>(name.step) - static_cast<int>(key.tonic().step) + 7) % 7 + 1;
    return key.mode == Mode::Minor && degree >= 6 && name.alter == key.alterOf(name.step) + 1 &&
           name.alter < 2;
}

std::optional<PitchName> keyName(int midi, const KeySignature& key) {
    std::optional<PitchName> raised;
    for (const PitchName& name : namesOf(midi)) {
        if (key.alterOf(name.step) == name.alter) return name;
        if (isRaised(name, key)) raised = name;
    }
    return raised;
}

/// Another pitch on that letter is a tone of the chord.
bool isTaken(const PitchName& name, const Chord& chord) {
    const std::vector<int> tones = chord.intervals();
    return std::any_of(tones.begin(), tones.end(), [&](int tone) {
        const PitchName other = degreeOf(chord.root.pitchClass() + tone, chord).name;
        return other.step == name.step && other != name;
    });
}

/// What sounds together: indexes of its first note and behind its last.
struct Moment {
    std::size_t begin = 0;
    std::size_t end = 0;
    /// Of one note alone: the next moment that is not that pitch alone again.
    std::size_t next = 0;
};

std::vector<Moment> momentsOf(const std::vector<LineNote>& line) {
    std::vector<Moment> moments;
    for (std::size_t i = 0; i < line.size(); ++i) {
        if (i == 0 || line[i].moment != line[i - 1].moment) moments.push_back({i, i, 0});
        moments.back().end = i + 1;
    }
    for (std::size_t i = moments.size(); i-- > 0;) {
        const auto isAlone = [&](std::size_t at) { return moments[at].end - moments[at].begin == 1; };
        const bool goesOn = i + 1 < moments.size() && isAlone(i) && isAlone(i + 1) &&
                            line[moments[i].begin].midi == line[moments[i + 1].begin].midi;
        moments[i].next = goesOn ? moments[i + 1].next : i + 1;
    }
    return moments;
}

/// For each note the last other pitch before what sounds with it.
std::vector<std::optional<int>> pitchesBefore(const std::vector<LineNote>& line,
                                              const std::vector<Moment>& moments) {
    std::vector<std::optional<int>> before;
    std::optional<int> last;
    std::optional<int> lastOther;
    for (const Moment& moment : moments) {
        for (std::size_t i = moment.begin; i < moment.end; ++i)
            before.push_back(last == line[i].midi ? lastOther : last);
        for (std::size_t i = moment.begin; i < moment.end; ++i) {
            if (last != line[i].midi) lastOther = last;
            last = line[i].midi;
        }
    }
    return before;
}

/// In time that grows with the line, however often a pitch is repeated.
class Speller {
public:
    explicit Speller(const std::vector<LineNote>& notes)
        : line(notes),
          moments(momentsOf(notes)),
          before(pitchesBefore(notes, moments)),
          names(notes.size()) {}

    std::vector<LineName> spell() {
        // From behind, since a chromatic note is called after what it goes on to.
        for (std::size_t moment = moments.size(); moment-- > 0;)
            for (std::size_t i = moments[moment].end; i-- > moments[moment].begin;) {
                const PitchName name = besideNext(withoutDoubles(nameAt(i, moment)), line[i], moment);
                names[i] = {line[i].wish.value_or(name), name};
            }
        return std::move(names);
    }

private:
    PitchName nameAt(std::size_t index, std::size_t moment) const {
        const LineNote& note = line[index];
        const Chord chord = note.chord.value_or(tonicOf(note.key));
        const ChordDegree degree = degreeOf(note.midi, chord);
        const auto inKey = keyName(note.midi, note.key);
        const auto goal = goalOf(note.midi, moment);
        const auto led = goal ? ledTo(*goal, note.midi) : std::nullopt;
        if (note.chord && degree.isChordTone) return chordTone(note, degree, inKey, led);
        const bool isOfKeysLine = inKey == led || (!led && goesOnInKey(note, moment));
        if (inKey && (isOfKeysLine || !(note.chord && isTaken(*inKey, chord)))) return *inKey;
        const int semitones = pitchClassOf(note.midi - chord.root.pitchClass());
        if (isNaturalDegree(semitones) && isReadable(degree.name, note.key, led)) return degree.name;
        if (led && isReadable(*led, note.key, degree.name)) return *led;
        if (!note.chord && !led) return arrived(index, degree.name);
        return isReadable(degree.name, note.key, led) ? degree.name : withoutAccidental(degree.name);
    }

    /// "alt" alters ninth and fifth and leaves their names to the key; a flat key's lie in its minor,
    /// lowered.
    static PitchName chordTone(const LineNote& note, const ChordDegree& degree,
                               const std::optional<PitchName>& inKey, const std::optional<PitchName>& led) {
        const Chord& chord = *note.chord;
        if (chord.bass && chord.bass->pitchClass() == pitchClassOf(note.midi)) return *chord.bass;
        const int semitones = pitchClassOf(note.midi - chord.root.pitchClass());
        const bool isOfAlt = semitones == 1 || semitones == 3 || semitones == 6 || semitones == 8;
        if (!isAltered(chord) || !isOfAlt) return degree.name;
        if (inKey) return *inKey;
        if (note.key.fifths >= 0) return degree.name;
        return led && !isWhiteWithAccidental(*led) ? *led : blackKeyOr(degree.name, note.midi, -1);
    }

    /// No whole tone is written on one letter: B♭ and not A♯ before A♭. Nor does a white key with an
    /// accidental turn back on its letter: C and not B♯ before B.
    PitchName besideNext(const PitchName& name, const LineNote& note, std::size_t moment) const {
        const std::size_t other = otherBehind(moment, note.midi);
        if (other == moments.size() || moments[other].end - moments[other].begin != 1) return name;
        const std::size_t next = moments[other].begin;
        if (names[next].name.step != name.step) return name;
        const int rise = line[next].midi - note.midi;
        if (std::abs(rise) == 2) return blackKeyOr(withoutAccidental(name), note.midi, -name.alter);
        const bool isOfKey = note.key.alterOf(name.step) == name.alter;
        return rise == -name.alter && !isOfKey ? withoutAccidental(name) : name;
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
        if (!before[index] || !isOneOff(*before[index], midi)) return otherwise;
        const bool rises = *before[index] < midi;
        if (rises && otherwise.alter < 0) return blackKeyOr(withoutAccidental(otherwise), midi, 1);
        return blackKeyOr(otherwise, midi, rises ? 1 : -1);
    }

    /// The next moment that is more than this pitch alone.
    std::size_t otherBehind(std::size_t moment, int midi) const {
        const std::size_t next = moment + 1;
        if (next == moments.size()) return next;
        const bool isAgain =
            moments[next].end - moments[next].begin == 1 && line[moments[next].begin].midi == midi;
        return isAgain ? moments[next].next : next;
    }

    std::optional<Goal> goalOf(int midi, std::size_t moment) const {
        const std::size_t other = otherBehind(moment, midi);
        if (other == moments.size()) return std::nullopt;
        const Moment& next = moments[other];
        for (std::size_t i = next.begin; i < next.end; ++i)
            if (isOneOff(line[i].midi, midi)) return Goal{line[i].midi, names[i].name};
        if (next.end - next.begin != 1) return std::nullopt;
        return goalAround(midi, next.begin, next.end);
    }

    /// By a whole tone to what is called as the key has it.
    bool goesOnInKey(const LineNote& note, std::size_t moment) const {
        const std::size_t other = otherBehind(moment, note.midi);
        if (other == moments.size()) return false;
        for (std::size_t i = moments[other].begin; i < moments[other].end; ++i)
            if (std::abs(line[i].midi - note.midi) == 2 && keyName(line[i].midi, note.key) == names[i].name)
                return true;
        return false;
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
    std::vector<Moment> moments;
    std::vector<std::optional<int>> before;
    std::vector<LineName> names;
};

} // namespace

std::vector<LineName> spelledLine(const std::vector<LineNote>& line) {
    return Speller(line).spell();
}

} // namespace earwright
