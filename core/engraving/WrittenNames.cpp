#include "core/engraving/WrittenNames.h"

#include <algorithm>
#include <iterator>

namespace earwright {

namespace {

/// Which note, and which of its grace notes; none for the note itself.
struct Origin {
    NoteId note;
    std::optional<std::size_t> grace;
};

/// The line as one reader has it.
struct ReadLine {
    std::vector<LineNote> notes;
    std::vector<Origin> origins;
};

class LineReader {
public:
    LineReader(const Study& written, Reading readFor)
        : study(written), reading(readFor), meters(study.meters()), choruses(study.chorusBars()) {}

    ReadLine read() {
        for (auto first = study.notes.begin(); first != study.notes.end();) {
            const auto end = std::find_if(first, study.notes.end(),
                                          [&](const Note& note) { return note.onset != first->onset; });
            addTogether(std::vector<Note>(first, end));
            first = end;
        }
        return std::move(line);
    }

private:
    void addTogether(const std::vector<Note>& notes) {
        const Beats onset = notes.front().onset;
        const KeySignature key = study.page.keyAt(meters.barOf(onset));
        LineNote here;
        here.key = readAs(reading, key);
        if (isUnderChordOfItsKey(onset))
            if (const auto symbol = study.chart.chordAt(onset, meters, choruses))
                here.chord = readAs(reading, *symbol, key).chord;
        std::size_t most = 0;
        for (const Note& note : notes)
            most = std::max(most, note.phrasing.graceNotes.size());
        // The last ones lead on together.
        for (std::size_t left = most; left > 0; --left, ++moment)
            for (const Note& note : notes) {
                const std::vector<int>& graces = note.phrasing.graceNotes;
                if (graces.size() >= left)
                    add(here, graces[graces.size() - left], {note.id, graces.size() - left});
            }
        for (const Note& note : notes) {
            if (note.pitch.spelling)
                here.wish = readAs(reading, note.pitch.midi, *note.pitch.spelling, key).name;
            add(here, note.pitch.midi, {note.id, std::nullopt});
            here.wish.reset();
        }
        ++moment;
    }

    /// A chord goes on until the next, over empty bars as well; where the key changed meanwhile it no longer
    /// says how notes are called.
    bool isUnderChordOfItsKey(const Beats& onset) {
        const std::int64_t bar = meters.barOf(onset);
        const auto& keys = study.page.keys;
        const auto behind =
            std::find_if(keys.begin(), keys.end(), [&](const KeyChange& change) { return change.bar > bar; });
        // Where the key that stands began: one that was only stated again changed nothing.
        auto change = behind;
        do {
            if (change == keys.begin() || std::prev(change)->bar <= 1) return true;
            --change;
        } while (study.page.keyAt(change->bar - 1) == change->key);
        if (const std::int64_t from = change->bar; keyFrom != from) {
            keyFrom = barToSearch = from;
            firstChord.reset();
        }
        for (; !firstChord && barToSearch <= bar; ++barToSearch)
            if (const auto chords = study.chart.barChords(barToSearch, meters, choruses).chords;
                !chords.empty())
                firstChord = meters.barStart(barToSearch) + chords.front().withinBar;
        return firstChord && *firstChord <= onset;
    }

    void add(LineNote note, int midi, const Origin& origin) {
        note.midi = midi + semitonesUp(reading);
        note.moment = moment;
        line.notes.push_back(note);
        line.origins.push_back(origin);
    }

    const Study& study;
    Reading reading;
    MeterMap meters;
    std::vector<ChorusBars> choruses;
    std::size_t moment = 0;
    /// The bar from which the key holds, how far its first chord was searched for, and where that stands.
    std::optional<std::int64_t> keyFrom;
    std::int64_t barToSearch = 0;
    std::optional<Beats> firstChord;
    ReadLine line;
};

ReadPitch placed(const PitchName& name, int midi) {
    return {name, writtenOctave(name, midi)};
}

} // namespace

WrittenNames::WrittenNames(const Study& study, Reading readFor) : reading(readFor) {
    const ReadLine line = LineReader(study, reading).read();
    const std::vector<LineName> spelled = spelledLine(line.notes);
    for (std::size_t i = 0; i < spelled.size(); ++i) {
        Named& named = names[line.origins[i].note];
        const auto grace = line.origins[i].grace;
        if (!grace) {
            named.main = spelled[i];
            continue;
        }
        named.graces.resize(std::max(named.graces.size(), *grace + 1));
        named.graces[*grace] = spelled[i].name;
    }
}

ReadPitch WrittenNames::of(const Note& note) const {
    const auto found = names.find(note.id);
    const int midi = note.pitch.midi + semitonesUp(reading);
    return placed(found == names.end() ? plainName(midi) : found->second.main.name, midi);
}

ReadPitch WrittenNames::ofGrace(const Note& note, std::size_t index) const {
    const auto found = names.find(note.id);
    const int midi = note.phrasing.graceNotes[index] + semitonesUp(reading);
    const bool isKnown = found != names.end() && index < found->second.graces.size();
    return placed(isKnown ? found->second.graces[index] : plainName(midi), midi);
}

PitchName WrittenNames::byItself(const Note& note) const {
    const auto found = names.find(note.id);
    return found == names.end() ? plainName(note.pitch.midi + semitonesUp(reading))
                                : found->second.main.byItself;
}

} // namespace earwright
