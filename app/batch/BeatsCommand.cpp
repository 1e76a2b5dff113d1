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

Result<BeatWish> wishIn(const Arguments& arguments) {
    BeatWish wish;
    if (const auto text = arguments.text("--taps")) {
        auto taps = tapsIn(*text);
        if (!taps) return taps.error();
        wish.taps = *std::move(taps);
    }
    if (!arguments.text("--meter")) return wish;
    const auto meter = arguments.number("--meter", 2, 12, 4);
    if (!meter) return meter.error();
    if (wish.taps.empty() || *meter != std::round(*meter))
        return Error{ErrorKind::OutOfRange,
                     "The option --meter takes the beats of a bar, counted from the first of --taps.", ""};
    wish.beatsPerBar = static_cast<int>(*meter);
    return wish;
}

/// The beats of a stretch, as far as the recording goes.
Result<std::vector<FoundBeat>> beatsIn(Recording& recording, Range<Seconds> stretch, const BeatWish& wish) {
    stretch.end = std::min(stretch.end, recording.duration());
    if (stretch.end <= stretch.begin) return std::vector<FoundBeat>();
    const auto sound = AnalysisSound::readStretch(recording, stretch);
    if (!sound) return sound.error();
    const auto heard = BeatActivation::listen(*sound, stretch);
    if (!heard) return heard.error();
    return findBeats(*heard, wish);
}

} // namespace

int runBeats(std::span<const std::string> words) {
    const auto arguments = Arguments::parse(words, 1, {"--taps", "--meter", "--from", "--to"});
    if (!arguments) return complain(arguments.error(), exitUsage);
    const auto wish = wishIn(*arguments);
    if (!wish) return complain(wish.error(), exitUsage);
    const auto from = arguments->number("--from", 0, latest, 0);
    if (!from) return complain(from.error(), exitUsage);
    const auto to = arguments->number("--to", 0, latest, latest);
    if (!to) return complain(to.error(), exitUsage);
    if (*to <= *from)
        return complain({ErrorKind::OutOfRange, "The option --to takes a time after --from.", ""}, exitUsage);
    const auto recording = Recording::open(arguments->alone(0));
    if (!recording) return complain(recording.error(), exitInput);
    const auto beats = beatsIn(**recording, {Seconds(*from), Seconds(*to)}, *wish);
    if (!beats) return complain(beats.error(), exitInput);
    std::printf("time_s\tbar_position\tconfidence\n");
    for (const FoundBeat& beat : *beats)
        std::printf("%.4f\t%d\t%.3f\n", beat.time.value, beat.barPosition, beat.confidence);
    return exitDone;
}

} // namespace earwright::batch
