#include "app/batch/HintCommand.h"

#include "app/batch/Arguments.h"
#include "app/batch/ClaimsTable.h"
#include "app/batch/FocusWords.h"
#include "app/batch/Listening.h"
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
                                                       const HeardPart& part) {
    std::vector<std::optional<PitchHint>> hints(spans.size());
    for (const Passage& passage : passagesOf(spans, recording.duration())) {
        const auto evidence = recording.passage(passage.range, part);
        if (!evidence) return evidence.error();
        std::vector<Range<Seconds>> members;
        for (const std::size_t index : passage.members)
            members.push_back(spans[index]);
        const std::vector<PitchHint> found = pitchHints(*evidence, members);
        for (std::size_t i = 0; i < members.size(); ++i)
            if (members[i].begin < recording.duration()) hints[passage.members[i]] = found[i];
    }
    return hints;
}

/// What the options say is listened to.
Result<HeardPart> partOf(const Arguments& arguments) {
    HeardPart part;
    const auto band = arguments.twoNumbers("--band", Band::lowestHertz, Band::highestHertz);
    if (!band) return band.error();
    if (*band) part.band = Band{(*band)->first, (*band)->second};
    const auto word = arguments.text("--focus");
    if (!word) return part;
    const auto focus = focusNamed(*word);
    if (!focus)
        return Error{ErrorKind::OutOfRange,
                     "The option --focus takes all, left, right, centre or sides, not “" + *word + "”.", ""};
    part.focus = *focus;
    return part;
}

} // namespace

int runHint(std::span<const std::string> words) {
    const auto arguments = Arguments::parse(words, 1, {"--spans", "--focus"}, {"--band"});
    if (!arguments) return complain(arguments.error(), exitUsage);
    const auto path = arguments->text("--spans");
    if (!path)
        return complain({ErrorKind::OutOfRange, "hint needs --spans with a table of spans.", ""}, exitUsage);
    const auto part = partOf(*arguments);
    if (!part) return complain(part.error(), exitUsage);
    const auto spans = readSpans(*path);
    if (!spans) return complain(spans.error(), exitInput);
    const auto recording = listenTo(arguments->alone(0));
    if (!recording) return complain(recording.error(), exitInput);
    const auto hints = hintsFor(*recording, *spans, *part);
    if (!hints) return complain(hints.error(), exitInput);
    std::printf("start_s\tend_s\tbest_midi\tconfidence\n");
    for (std::size_t i = 0; i < spans->size(); ++i) {
        const Range<Seconds>& span = (*spans)[i];
        const auto& hint = (*hints)[i];
        std::printf("%.4f\t%.4f\t%s\t%.4f\n", span.begin.value, span.end.value,
                    hint && hint->confidence > leastConfidence ? std::to_string(hint->bestMidi).c_str() : "",
                    hint ? hint->confidence : 0.0);
    }
    return exitDone;
}

} // namespace earwright::batch
