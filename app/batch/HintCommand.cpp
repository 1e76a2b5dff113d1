#include "app/batch/HintCommand.h"

#include "app/batch/Arguments.h"
#include "app/batch/ClaimsTable.h"
#include "app/batch/Listening.h"
#include "app/batch/ListeningOptions.h"
#include "core/listening/ClearestPassage.h"
#include "core/listening/Passages.h"
#include "core/listening/PitchHint.h"

#include <cstdio>
#include <optional>

namespace earwright::batch {

namespace {

/// A pitch that is right one time in twenty at most is none: silence, or noise alone.
constexpr double leastConfidence = 0.05;

/// A hint for each span, none for those outside the recording.
Result<std::vector<std::optional<PitchHint>>> hintsFor(const RecordingEvidence& recording,
                                                       const std::vector<Range<Seconds>>& spans,
                                                       const ListeningWish& wish) {
    std::vector<std::optional<PitchHint>> hints(spans.size());
    for (const Passage& passage : passagesOf(spans, recording.duration())) {
        std::vector<Range<Seconds>> members;
        for (const std::size_t index : passage.members)
            members.push_back(spans[index]);
        const auto evidence = clearestPassage(recording, passage.range, members, wish);
        if (!evidence) return evidence.error();
        const std::vector<PitchHint> found = pitchHints(*evidence, members);
        for (std::size_t i = 0; i < members.size(); ++i)
            if (members[i].begin < recording.duration()) hints[passage.members[i]] = found[i];
    }
    return hints;
}

} // namespace

int runHint(std::span<const std::string> words) {
    const auto arguments = Arguments::parse(words, 1, {"--spans", "--focus", "--range"}, {"--band"});
    if (!arguments) return complain(arguments.error(), exitUsage);
    const auto path = arguments->text("--spans");
    if (!path)
        return complain({ErrorKind::OutOfRange, "hint needs --spans with a table of spans.", ""}, exitUsage);
    const auto wish = wishIn(*arguments);
    if (!wish) return complain(wish.error(), exitUsage);
    const auto spans = readSpans(*path);
    if (!spans) return complain(spans.error(), exitInput);
    const auto recording = listenTo(arguments->alone(0));
    if (!recording) return complain(recording.error(), exitInput);
    const auto hints = hintsFor(*recording, *spans, *wish);
    if (!hints) return complain(hints.error(), exitInput);
    std::printf("start_s\tend_s\tbest_midi\tconfidence\tlistened\n");
    for (std::size_t i = 0; i < spans->size(); ++i) {
        const Range<Seconds>& span = (*spans)[i];
        const auto& hint = (*hints)[i];
        std::printf("%.4f\t%.4f\t%s\t%.4f\t%s\n", span.begin.value, span.end.value,
                    hint && hint->confidence > leastConfidence ? std::to_string(hint->bestMidi).c_str() : "",
                    hint ? hint->confidence : 0.0, hint ? wordFor(hint->listened).c_str() : "");
    }
    return exitDone;
}

} // namespace earwright::batch
