#include "app/batch/ChordsCommand.h"

#include "app/batch/Arguments.h"
#include "app/batch/Listening.h"
#include "core/check/StudyChords.h"
#include "core/theory/ChordDegree.h"

#include <cstdio>
#include <vector>

namespace earwright::batch {

namespace {

std::string nameOn(const Chord& chord, int name) {
    return toString(nameHeardOn(name, chord));
}

std::string namesOn(const Chord& chord, const std::vector<int>& names) {
    std::string text;
    for (const int name : names)
        text += (text.empty() ? "" : ",") + nameOn(chord, name);
    return text;
}

/// What the bass plays where that is neither the chord's root nor its written bass, and either is hardly
/// heard.
std::string otherBass(const CheckedChord& chord) {
    const BassAnswer& bass = chord.answer.bass;
    const bool isOther = bass.verdict != Verdict::Supported && bass.played && *bass.played != bass.expected &&
                         *bass.played != chord.symbol.chord->root.pitchClass();
    return isOther ? nameOn(*chord.symbol.chord, *bass.played) : "";
}

/// The beat is counted from 1, in the lower number of the bar's own meter.
void print(const CheckedChord& chord, const MeterMap& meters) {
    const ChordAnswer& answer = chord.answer;
    const Chord& symbol = *chord.symbol.chord;
    std::printf("%lld\t%.3f\t%.3f\t%.3f\t%s\t%s\t%.4f\t%s\t%s\t%s\t%s", static_cast<long long>(chord.bar),
                meters.inOwnBeats(chord.withinBar, chord.bar).toDouble() + 1, chord.range.begin.value,
                chord.range.end.value, toString(chord.symbol).c_str(), toString(answer.verdict), answer.score,
                namesOn(symbol, answer.heardAgainst).c_str(), namesOn(symbol, answer.missing).c_str(),
                otherBass(chord).c_str(), namesOn(symbol, answer.heard).c_str());
    const BassAnswer& bass = answer.bass;
    std::printf("\t%s\t%s\t%.4f\t%s\t%.2f\n", nameOn(symbol, bass.expected).c_str(), toString(bass.verdict),
                bass.score, bass.played ? nameOn(symbol, *bass.played).c_str() : "", bass.clearness);
}

} // namespace

int runChords(std::span<const std::string> words) {
    const auto arguments = Arguments::parse(words, 1, {});
    if (!arguments) return complain(arguments.error(), exitUsage);
    const auto heard = listenToStudy(arguments->alone(0));
    if (!heard) return complain(heard.error(), exitInput);
    const auto chords =
        checkChords(heard->study, {Seconds(0), heard->recording.duration()}, heard->recording);
    if (!chords) return complain(chords.error(), exitInput);
    std::printf("bar\tbeat\tstart_s\tend_s\tchord\tverdict\tscore\theard_against\tmissing\tbass\theard"
                "\tbass_expected\tbass_verdict\tbass_score\tbass_played\tbass_clearness\n");
    for (const CheckedChord& chord : *chords)
        print(chord, heard->study.meters());
    return exitDone;
}

} // namespace earwright::batch
