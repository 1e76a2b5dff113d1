#include "app/batch/TuningCommand.h"

#include "app/batch/Arguments.h"
#include "app/batch/Listening.h"

#include <cstdio>

namespace earwright::batch {

int runTuning(std::span<const std::string> words) {
    const auto arguments = Arguments::parse(words, 1, {});
    if (!arguments) return complain(arguments.error(), exitUsage);
    const auto recording = listenTo(arguments->alone(0));
    if (!recording) return complain(recording.error(), exitInput);
    const Tuning& tuning = recording->tuning();
    std::printf("reference_hz\tcents\tconfidence\tdrift_cents\n%.3f\t%.2f\t%.3f\t%.2f\n",
                tuning.referenceHertz(), tuning.cents, tuning.confidence, recording->tuningCurve().reach());
    return exitDone;
}

} // namespace earwright::batch
