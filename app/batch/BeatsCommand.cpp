#include "app/batch/BeatsCommand.h"

#include "app/batch/Arguments.h"
#include "core/listening/BeatFinder.h"
#include "core/sound/Recording.h"

#include <algorithm>
#include <charconv>
#include <cmath>
#include <cstdio>
#include <string_view>
#include <vector>

namespace earwright::batch {

namespace {

constexpr double latest = 1e6;

/// Times between commas, rising. Error: OutOfRange.
Result<std::vector<Seconds>> tapsIn(std::string_view text) {
    std::vector<Seconds> taps;
    for (std::size_t at = 0; at <= text.size();) {
        const std::string_view word = text.substr(at, std::min(text.find(',', at), text.size()) - at);
        double value = -1;
        const auto read = std::from_chars(word.data(), word.data() + word.size(), value);
        const bool isNumber = read.ec == std::errc() && read.ptr == word.data() + word.size();
        const bool isLater = taps.empty() || value > taps.back().value;
        if (!isNumber || !(value >= 0 && value <= latest) || !isLater)
            return Error{ErrorKind::OutOfRange,
                         "The option --taps takes times in seconds, rising, with commas between them: "
                         "--taps 12.31,12.85. “" +
                             std::string(text) + "” is not that.",
                         ""};
        taps.emplace_back(value);
        at += word.size() + 1;
    }
    if (taps.size() < 2)
        return Error{ErrorKind::OutOfRange, "The option --taps needs two taps at least, a beat apart.", ""};
    return taps;
}

} // namespace

int runBeats(std::span<const std::string> words) {
    const auto arguments = Arguments::parse(words, 1, {"--taps"});
    if (!arguments) return complain(arguments.error(), exitUsage);
    std::vector<Seconds> taps;
    if (const auto text = arguments->text("--taps")) {
        auto read = tapsIn(*text);
        if (!read) return complain(read.error(), exitUsage);
        taps = *std::move(read);
    }
    const auto recording = Recording::open(arguments->alone(0));
    if (!recording) return complain(recording.error(), exitInput);
    const auto sound = AnalysisSound::read(**recording);
    if (!sound) return complain(sound.error(), exitInput);
    const auto heard = BeatActivation::listen(*sound, {Seconds(0), sound->duration()});
    if (!heard) return complain(heard.error(), exitInput);
    std::printf("time_s\tbar_position\tconfidence\n");
    for (const FoundBeat& beat : findBeats(*heard, taps))
        std::printf("%.4f\t%d\t%.3f\n", beat.time.value, beat.barPosition, beat.confidence);
    return exitDone;
}

} // namespace earwright::batch
