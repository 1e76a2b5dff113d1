#include "core/study/RhythmReader.h"

#include "core/music/TupletSpan.h"
#include "core/study/DivisionEdits.h"
#include "core/study/PlayedTime.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numeric>

namespace earwright {

namespace {

/// A note let go after this share of the way to the next onset lasts to it.
constexpr double heldShare = 0.55;
/// How late or early to begin with, in units of how much that differs among players.
constexpr double lagsTried[] = {-2, -1, 0, 1, 2};
constexpr int rounds = 6;
/// The spread that is wished for weighs as much as so many onsets that scatter by it.
constexpr double trustInSpread = 12;
constexpr double steadiest = 0.25;
constexpr double shakiest = 1.6;
/// Around three notes over four beats, how early or late a note on the bar line may be, in beats.
constexpr double besideBarLine = 0.25;

/// Meter, marks and page without notes: all that decides where a place is played.
Study frameOf(const Study& study) {
    Study frame;
    frame.meter = study.meter;
    frame.page = study.page;
    frame.beatMap = study.beatMap;
    return frame;
}

/// The end of a note that was let go before the next onset: the line after its onset that is played nearest
/// to it.
Beats letGo(const Study& divided, const Beats& onset, double end) {
    const MeterMap meters = divided.meters();
    const Beats beat = std::max(meters.countAt(end), meters.countStart(onset));
    const auto parts = static_cast<std::int64_t>(divided.divisionOf(beat));
    Beats best = meters.nextCount(beat);
    const Beats part = (best - beat) / parts;
    for (std::int64_t line = parts - 1; line >= 0; --line) {
        const Beats place = beat + part * line;
        if (place <= onset) break;
        if (std::abs(playedBeat(divided, place) - end) < std::abs(playedBeat(divided, best) - end))
            best = place;
    }
    return best;
}

/// Whether a tuplet over so many beats may begin there, or so many beats earlier.
bool mayBeginTuplet(const MeterMap& meters, const Beats& beat, std::int64_t beats, std::int64_t earlier = 0) {
    const std::int64_t bar = meters.barOf(beat);
    const std::int64_t inBar = meters.inOwnBeats(meters.withinBar(beat), bar).floor();
    return mayTupletSpan(meters.at(bar), inBar - earlier, beats);
}

/// Whether of four beats the first and the last have no onsets but those that belong to the bar lines.
bool leavesRoomAround(const Range<Beats>& second, const std::vector<double>& onsets) {
    const double beat = second.length().toDouble();
    const auto isEmpty = [&](double begin, double end) {
        const auto found = std::lower_bound(onsets.begin(), onsets.end(), begin);
        return found == onsets.end() || *found >= end;
    };
    const double begin = second.begin.toDouble();
    const double end = second.end.toDouble() + 2 * beat;
    return isEmpty(begin - (1 - besideBarLine) * beat, begin) &&
           isEmpty(end - beat, end - besideBarLine * beat);
}

} // namespace

RhythmReader::RhythmReader(const Study& study, std::vector<FreeNote> notes, const RhythmWishes& given)
    : frame(frameOf(study)),
      wishes(given),
      places(placesOf(std::move(notes))),
      heard{Seconds(0), given.spread} {
    if (places.empty()) return;
    listen();
    choices = readBy(heard);
    const bool canBeWritten = std::none_of(choices.begin(), choices.end(),
                                           [](const BeatChoice& choice) { return choice.readings.empty(); });
    if (!canBeWritten) choices.clear();
    if (!choices.empty()) sortByShare();
}

/// Each beat's readings by how likely they are among their neighbours.
void RhythmReader::sortByShare() {
    likely = allPaths(choices).shares;
    for (std::size_t beat = 0; beat < choices.size(); ++beat) {
        std::vector<std::size_t> order(likely[beat].size());
        std::iota(order.begin(), order.end(), 0);
        std::stable_sort(order.begin(), order.end(),
                         [&](std::size_t a, std::size_t b) { return likely[beat][a] > likely[beat][b]; });
        std::vector<BeatReading> readings;
        std::vector<double> shares;
        for (const std::size_t each : order) {
            readings.push_back(choices[beat].readings[each]);
            shares.push_back(likely[beat][each]);
        }
        choices[beat].readings = std::move(readings);
        likely[beat] = std::move(shares);
    }
}

std::vector<BeatChoice> RhythmReader::readBy(const Hand& hand) {
    const MeterMap meters = frame.meters();
    std::vector<double> onsets;
    for (const FreePlace& place : places)
        onsets.push_back(frame.beatMap.beatsAt(place.onset - hand.lag));
    std::vector<BeatChoice> read;
    // Silence is skipped: nothing is chosen there.
    for (std::size_t next = 0; next < places.size();) {
        const std::size_t first = next;
        const Beats begin = meters.countAt(onsets[first]);
        const BeatLines& inBeat = lines.try_emplace(begin, frame, begin).first->second;
        while (next < places.size() && meters.countAt(onsets[next]) == begin)
            ++next;
        const Seconds lasts = frame.beatMap.seconds(inBeat.beat()).length();
        const double spread = std::max(hand.spread.value / std::max(lasts.value, 1e-3), 1e-3) *
                              inBeat.beat().length().toDouble();
        const auto begun = onsets.begin() + static_cast<std::ptrdiff_t>(first);
        const auto ended = onsets.begin() + static_cast<std::ptrdiff_t>(next);
        read.push_back({inBeat.beat(), first, inBeat.read({begun, ended}, spread),
                        mayBeginTuplet(meters, begin, 2),
                        mayBeginTuplet(meters, begin, 4, 1) && leavesRoomAround(inBeat.beat(), onsets)});
    }
    return read;
}

/// The logarithm of how likely the onsets are by such a hand, whatever was meant, and such a lag is.
double RhythmReader::weigh(const Hand& hand) {
    const double late = hand.lag.value / wishes.lag.value;
    return allPaths(readBy(hand)).logSum - late * late / 2;
}

double RhythmReader::likelihood() const {
    if (places.empty()) return 0;
    if (choices.empty()) return -std::numeric_limits<double>::infinity();
    const double late = heard.lag.value / wishes.lag.value;
    // Costs leave out that a hand which scatters less has to be nearer to its lines for the same cost.
    return allPaths(choices).logSum - late * late / 2 -
           static_cast<double>(places.size()) * std::log(heard.spread.value);
}

/// One round of expectation maximisation (Dempster, Laird & Rubin, Journal of the Royal Statistical Society B
/// 39, 1977): how far the onsets are from their lines in the mean of all readings, each by its share.
RhythmReader::Hand RhythmReader::bettered(const Hand& hand) {
    const std::vector<BeatChoice> read = readBy(hand);
    const std::vector<std::vector<double>> shares = allPaths(read).shares;
    double sum = 0;
    double squares = 0;
    for (std::size_t i = 0; i < read.size(); ++i) {
        const BeatLines& inBeat = lines.at(read[i].beat.begin);
        const double second =
            frame.beatMap.seconds(read[i].beat).length().value / read[i].beat.length().toDouble();
        for (std::size_t k = 0; k < read[i].readings.size(); ++k) {
            const BeatFigure& figure = read[i].readings[k].figure;
            for (std::size_t note = 0; note < figure.lines.size(); ++note) {
                const double onset =
                    frame.beatMap.beatsAt(places[read[i].firstPlace + note].onset - hand.lag);
                const double off = (onset - inBeat.lineAt(figure.division, figure.lines[note])) * second;
                sum += shares[i][k] * off;
                squares += shares[i][k] * off * off;
            }
        }
    }
    const auto count = static_cast<double>(places.size());
    const double square = hand.spread.value * hand.spread.value;
    const double usual = wishes.spread.value * wishes.spread.value;
    const double lag =
        (hand.lag.value * count + sum) / (count + square / (wishes.lag.value * wishes.lag.value));
    const double spread = std::sqrt((squares + trustInSpread * usual) / (count + trustInSpread));
    return {Seconds(lag),
            Seconds(std::clamp(spread, steadiest * wishes.spread.value, shakiest * wishes.spread.value))};
}

void RhythmReader::listen() {
    double best = -std::numeric_limits<double>::infinity();
    for (const double lag : lagsTried) {
        const Hand hand{Seconds(lag * wishes.lag.value), wishes.spread};
        const double weight = weigh(hand);
        if (!(weight > best)) continue;
        best = weight;
        heard = hand;
    }
    for (int round = 0; round < rounds; ++round)
        heard = bettered(heard);
}

void RhythmReader::lengthen(RhythmProposal& proposal, const std::vector<Beats>& onsets) const {
    Study divided = frame;
    // A note may end on the usual lines of a beat with nothing off it.
    for (const auto& [beat, division] : proposal.divisions)
        if (division != BeatDivision::One) divided = setDivision(divided, beat, division);
    for (std::size_t i = 0; i < places.size(); ++i) {
        const bool isLast = i + 1 == places.size();
        const double begun = frame.beatMap.beatsAt(places[i].onset - heard.lag);
        const double ended = frame.beatMap.beatsAt(places[i].end - heard.lag);
        const bool lasts =
            !isLast &&
            ended - begun >= heldShare * (frame.beatMap.beatsAt(places[i + 1].onset - heard.lag) - begun);
        Beats end = lasts ? onsets[i + 1] : letGo(divided, onsets[i], ended);
        if (!isLast) end = std::min(end, onsets[i + 1]);
        for (const int midi : places[i].pitches)
            proposal.notes.push_back({onsets[i], end - onsets[i], midi});
    }
    std::sort(proposal.notes.begin(), proposal.notes.end(), [](const ProposedNote& a, const ProposedNote& b) {
        return a.onset != b.onset ? a.onset < b.onset : a.midi < b.midi;
    });
}

RhythmProposal RhythmReader::written(const RhythmPath& path) const {
    RhythmProposal proposal;
    proposal.cost = path.cost;
    proposal.taken = path.taken;
    std::vector<Beats> onsets(places.size());
    for (std::size_t i = 0; i < choices.size(); ++i) {
        const BeatFigure& figure = choices[i].readings[path.taken[i]].figure;
        const auto parts = static_cast<std::int64_t>(figure.division);
        const Range<Beats>& beat = choices[i].beat;
        proposal.divisions[beat.begin] = figure.division;
        for (std::size_t k = 0; k < figure.lines.size(); ++k)
            onsets[choices[i].firstPlace + k] = beat.begin + beat.length() * figure.lines[k] / parts;
    }
    lengthen(proposal, onsets);
    return proposal;
}

std::vector<RhythmProposal> RhythmReader::proposals() const {
    std::vector<RhythmProposal> found;
    if (choices.empty()) return found;
    for (const RhythmPath& path : cheapestPaths(choices, wishes.mostProposals)) {
        if (found.size() == wishes.mostProposals) break;
        RhythmProposal proposal = written(path);
        const bool isThere = std::any_of(found.begin(), found.end(), [&](const RhythmProposal& other) {
            return other.notes == proposal.notes;
        });
        if (!isThere) found.push_back(std::move(proposal));
    }
    return found;
}

std::optional<RhythmProposal> RhythmReader::with(const std::map<std::size_t, std::size_t>& chosen) const {
    if (choices.empty()) return std::nullopt;
    std::vector<BeatChoice> narrowed = choices;
    for (const auto& [beat, reading] : chosen)
        narrowed[beat].readings = {choices[beat].readings[reading]};
    std::vector<RhythmPath> paths = cheapestPaths(narrowed, 1);
    if (paths.empty()) return std::nullopt;
    for (const auto& [beat, reading] : chosen)
        paths.front().taken[beat] = reading;
    return written(paths.front());
}

std::vector<RhythmProposal> proposeRhythms(const Study& study, std::vector<FreeNote> notes,
                                           const RhythmWishes& wishes) {
    return RhythmReader(study, std::move(notes), wishes).proposals();
}

} // namespace earwright
