#include "core/exchange/StandardMidiReading.h"

#include "core/exchange/MidiEvents.h"
#include "core/exchange/MidiGraces.h"
#include "core/exchange/MidiLengths.h"
#include "core/exchange/MidiParts.h"
#include "core/exchange/MidiSwing.h"
#include "core/exchange/MidiText.h"
#include "core/exchange/MidiTrills.h"
#include "core/exchange/PlayedByHand.h"
#include "core/exchange/PlayedGraces.h"
#include "core/exchange/ToldSwing.h"
#include "core/music/NoChord.h"
#include "core/study/Limits.h"
#include "core/study/PageOrder.h"

#include <algorithm>
#include <array>
#include <map>
#include <optional>

namespace earwright {

namespace {

constexpr double highestVelocity = 127;
constexpr std::uint32_t usualTempo = 500'000;
constexpr std::int64_t mostBars = 10'000;
constexpr std::int64_t mostQuarters = 100'000;
/// Of a kind of mark; no music has more, and a file made to keep us busy may.
constexpr std::size_t mostMarks = 1'000;
constexpr std::size_t mostNotes = 20'000;

std::uint32_t numberOf(const std::string& data) {
    std::uint32_t value = 0;
    for (const char byte : data)
        value = value << 8 | static_cast<unsigned char>(byte);
    return value;
}

bool isNoteOff(const MidiEvent& event) {
    return (event.status & 0xF0) == 0x80 || ((event.status & 0xF0) == 0x90 && event.second == 0);
}

class MidiStudy {
public:
    MidiStudy(const MidiTracks& tracks, MidiRhythm wish) : file(tracks), rhythm(wish) {}

    /// `part` is at `index` of `parts`.
    Imported make(std::vector<ForeignPart> parts, const MidiPart& part, std::size_t index) {
        imported.parts = std::move(parts);
        imported.part = index;
        findMeters();
        meters = study.meters();
        std::vector<ForeignNote> notes = notesOf(part);
        Beats last;
        for (const ForeignNote& note : notes)
            last = std::max(last, writable(note.end));
        addTempo(last);
        // The notes within a trill are on no lines and do not swing.
        const auto counted = study.beatMap.hasTempo() ? withTrills(study, notes) : notes;
        findSwing(counted);
        imported.rhythm =
            ReadRhythm{MidiRhythm::Ticks, shareOnLines(onsetsOf(counted), file.ticksPerQuarter)};
        addLine(imported, placed(std::move(notes)));
        for (const auto& track : file.tracks)
            for (const MidiEvent& event : track)
                if (event.status == 0xFF) addMeta(event, &track == &file.tracks.front());
        study.page = settled(std::move(study.page));
        divideBeats(imported);
        nameOtherParts(imported);
        nameBends(part);
        return std::move(imported);
    }

private:
    Beats beats(std::int64_t tick) const {
        return Beats((tick - origin) * study.meter.beatUnit, 4 * file.ticksPerQuarter);
    }

    /// The meter at time 0 counts the beats, so it is needed before anything else.
    void findMeters() {
        std::map<std::int64_t, Meter> found;
        for (const auto& track : file.tracks)
            for (const MidiEvent& event : track) {
                if (event.status != 0xFF || event.first != 0x58 || event.data.size() < 2) continue;
                const int beatsInBar = static_cast<unsigned char>(event.data[0]);
                const int power = static_cast<unsigned char>(event.data[1]);
                if (beatsInBar >= 1 && beatsInBar <= 32 && power <= 5)
                    found[event.tick] = {beatsInBar, 1 << power};
                else
                    leaveOut(imported, "A meter that no page here can show was left out.");
            }
        if (!found.empty() && found.begin()->first == 0) {
            study.meter = found.begin()->second;
            found.erase(found.begin());
            takePickup(found);
        }
        MeterMap map = study.meters();
        for (const auto& [tick, meter] : found)
            addMeter(map, beats(tick), meter);
    }

    /// A first bar of its own, shorter than those behind it, is a pickup (common practice).
    void takePickup(std::map<std::int64_t, Meter>& found) {
        if (found.empty()) return;
        const auto [tick, meter] = *found.begin();
        const std::int64_t bar = file.ticksPerQuarter * 4 * study.meter.beatsPerBar;
        const bool isOneBar = tick * study.meter.beatUnit == bar;
        const bool isShorter =
            study.meter.beatsPerBar * meter.beatUnit < meter.beatsPerBar * study.meter.beatUnit;
        if (!isOneBar || !isShorter) return;
        origin = tick;
        study.meter = meter;
        if (const Beats length = -beats(0); isUsablePickup(length, meter)) study.page.pickup = length;
        found.erase(found.begin());
    }

    /// `map` is the study's, kept at hand: a file made to keep us busy has many changes.
    void addMeter(MeterMap& map, const Beats& place, const Meter& meter) {
        const std::int64_t bar = map.barOf(place);
        if (map.at(bar) == meter) return;
        if (study.page.meters.size() >= mostMarks)
            return leaveOut(imported, "Meters behind the thousandth were left out.");
        if (bar < 2 || bar > mostBars || map.barStart(bar) != place)
            return leaveOut(imported, "A change of meter within a bar was left out.");
        study.page.meters.push_back({bar, meter});
        map = study.meters();
    }

    /// As the file's words say, where its notes do so.
    void findSwing(const std::vector<ForeignNote>& notes) {
        std::vector<SwingChange> swings;
        for (const auto& [tick, swing] : swingsIn(file))
            swings.push_back({beats(tick), swing});
        if (rhythm == MidiRhythm::Ticks || swings.empty()) return;
        told.emplace(study, std::move(swings), file.ticksPerQuarter);
        if (!told->isTrueOf(notes)) told.reset();
    }

    /// In ticks from bar 1; of a line that says how it swings those that were written.
    std::vector<std::int64_t> onsetsOf(const std::vector<ForeignNote>& notes) const {
        std::vector<std::int64_t> onsets;
        for (const ForeignNote& note : notes)
            onsets.push_back(tickOf(told ? told->written(note.begin) : note.begin) - origin);
        return onsets;
    }

    std::vector<ForeignNote> notesOf(const MidiPart& part) {
        std::vector<ForeignNote> notes;
        std::array<std::optional<std::size_t>, 128> sounding{};
        const auto end = [&](int midi, std::int64_t tick) {
            auto& open = sounding[static_cast<std::size_t>(midi)];
            if (open) notes[*open].end = beats(tick);
            open.reset();
        };
        std::int64_t last = 0;
        for (const MidiEvent& event : file.tracks[part.first]) {
            last = event.tick;
            if (event.status == 0xFF || (event.status & 0x0F) != part.second) continue;
            if (!isNoteOn(event) && !isNoteOff(event)) continue;
            end(event.first, event.tick);
            if (!isNoteOn(event)) continue;
            sounding[static_cast<std::size_t>(event.first)] = notes.size();
            notes.push_back({beats(event.tick),
                             beats(event.tick),
                             Pitch{event.first, {}},
                             event.second / highestVelocity,
                             {}});
        }
        for (int midi = 0; midi < 128; ++midi)
            end(midi, last);
        return notes;
    }

    /// The notes where they are wished to stand.
    std::vector<ForeignNote> placed(std::vector<ForeignNote> notes) {
        const MidiRhythm wanted =
            rhythm == MidiRhythm::Fitting ? fittingRhythm(imported.rhythm->onLines) : rhythm;
        // Where onsets are a hand's or lie in seconds, nothing tells what the lengths were meant to be.
        const bool isWritten =
            !file.countsSeconds && fittingRhythm(imported.rhythm->onLines) == MidiRhythm::Ticks;
        if (isWritten && wanted == MidiRhythm::Ticks) return asWritten(std::move(notes));
        if (wanted == MidiRhythm::Ticks || !study.beatMap.hasTempo()) return notes;
        imported.rhythm->taken = MidiRhythm::ByHand;
        const std::size_t count = notes.size();
        notes = withPlayedGraces(study, std::move(notes));
        sayMerged(count - notes.size());
        CountedNotes counted = countedByHand(study, std::move(notes));
        if (counted.swing) study.page.swings.push_back(*counted.swing);
        if (counted.uncounted > 0)
            leaveOut(imported, "Where more notes fall on a beat than can be counted, they stand where their "
                               "ticks are.");
        return std::move(counted.notes);
    }

    /// Swing, trills and grace notes only unless the user wants each note where its tick is.
    std::vector<ForeignNote> asWritten(std::vector<ForeignNote> notes) {
        // Lengths that swing end on no line, and none of them is short.
        if (!told) notes = writtenLengths(std::move(notes), study.meter.beatUnit);
        if (rhythm == MidiRhythm::Ticks) return notes;
        // Before swing, which the places within a trill would end.
        if (study.beatMap.hasTempo()) {
            const std::size_t count = notes.size();
            notes = withGraceNotes(study, withTrills(study, std::move(notes)), told);
            sayMerged(count - notes.size());
        }
        SwungNotes swung = told ? told->written(std::move(notes)) : swungNotes(study, std::move(notes));
        imported.rhythm->isSwung = !swung.swings.empty();
        if (imported.rhythm->isSwung) imported.rhythm->taken = MidiRhythm::ByHand;
        study.page.swings = std::move(swung.swings);
        return std::move(swung.notes);
    }

    void sayMerged(std::size_t count) {
        if (count == 1) leaveOut(imported, "A note was read as part of a trill or as a grace note.");
        if (count > 1)
            leaveOut(imported,
                     std::to_string(count) + " notes were read as part of a trill or as grace notes.");
    }

    std::int64_t tickOf(const Beats& place) const {
        return origin + (place * (4 * file.ticksPerQuarter) / study.meter.beatUnit).floor();
    }

    /// The tempo that stands at bar 1, and at the beats before and behind each change between two: marks are
    /// on beats.
    void addBeatsAround(std::map<std::int64_t, std::uint32_t>& tempos) const {
        std::vector<std::int64_t> ticks{origin};
        for (const auto& [tick, tempo] : tempos)
            if (const Beats place = beats(tick); place.denominator() != 1)
                for (const std::int64_t beat : {place.floor(), place.floor() + 1})
                    ticks.push_back(tickOf(Beats(beat)));
        for (const std::int64_t tick : ticks)
            if (tick >= tempos.begin()->first)
                tempos.try_emplace(tick, std::prev(tempos.upper_bound(tick))->second);
    }

    /// A mark wherever the tempo changes, or at the beats around that place, and one behind the last note.
    void addTempo(const Beats& last) {
        std::map<std::int64_t, std::uint32_t> tempos{{0, usualTempo}};
        if (file.countsSeconds) tempos[origin] = usualTempo;
        for (const auto& track : file.tracks)
            for (const MidiEvent& event : track)
                if (event.status == 0xFF && event.first == 0x51 && event.data.size() == 3 &&
                    numberOf(event.data) > 0 && !file.countsSeconds)
                    tempos[event.tick] = numberOf(event.data);
        addBeatsAround(tempos);
        const Beats behindTempos = beats(tempos.rbegin()->first + 4 * file.ticksPerQuarter);
        tempos.try_emplace(tickOf(Beats(std::max(last.floor() + 1, -(-behindTempos).floor()))), usualTempo);
        std::vector<BeatMark> marks;
        double seconds = 0;
        for (auto tempo = tempos.begin(); tempo != tempos.end(); ++tempo) {
            if (tempo != tempos.begin()) {
                const auto before = std::prev(tempo);
                const auto ticks = static_cast<double>(tempo->first - before->first);
                seconds += ticks / static_cast<double>(file.ticksPerQuarter) * before->second / 1e6;
            }
            const Beats place = beats(tempo->first);
            if (place.denominator() == 1) marks.push_back({place, Seconds(seconds)});
        }
        // Bar 1 begins at the first second, a pickup before it.
        const double barOne = secondsAt(tempos, origin);
        for (BeatMark& mark : marks)
            mark.time = mark.time - Seconds(barOne);
        study.beatMap = BeatMap(std::move(marks));
        if (!isWithinLimits(study.beatMap)) study.beatMap = {};
        const double first = 60e6 / tempos.begin()->second;
        if (first >= slowestTempo && first <= fastestTempo)
            study.page.tempos.push_back({Beats(0), "", first});
    }

    double secondsAt(const std::map<std::int64_t, std::uint32_t>& tempos, std::int64_t tick) const {
        double seconds = 0;
        for (auto tempo = tempos.begin(); tempo != tempos.end() && tempo->first < tick; ++tempo) {
            const auto next = std::next(tempo);
            const std::int64_t until = next == tempos.end() ? tick : std::min(next->first, tick);
            seconds += static_cast<double>(until - tempo->first) / static_cast<double>(file.ticksPerQuarter) *
                       tempo->second / 1e6;
        }
        return seconds;
    }

    void addMeta(const MidiEvent& event, bool isFirstTrack) {
        const Beats place = writable(beats(event.tick));
        const std::int64_t bar = meters->barOf(place);
        const std::string text = midiText(event.data);
        if (event.first == 0x03 && (isFirstTrack || file.format == 2) && study.title.empty())
            study.title = text;
        if (event.first == 0x59 && event.data.size() == 2) {
            const KeySignature key{static_cast<signed char>(event.data[0]),
                                   event.data[1] == 1 ? Mode::Minor : Mode::Major};
            if (study.page.keys.size() < mostMarks) study.page.keys.push_back({bar, key});
        }
        if ((event.first == 0x01 || event.first == 0x06) && !text.empty()) addWords(place, bar, text);
        if (event.first == 0x05) leaveOut(imported, "Words that are sung were left out.");
    }

    void addWords(const Beats& place, std::int64_t bar, const std::string& text) {
        // Stands in the page's swing.
        if (swingIn(text) && !study.page.swings.empty()) return;
        const ChordSymbol symbol = parseChordSymbol(text);
        if (isRead(symbol) && addChord(imported, bar, place - meters->barStart(bar), symbol)) return;
        if (study.page.texts.size() < mostMarks) return study.page.texts.push_back({place, text, false});
        leaveOut(imported, "Words behind the thousandth were left out.");
    }

    void nameBends(const MidiPart& part) {
        for (const MidiEvent& event : file.tracks[part.first])
            if ((event.status & 0xF0) == 0xE0 && (event.status & 0x0F) == part.second)
                return leaveOut(imported, "Pitch bends were left out.");
    }

    const MidiTracks& file;
    MidiRhythm rhythm;
    /// Where bar 1 begins.
    std::int64_t origin = 0;
    Imported imported;
    Study& study = imported.study;
    /// Once they are all found.
    std::optional<MeterMap> meters;
    std::optional<ToldSwing> told;
};

bool isFarTooLong(const MidiTracks& file) {
    const std::int64_t last = mostQuarters * file.ticksPerQuarter;
    return std::any_of(file.tracks.begin(), file.tracks.end(),
                       [&](const auto& track) { return !track.empty() && track.back().tick > last; });
}

} // namespace

Result<Imported> readStandardMidi(std::string_view bytes, const std::string& name, const std::string& wish,
                                  MidiRhythm rhythm) {
    if (bytes.size() > largestMidiBytes)
        return Error{ErrorKind::Malformed, name + " is far too large to be a line of notes.", ""};
    Result<MidiTracks> file = midiTracks(bytes, name);
    if (!file) return file.error();
    if (isFarTooLong(*file))
        return Error{ErrorKind::Malformed, name + " lasts longer than 100 000 quarters; no music does.", ""};
    const std::vector<MidiPart> parts = midiParts(*file);
    std::vector<ForeignPart> list = namedParts(*file, parts);
    const auto part = chosenPart(list, wish, name);
    if (!part) return part.error();
    if (list[*part].notes > mostNotes)
        return Error{
            ErrorKind::Malformed,
            name + " cannot be opened: its part " + list[*part].name + " has more than 20 000 notes.", ""};
    // The tracks of format 2 are pieces by themselves.
    for (std::size_t track = 0; file->format == 2 && track < file->tracks.size(); ++track)
        if (track != parts[*part].first) file->tracks[track].clear();
    return MidiStudy(*file, rhythm).make(std::move(list), parts[*part], *part);
}

} // namespace earwright
