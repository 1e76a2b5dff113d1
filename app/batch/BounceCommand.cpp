#include "app/batch/BounceCommand.h"

#include "app/batch/Arguments.h"
#include "app/batch/OverwrittenInput.h"
#include "core/engine/Excerpt.h"
#include "core/sound/Recording.h"
#include "core/sound/SoundFileWriter.h"

#include <cmath>
#include <filesystem>
#include <optional>

namespace earwright::batch {

namespace {

/// Ends typed from a rounded display of the length may lie this far behind the last frame.
constexpr double endTolerance = 0.05;
constexpr double longestSeconds = 1e6;

struct Wish {
    std::string audio;
    std::string out;
    Playing playing;
    double from = 0;
    std::optional<double> to;
};

Error usage(const std::string& sentence) {
    return {ErrorKind::OutOfRange, sentence, ""};
}

Result<Wish> parse(std::span<const std::string> words) {
    const auto arguments =
        Arguments::parse(words, 2, {"--speed", "--semitones", "--cents", "--from", "--to"});
    if (!arguments) return arguments.error();
    const auto speed = arguments->number("--speed", 0.1, 2, 1);
    const auto semitones = arguments->number("--semitones", -12, 12, 0);
    const auto cents = arguments->number("--cents", -100, 100, 0);
    const auto from = arguments->number("--from", 0, longestSeconds, 0);
    const auto to = arguments->number("--to", 0, longestSeconds, 0);
    for (const auto* number : {&speed, &semitones, &cents, &from, &to})
        if (!*number) return number->error();
    if (std::nearbyint(*semitones) != *semitones || std::nearbyint(*cents) != *cents)
        return usage("The options --semitones and --cents take whole numbers.");
    Wish wish{arguments->alone(0), arguments->alone(1),
              Playing{*speed, static_cast<int>(*semitones), static_cast<int>(*cents)}, *from, std::nullopt};
    if (arguments->text("--to")) wish.to = *to;
    if (wish.to && *wish.to <= wish.from) return usage("The option --to takes a time after that of --from.");
    if (!SoundFileWriter::canWrite(wish.out))
        return usage(wish.out + " ends in neither .wav nor .flac, the kinds that can be written.");
    return wish;
}

Result<Done> write(const Wish& wish, const std::shared_ptr<Recording>& recording, double to) {
    const double seconds = (to - wish.from) / wish.playing.speed;
    const auto frames = std::llround(seconds * recording->rate().hertz);
    auto writer = SoundFileWriter::create(wish.out, recording->rate(), recording->channels(), frames);
    if (!writer) return writer.error();
    const auto rendered =
        renderExcerpt(recording, recording->rate().frames(Seconds(wish.from)), frames, wish.playing,
                      [&](std::span<const float> block) { return (*writer)->write(block); });
    if (!rendered) return rendered;
    return (*writer)->finish();
}

} // namespace

int runBounce(std::span<const std::string> words) {
    const auto wish = parse(words);
    if (!wish) return complain(wish.error(), exitUsage);
    const auto recording = Recording::open(wish->audio);
    if (!recording) return complain(recording.error(), exitInput);
    if (const auto refused = overwrittenInput(wish->out, {wish->audio})) return complain(*refused, exitUsage);
    const double end = (*recording)->duration().value;
    const double to = wish->to.value_or(end);
    if (wish->from >= end || to > end + endTolerance)
        return complain(usage("The options --from and --to take times within the recording, which lasts " +
                              std::to_string(end) + " s."),
                        exitUsage);
    const auto written = write(*wish, *recording, to);
    return written ? exitDone : complain(written.error(), exitInput);
}

} // namespace earwright::batch
