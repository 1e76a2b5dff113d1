#include "app/batch/FeelCommand.h"

#include "app/batch/Arguments.h"
#include "app/batch/Listening.h"
#include "core/check/Feel.h"
#include "core/check/StudyPlaying.h"
#include "core/study/PlayedTime.h"

#include <cstdio>

namespace earwright::batch {

namespace {

/// What is listened to at once.
struct Line {
    std::string name;
    Range<Seconds> range;
};

/// The phrases; all notes where nothing is a phrase.
std::vector<Line> linesOf(const Study& study) {
    std::vector<Line> lines;
    for (const Span& phrase : study.spansOf(SpanKind::Phrase))
        lines.push_back({phrase.name, phrase.range});
    if (lines.empty() && !study.notes.empty() && study.beatMap.hasTempo()) {
        const Seconds first = playedTime(study, study.notes.front().onset);
        lines.push_back({"", {first, playedTime(study, study.notes.back().end())}});
    }
    return lines;
}

void print(const Line& line, std::size_t notes, const Feel& feel) {
    constexpr double milli = 1000;
    std::printf("%s\t%.3f\t%.3f\t%zu\t%d\t", line.name.c_str(), line.range.begin.value, line.range.end.value,
                notes, feel.pairsHeard);
    if (const auto& swing = feel.swing)
        std::printf("%.3f\t%.3f\t%.3f\t%.1f", swing->ratio, swing->least, swing->most,
                    milli * swing->shortEighth.value);
    else
        std::fputs("\t\t\t", stdout);
    std::printf("\t%d\t", feel.notesHeard);
    if (const auto& placement = feel.placement)
        std::printf("%.1f\t%.1f\n", milli * placement->behind.value, milli * placement->spread.value);
    else
        std::fputs("\t\n", stdout);
}

} // namespace

int runFeel(std::span<const std::string> words) {
    const auto arguments = Arguments::parse(words, 1, {});
    if (!arguments) return complain(arguments.error(), exitUsage);
    const auto heard = listenToStudy(arguments->alone(0));
    if (!heard) return complain(heard.error(), exitInput);
    std::printf(
        "phrase\tstart_s\tend_s\tnotes\tpairs\tswing_ratio\tswing_least\tswing_most\tshort_eighth_ms\t"
        "on_beat\tplacement_ms\tplacement_spread_ms\n");
    for (const Line& line : linesOf(heard->study)) {
        const std::vector<Note> notes = notesPlayedIn(heard->study, line.range);
        const auto played = measurePlaying(heard->study, notes, heard->recording);
        if (!played) return complain(played.error(), exitInput);
        print(line, notes.size(), feelOf(heard->study, notes, *played));
    }
    return exitDone;
}

} // namespace earwright::batch
