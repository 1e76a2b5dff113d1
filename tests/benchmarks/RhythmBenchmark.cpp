// How often the rhythm that was meant is among those proposed, for invented lines tapped by a hand that
// scatters: a table to be kept beside the figures. Everything is seeded, so that two versions are measured on
// the same taps.
#include "core/study/DivisionEdits.h"
#include "core/study/PageEdits.h"
#include "core/study/PlayedTime.h"
#include "core/study/RhythmReader.h"

#include <algorithm>
#include <cstdio>
#include <map>
#include <optional>
#include <random>
#include <utility>
#include <vector>

namespace earwright {
namespace {

constexpr int linesEach = 200;
/// As many of a beat as the desk offers.
constexpr std::size_t readingsLookedAt = 6;
constexpr std::int64_t firstBeat = 4;

using Places = std::vector<Beats>;
/// A figure of one counted beat and how often it comes, in parts of a hundred.
struct Figure {
    int weight;
    Places places;
};

Beats part(std::int64_t line, std::int64_t parts) {
    return Beats(line, parts);
}

/// Twelve beats, each drawn for itself: eighths, triplets, quarters, an eighth off the beat, sixteenths.
Places drawnBeatByBeat(std::mt19937& random) {
    static const std::vector<Places> figures{{part(0, 1), part(1, 2)},
                                             {part(0, 1), part(1, 2)},
                                             {part(0, 1), part(1, 3), part(2, 3)},
                                             {part(0, 1)},
                                             {part(1, 2)},
                                             {part(0, 1), part(1, 4), part(1, 2), part(3, 4)}};
    Places line;
    for (std::int64_t beat = firstBeat; beat < firstBeat + 12; ++beat)
        for (const Beats& place : figures[random() % figures.size()])
            line.push_back(Beats(beat) + place);
    return line;
}

/// Sixteen beats as phrases go: what a beat is depends on the one before, figures with rests and ties in
/// them come too. Invented, not counted from any music.
Places drawnAsPhrase(std::mt19937& random) {
    enum Kind { Eighths, Triplets, Sixteenths, Held };
    static const std::vector<std::vector<Figure>> figures{
        {{60, {part(0, 1), part(1, 2)}}, {25, {part(1, 2)}}, {15, {part(0, 1)}}},
        {{60, {part(0, 1), part(1, 3), part(2, 3)}},
         {15, {part(0, 1), part(2, 3)}},
         {15, {part(0, 1), part(1, 3)}},
         {10, {part(1, 3), part(2, 3)}}},
        {{50, {part(0, 1), part(1, 4), part(1, 2), part(3, 4)}},
         {15, {part(0, 1), part(1, 4), part(1, 2)}},
         {15, {part(0, 1), part(1, 2), part(3, 4)}},
         {10, {part(0, 1), part(3, 4)}},
         {10, {part(1, 4), part(1, 2), part(3, 4)}}},
        {{50, {part(0, 1)}}, {30, {}}, {20, {part(1, 2)}}}};
    static const std::vector<std::vector<double>> next{
        {65, 12, 6, 17}, {50, 25, 5, 20}, {45, 5, 30, 20}, {50, 12, 8, 30}};
    Places line;
    std::size_t kind = Eighths;
    for (std::int64_t beat = firstBeat; beat < firstBeat + 16; ++beat) {
        kind = std::discrete_distribution<std::size_t>(next[kind].begin(), next[kind].end())(random);
        std::vector<double> weights;
        for (const Figure& figure : figures[kind])
            weights.push_back(figure.weight);
        const std::size_t drawn =
            std::discrete_distribution<std::size_t>(weights.begin(), weights.end())(random);
        for (const Beats& place : figures[kind][drawn].places)
            line.push_back(Beats(beat) + place);
    }
    return line.empty() ? Places{Beats(firstBeat)} : line;
}

/// Sixteen beats by another hand: dotted figures, sixths and fives among them, and what was played is often
/// played again.
Places drawnOtherwise(std::mt19937& random) {
    static const std::vector<Figure> figures{
        {26, {part(0, 1), part(1, 2)}},
        {16, {part(0, 1)}},
        {12, {}},
        {10, {part(1, 2)}},
        {8, {part(0, 1), part(1, 4), part(1, 2), part(3, 4)}},
        {7, {part(0, 1), part(3, 4)}},
        {5, {part(0, 1), part(1, 2), part(3, 4)}},
        {4, {part(0, 1), part(1, 4)}},
        {6, {part(0, 1), part(1, 3), part(2, 3)}},
        {3, {part(0, 1), part(2, 3)}},
        {2, {part(0, 1), part(1, 6), part(2, 6), part(3, 6), part(4, 6), part(5, 6)}},
        {1, {part(0, 1), part(1, 5), part(2, 5), part(3, 5), part(4, 5)}}};
    std::vector<double> weights;
    for (const Figure& figure : figures)
        weights.push_back(figure.weight);
    Places line;
    std::size_t figure = 0;
    for (std::int64_t beat = firstBeat; beat < firstBeat + 16; ++beat) {
        if (random() % 3 != 0)
            figure = std::discrete_distribution<std::size_t>(weights.begin(), weights.end())(random);
        for (const Beats& place : figures[figure].places)
            line.push_back(Beats(beat) + place);
    }
    return line.empty() ? Places{Beats(firstBeat)} : line;
}

/// The same phrases, where a quarter of the stretches of so many beats hold a tuplet of so many notes.
Places drawnWithTuplets(std::mt19937& random, std::int64_t notes, std::int64_t beats) {
    Places line;
    std::vector<bool> isTuplet(static_cast<std::size_t>(16 / beats));
    for (std::size_t stretch = 0; stretch < isTuplet.size(); ++stretch) {
        isTuplet[stretch] = random() % 4 == 0;
        const Beats begin(firstBeat + beats * static_cast<std::int64_t>(stretch));
        for (std::int64_t note = 0; isTuplet[stretch] && note < notes; ++note)
            line.push_back(begin + part(beats * note, notes));
    }
    for (const Beats& place : drawnAsPhrase(random))
        if (!isTuplet[static_cast<std::size_t>((place.floor() - firstBeat) / beats)]) line.push_back(place);
    std::sort(line.begin(), line.end());
    return line;
}

Places drawnWithTripletsOverTwo(std::mt19937& random) {
    return drawnWithTuplets(random, 3, 2);
}

Places drawnWithTripletsOverFour(std::mt19937& random) {
    return drawnWithTuplets(random, 3, 4);
}

Places drawnWithQuintupletsOverTwo(std::mt19937& random) {
    return drawnWithTuplets(random, 5, 2);
}

struct Case {
    const char* name;
    Places (*draw)(std::mt19937&);
    double tempo;
    double swing;
    double scatter;
    double lag;
};

Study studyAt(double tempo, double swing) {
    Study study;
    std::vector<BeatMark> marks;
    for (int bar = 0; bar <= 8; ++bar)
        marks.push_back({Beats(4 * bar), Seconds(240 / tempo * bar)});
    study.beatMap = BeatMap(std::move(marks));
    return swing > 1 ? setSwing(study, Beats(0), Swing{swing, 8}) : study;
}

/// Beats with a third or quarter in them are divided so that places there are played as written.
Study divided(Study study, const Places& line) {
    for (const Beats& place : line) {
        const Beats beat(place.floor());
        const Beats within = place - beat;
        for (const std::int64_t parts : {3, 4}) {
            const Beats lines = within * parts;
            if (within * 2 != Beats((within * 2).floor()) && lines == Beats(lines.floor()))
                study = setDivision(study, beat, static_cast<BeatDivision>(parts));
        }
    }
    return study;
}

std::vector<FreeNote> tapped(const Study& study, const Places& line, const Case& how, std::mt19937& random) {
    std::normal_distribution<double> off(0, 1);
    std::vector<FreeNote> notes;
    for (std::size_t i = 0; i < line.size(); ++i) {
        const Seconds begin = playedTime(study, line[i]);
        const Seconds end = i + 1 < line.size() ? playedTime(study, line[i + 1]) : begin + Seconds(0.2);
        const Seconds shift{how.scatter * off(random) + how.lag};
        notes.push_back({{begin + shift, begin + shift + Seconds((end - begin).value * 0.85)},
                         60 + static_cast<int>(i % 5)});
    }
    return notes;
}

Places onsetsOf(const RhythmProposal& proposal) {
    Places places;
    for (const ProposedNote& note : proposal.notes)
        places.push_back(note.onset);
    return places;
}

/// Of beats with an onset in what was meant.
std::pair<int, int> beatsRight(const Places& meant, const Places& read) {
    std::pair<int, int> count{0, 0};
    for (std::int64_t beat = firstBeat; beat < firstBeat + 16; ++beat) {
        bool any = false;
        bool same = meant.size() == read.size();
        for (std::size_t i = 0; i < meant.size(); ++i) {
            if (meant[i].floor() != beat) continue;
            any = true;
            same = same && read[i] == meant[i];
        }
        count.first += any && same ? 1 : 0;
        count.second += any ? 1 : 0;
    }
    return count;
}

/// Which reading of a beat is the one that was meant; nothing where it is none of those a user looks at.
std::optional<std::size_t> readingMeant(const RhythmReader& reader, std::size_t beat, const Places& meant) {
    const BeatChoice& choice = reader.beats()[beat];
    for (std::size_t i = 0; i < std::min(choice.readings.size(), readingsLookedAt); ++i) {
        const BeatFigure& figure = choice.readings[i].figure;
        bool same = true;
        for (std::size_t k = 0; k < figure.lines.size(); ++k)
            same = same && choice.firstPlace + k < meant.size() &&
                   meant[choice.firstPlace + k] ==
                       choice.beat.begin + choice.beat.length() * figure.lines[k] /
                                               static_cast<std::int64_t>(figure.division);
        if (same) return i;
    }
    return std::nullopt;
}

/// As a user does it: the first beat that is read wrong gets its right reading, until all are right. How many
/// beats were put right; nothing where that is not on offer.
std::optional<int> picksNeeded(const RhythmReader& reader, const Places& meant) {
    std::map<std::size_t, std::size_t> chosen;
    for (;;) {
        const auto proposal = reader.with(chosen);
        if (!proposal) return std::nullopt;
        if (onsetsOf(*proposal) == meant) return static_cast<int>(chosen.size());
        std::size_t wrong = 0;
        std::optional<std::size_t> right;
        for (; wrong < reader.beats().size(); ++wrong) {
            right = readingMeant(reader, wrong, meant);
            if (!right || *right != proposal->taken[wrong]) break;
        }
        // Onsets so near to each other that they were taken for a chord.
        if (wrong == reader.beats().size()) return std::nullopt;
        if (!right || chosen.contains(wrong)) return std::nullopt;
        chosen[wrong] = *right;
    }
}

struct Score {
    int first = 0;
    int among = 0;
    int byPicks = 0;
    int picks = 0;
    int beats = 0;
    int beatsInAll = 0;
};

void measure(const Case& how) {
    std::mt19937 random(20260501);
    Score score;
    for (int i = 0; i < linesEach; ++i) {
        const Places meant = how.draw(random);
        const Study study = studyAt(how.tempo, how.swing);
        const auto notes = tapped(divided(study, meant), meant, how, random);
        const RhythmReader reader(study, notes);
        const auto proposals = reader.proposals();
        const Places read = proposals.empty() ? Places{} : onsetsOf(proposals.front());
        score.first += read == meant ? 1 : 0;
        score.among += std::any_of(proposals.begin(), proposals.end(),
                                   [&](const RhythmProposal& each) { return onsetsOf(each) == meant; })
                           ? 1
                           : 0;
        if (const auto picks = picksNeeded(reader, meant)) {
            ++score.byPicks;
            score.picks += *picks;
        }
        const auto [right, all] = beatsRight(meant, read);
        score.beats += right;
        score.beatsInAll += all;
    }
    std::printf("%s\t%.0f\t%.0f:1\t%.0f\t%+.0f\t%.0f\t%.0f\t%.1f\t%.0f\t%.1f\n", how.name, how.tempo,
                how.swing, how.scatter * 1000, how.lag * 1000, 100.0 * score.first / linesEach,
                100.0 * score.among / linesEach, 100.0 * score.beats / score.beatsInAll,
                100.0 * score.byPicks / linesEach, score.byPicks > 0 ? 1.0 * score.picks / score.byPicks : 0);
}

} // namespace
} // namespace earwright

int main() {
    using namespace earwright;
    std::puts("lines\ttempo\tswing\tscatter_ms\tlag_ms\tfirst_%\tamong_six_%\tbeats_%\tby_picks_%\tpicks");
    for (const double scatter : {0.01, 0.02, 0.03, 0.04})
        measure({"beat by beat", drawnBeatByBeat, 120, 1, scatter, 0});
    for (const double scatter : {0.01, 0.02, 0.03, 0.04})
        measure({"phrases", drawnAsPhrase, 120, 1, scatter, 0});
    for (const double lag : {-0.03, 0.03, 0.045})
        measure({"phrases", drawnAsPhrase, 120, 1, 0.02, lag});
    for (const double scatter : {0.01, 0.02, 0.03})
        measure({"phrases", drawnAsPhrase, 180, 1, scatter, 0});
    for (const double scatter : {0.02, 0.03})
        measure({"phrases", drawnAsPhrase, 140, 2, scatter, 0});
    for (const double scatter : {0.02, 0.03})
        measure({"otherwise", drawnOtherwise, 120, 1, scatter, 0});
    for (const double scatter : {0.01, 0.02, 0.03})
        measure({"triplets over two beats", drawnWithTripletsOverTwo, 120, 1, scatter, 0});
    for (const double scatter : {0.01, 0.02})
        measure({"triplets over two beats", drawnWithTripletsOverTwo, 180, 1, scatter, 0});
    for (const double tempo : {120.0, 180.0})
        for (const double scatter : {0.01, 0.02, 0.03}) {
            measure({"triplets over four beats", drawnWithTripletsOverFour, tempo, 1, scatter, 0});
            measure({"quintuplets over two beats", drawnWithQuintupletsOverTwo, tempo, 1, scatter, 0});
        }
    return 0;
}
