#include "core/exchange/StandardMidi.h"

#include "core/engraving/PageBars.h"
#include "core/exchange/PitchGlide.h"
#include "core/exchange/ToldSwing.h"
#include "core/music/WrittenDynamics.h"
#include "core/study/PlayedTime.h"

#include <algorithm>
#include <bit>
#include <cmath>
#include <iterator>
#include <map>
#include <vector>

namespace earwright {

namespace {

/// Divides by 2^6, 9, 5 and 7; the grid of pageLine() falls on it.
constexpr std::int64_t ticksPerQuarter = 20160;
/// The longest note of a trill or before a note: a thirty-second, in ticks, and no longer than one that is
/// heard as an ornament.
constexpr std::int64_t longestStep = ticksPerQuarter / 8;
constexpr Seconds longestHeard{0.08};
/// What leads up to a note leaves it the rest.
constexpr std::int64_t partsForOneBefore = 3;
/// Fewer notes than this are no trill.
constexpr std::int64_t fewestOfTrill = 4;
constexpr int highestVelocity = 127;
constexpr double usualTempo = 120;
constexpr int bendCentre = 0x2000;
/// Where swing is even, ticks are exact.
constexpr double nearlyWhole = 0.5;

int velocityOf(double loudness) {
    return std::clamp(static_cast<int>(std::lround(loudness * highestVelocity)), 1, highestVelocity);
}

class MidiWriter {
public:
    MidiWriter(const Study& written, const MidiOptions& wish, const PlayedNotes& measured,
               const std::vector<PageNotes>& notesOfLine, const std::vector<PageBar>& barsOfLine)
        : study(written), options(wish), played(measured), line(notesOfLine), bars(barsOfLine) {}

    std::string write() {
        addMusic();
        addTempos();
        addBendRange();
        for (std::size_t event = 0; event < line.size(); ++event) {
            for (const Note& note : line[event].notes)
                addNote(note, line[event].begin, line[event].end);
            addGlide(event);
        }
        addSounds();
        // The file lasts to the end of its last bar.
        track.addMeta(tick(bars.back().end), 0x01, "", MidiRank::Last);
        return midiFile(track, static_cast<int>(ticksPerQuarter));
    }

private:
    /// As written.
    std::int64_t tick(const Beats& place) const {
        return ((place - bars.front().begin) * (4 * ticksPerQuarter) / study.meter.beatUnit).floor();
    }
    /// As played.
    std::int64_t soundTick(const Beats& place) const {
        if (!options.swings || study.page.swings.empty()) return tick(place);
        const double since = playedBeat(study, place) - bars.front().begin.toDouble();
        const double ticks = since * 4 * static_cast<double>(ticksPerQuarter) / study.meter.beatUnit;
        const double moved = ticks - static_cast<double>(tick(place));
        return std::abs(moved) < nearlyWhole ? tick(place) : std::llround(ticks);
    }

    /// How a note of the line is played, if it was measured.
    const PlayedNote* playing(const Note& note) const {
        const Note* written = study.note(note.id);
        return written ? playingOf(played, study, *written) : nullptr;
    }

    /// The tempo follows the beat marks, so a place in beats is the place in time.
    Range<Beats> placesOf(const Range<Seconds>& heard) const {
        const auto place = [&](Seconds time) {
            return std::max(bars.front().begin, Beats::nearest(study.beatMap.beatsAt(time), ticksPerQuarter));
        };
        return {place(heard.begin), place(heard.end)};
    }

    /// From where to where a note sounds, in ticks, ornaments before it left out.
    Range<std::int64_t> ticksOf(const Note& note, const Beats& begin, const Beats& end) const {
        const PlayedNote* measured = playing(note);
        // What moves with a note that rings on has moved by its written end: the channel moves as one.
        if (!measured) return {soundTick(begin), soundTick(std::min(end, soundingEnd(note, begin, end)))};
        const Range<Beats> places = placesOf(measured->heard);
        return {tick(places.begin), tick(places.end)};
    }

    /// Where a note ends as it is written, staccato or let ring.
    Beats soundingEnd(const Note& note, const Beats& begin, const Beats& end) const {
        const Seconds written(secondsOf({begin, end}));
        const Seconds sounding = soundingLength(note.phrasing, written);
        if (sounding == written) return end;
        const double beats = (end - begin).toDouble() * (sounding.value / written.value);
        return begin + Beats::nearest(beats, ticksPerQuarter);
    }

    void addMusic() {
        if (!study.title.empty()) track.addMeta(0, 0x03, study.title);
        const KeySignature* standing = nullptr;
        std::vector<KeySignature> keys;
        keys.reserve(bars.size());
        for (const PageBar& bar : bars) {
            const PageBar* last = &bar == &bars.front() ? nullptr : &bar - 1;
            if (!last || bar.meter != last->meter || last->begin > last->start) addMeter(bar);
            keys.push_back(study.page.keyAt(bar.number));
            if (standing ? *standing != keys.back() : keys.back() != KeySignature{}) addKey(bar, keys.back());
            standing = &keys.back();
            for (const PlacedChord& chord : study.barChords(bar.number).chords)
                addText(bar.start + chord.withinBar, toString(chord.symbol));
        }
        if (options.swings && played.empty()) addSwings();
        for (const TempoMark& mark : study.page.tempos)
            addText(mark.at, mark.words);
        for (const TextMark& mark : study.page.texts)
            addText(mark.at, mark.text);
    }

    /// No event of MIDI says it.
    void addSwings() {
        const auto& changes = study.page.swings;
        const Beats begin = bars.front().begin;
        bool swings = false;
        for (auto change = changes.begin(); change != changes.end(); ++change) {
            const bool stands = std::next(change) == changes.end() || std::next(change)->at > begin;
            const bool isNew = swings || !change->swing.isEven();
            if (stands && isNew) addText(std::max(change->at, begin), swingWords(change->swing));
            swings = stands && !change->swing.isEven();
        }
    }

    void addText(const Beats& place, const std::string& text) {
        if (!text.empty() && place >= bars.front().begin && place <= bars.back().end)
            track.addMeta(tick(place), 0x01, text);
    }

    void addMeter(const PageBar& bar) {
        // A pickup is a short bar of its own.
        const Beats length = bar.ownBeats(bar.end) - bar.ownBeats(bar.begin);
        const auto unit = static_cast<unsigned>(bar.meter.beatUnit * length.denominator());
        std::string meter = bigEndian(static_cast<std::uint64_t>(length.numerator()), 1);
        meter += static_cast<char>(std::bit_width(unit) - 1);
        // A metronome click is 24 MIDI clocks, and a quarter has eight 32nds.
        track.addMeta(tick(bar.begin), 0x58, meter + "\x18\x08");
    }

    void addKey(const PageBar& bar, const KeySignature& key) {
        track.addMeta(tick(bar.begin), 0x59,
                      {static_cast<char>(key.fifths), static_cast<char>(key.mode == Mode::Minor ? 1 : 0)});
    }

    void addTempo(const Beats& place, double quartersPerMinute) {
        constexpr double slowest = 0xFFFFFF;
        const auto microseconds = std::llround(std::clamp(60e6 / quartersPerMinute, 1.0, slowest));
        if (microseconds != standingTempo)
            track.addMeta(tick(place), 0x51, bigEndian(static_cast<std::uint64_t>(microseconds), 3));
        standingTempo = microseconds;
    }

    void addTempos() {
        const Beats begin = bars.front().begin;
        if (options.tempo) return addTempo(begin, *options.tempo);
        if (!study.beatMap.hasTempo()) {
            addTempo(begin, usualTempo);
            for (const TempoMark& mark : study.page.tempos)
                if (mark.quartersPerMinute && mark.at <= bars.back().end)
                    addTempo(std::max(mark.at, begin), *mark.quartersPerMinute);
            return;
        }
        std::vector<Beats> places{begin};
        for (const BeatMark& mark : study.beatMap.marks())
            if (mark.position > begin && mark.position < bars.back().end) places.push_back(mark.position);
        places.push_back(bars.back().end);
        for (std::size_t i = 0; i + 1 < places.size(); ++i) {
            const Range<Seconds> time = study.beatMap.seconds(Range<Beats>{places[i], places[i + 1]});
            const double quarters = (places[i + 1] - places[i]).toDouble() * 4 / study.meter.beatUnit;
            addTempo(places[i], 60 * quarters / (time.end - time.begin).value);
        }
    }

    /// What the page says; bars before its first tempo are played at the usual one.
    double markedTempoAt(const Beats& place) const {
        double tempo = usualTempo;
        for (const TempoMark& mark : study.page.tempos)
            if (mark.quartersPerMinute && mark.at <= place) tempo = *mark.quartersPerMinute;
        return tempo;
    }

    double secondsOf(const Range<Beats>& place) const {
        const double quarters = (place.end - place.begin).toDouble() * 4 / study.meter.beatUnit;
        if (options.tempo || !study.beatMap.hasTempo())
            return quarters * 60 / options.tempo.value_or(markedTempoAt(place.begin));
        const Range<Seconds> time = study.beatMap.seconds(place);
        return (time.end - time.begin).value;
    }

    /// Registered parameter 0 is the range of pitch bends, in semitones (MIDI 1.0 detailed specification).
    void addBendRange() {
        const bool bends = std::any_of(line.begin(), line.end(), [](const PageNotes& together) {
            return !pitchGlide(together.notes.front().phrasing, 1, 1).empty();
        });
        if (!bends) return;
        for (const auto& [controller, value] :
             {std::pair{101, 0}, {100, 0}, {6, widestGlide}, {38, 0}, {101, 127}, {100, 127}})
            track.addMessage(0, MidiRank::Music, 0xB0, controller, value);
    }

    void addBend(std::int64_t at, MidiRank rank, double semitones) {
        const auto value =
            std::clamp(static_cast<int>(std::lround(semitones / widestGlide * bendCentre)) + bendCentre, 0,
                       2 * bendCentre - 1);
        track.addMessage(at, rank, 0xE0, value & 0x7F, value >> 7);
    }

    /// Bends about a hundred times a second, as far as they change.
    void addGlide(std::size_t event) {
        const PageNotes& together = line[event];
        const Note& note = together.notes.front();
        const int toNext =
            goesOn(line, event) ? line[event + 1].notes.front().pitch.midi - note.pitch.midi : 0;
        const double seconds = secondsOf({together.begin, together.end});
        const std::vector<GlidePoint> points = pitchGlide(note.phrasing, toNext, seconds);
        if (points.empty()) return;
        const auto [begin, end] = ticksOf(note, together.begin, together.end);
        const std::int64_t length = end - begin;
        double standing = 0;
        const auto put = [&](double at, double semitones) {
            if (semitones == standing) return;
            addBend(begin + std::llround(at * static_cast<double>(length)),
                    at == 0 ? MidiRank::Bends : MidiRank::Ends, semitones);
            standing = semitones;
        };
        put(0, points.front().semitones);
        for (std::size_t i = 1; i < points.size(); ++i) {
            const GlidePoint& from = points[i - 1];
            const GlidePoint& to = points[i];
            const int steps = from.semitones == to.semitones
                                  ? 1
                                  : std::clamp(static_cast<int>((to.at - from.at) * seconds * 100), 1, 100);
            for (int k = 1; k <= steps; ++k)
                put(from.at + (to.at - from.at) * k / steps,
                    from.semitones + (to.semitones - from.semitones) * k / steps);
        }
        // The next note begins at its own pitch.
        if (standing != 0) addBend(begin + length, MidiRank::Ends, 0);
    }

    /// The notes before the one that stays: grace notes, then those of a turn or a mordent.
    std::vector<int> before(const Note& note) const {
        std::vector<int> pitches = note.phrasing.graceNotes;
        const KeySignature key = study.page.keyAt(study.meters().barOf(note.onset));
        const int up = key.upperNeighbour(note.pitch.midi);
        const int down = key.lowerNeighbour(note.pitch.midi);
        if (const auto turn = note.phrasing.turn) {
            const bool isFromAbove = *turn == Turn::FromAbove;
            pitches.insert(pitches.end(),
                           {isFromAbove ? up : down, note.pitch.midi, isFromAbove ? down : up});
        }
        if (const auto mordent = note.phrasing.mordent)
            pitches.insert(pitches.end(), {note.pitch.midi, *mordent == Mordent::Upper ? up : down});
        return pitches;
    }

    /// The longest note of an ornament at a place, in ticks.
    std::int64_t ornamentStep(const Beats& place) const {
        const double quarter = secondsOf({place, place + Beats(study.meter.beatUnit, 4)});
        const double ticks = longestHeard.value / quarter * static_cast<double>(ticksPerQuarter);
        return std::clamp(static_cast<std::int64_t>(ticks), std::int64_t{1}, longestStep);
    }

    /// At the places where it was heard; what leads up to it comes before.
    void addPlayed(const Note& note, const PlayedNote& measured) {
        const int velocity = velocityOf(measured.loudness);
        const Range<Beats> places = placesOf(soundingAsPlayed(note, measured));
        const Range<std::int64_t> ticks{tick(places.begin), tick(places.end)};
        const std::vector<int> first = before(note);
        const std::int64_t each = ornamentStep(places.begin);
        std::int64_t at = ticks.begin - each * static_cast<std::int64_t>(first.size());
        for (const int midi : first) {
            if (at >= 0) addSound(midi, velocity, {at, at + each});
            at += each;
        }
        addMain(note, velocity, ticks, each);
    }

    /// Its onset has swung already; what leads up to it and a trill are no rhythm, and nobody swings them.
    void addNote(const Note& note, const Beats& begin, const Beats& writtenEnd) {
        if (const PlayedNote* measured = playing(note)) return addPlayed(note, *measured);
        Range<std::int64_t> ticks{soundTick(begin), soundTick(soundingEnd(note, begin, writtenEnd))};
        const int velocity = velocityOf(writtenLoudness(study.page, note));
        const std::vector<int> first = before(note);
        const auto parts = partsForOneBefore * static_cast<std::int64_t>(first.size());
        const std::int64_t longest = ornamentStep(begin);
        const std::int64_t each = first.empty() ? 0 : std::min(longest, ticks.length() / parts);
        for (const int midi : first) {
            addSound(midi, velocity, {ticks.begin, ticks.begin + each});
            ticks.begin += each;
        }
        addMain(note, velocity, ticks, longest);
    }

    /// The note itself, or its trill, whose notes are of one length, at most `longest`.
    void addMain(const Note& note, int velocity, const Range<std::int64_t>& ticks, std::int64_t longest) {
        if (!note.phrasing.trill) return addSound(note.pitch.midi, velocity, ticks);
        const std::int64_t length = ticks.length();
        const std::int64_t count = std::max(fewestOfTrill, (length + longest - 1) / longest);
        for (std::int64_t k = 0; k < count; ++k)
            addSound(note.pitch.midi + (k % 2 == 1 ? *note.phrasing.trill : 0), velocity,
                     {ticks.begin + length * k / count, ticks.begin + length * (k + 1) / count});
    }

    struct Sound {
        std::int64_t from;
        std::int64_t to;
        int velocity;
    };

    void addSound(int midi, int velocity, const Range<std::int64_t>& ticks) {
        if (midi >= 0 && midi <= 127 && ticks.end > ticks.begin)
            sounds[midi].push_back({ticks.begin, ticks.end, velocity});
    }

    /// A channel sounds each pitch once: what begins within a sound of its pitch is part of it, or takes
    /// over.
    void addSounds() {
        for (auto& [midi, list] : sounds) {
            std::stable_sort(list.begin(), list.end(),
                             [](const Sound& a, const Sound& b) { return a.from < b.from; });
            for (std::size_t i = 0; i < list.size();) {
                Sound sound = list[i++];
                while (i < list.size() && list[i].to <= sound.to)
                    ++i;
                if (i < list.size()) sound.to = std::min(sound.to, list[i].from);
                if (sound.to <= sound.from) continue;
                track.addMessage(sound.from, MidiRank::Begins, 0x90, midi, sound.velocity);
                track.addMessage(sound.to, MidiRank::Ends, 0x80, midi, 64);
            }
        }
    }

    const Study& study;
    const MidiOptions& options;
    const PlayedNotes& played;
    const std::vector<PageNotes>& line;
    const std::vector<PageBar>& bars;
    MidiTrack track;
    /// By pitch.
    std::map<int, std::vector<Sound>> sounds;
    long long standingTempo = 0;
};

} // namespace

Result<std::string> standardMidi(const Study& study, const MidiOptions& options, const PlayedNotes& played) {
    const std::vector<PageNotes> line = pageLine(study);
    const auto bars = pageBars(line, study.meters(), 1, study.page.pickup);
    if (!bars) return bars.error();
    return MidiWriter(study, options, played, line, *bars).write();
}

} // namespace earwright
