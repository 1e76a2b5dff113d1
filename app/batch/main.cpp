// The headless tool: one command a call, data on stdout, one sentence on stderr when something is wrong.
#include "app/batch/Arguments.h"
#include "app/batch/BeatsCommand.h"
#include "app/batch/BounceCommand.h"
#include "app/batch/CheckCommand.h"
#include "app/batch/ChordsCommand.h"
#include "app/batch/ConvertCommand.h"
#include "app/batch/EarCommand.h"
#include "app/batch/FeelCommand.h"
#include "app/batch/HintCommand.h"
#include "app/batch/PlayCommand.h"
#include "app/batch/TuningCommand.h"

#include <cstdio>
#include <span>
#include <string>
#include <vector>

namespace {

using earwright::batch::exitDone;
using earwright::batch::exitUsage;

struct Command {
    const char* name;
    const char* usage;
    int (*run)(std::span<const std::string> words);
};

constexpr const char* heading = "Usage: earwright-batch COMMAND …\n";

const std::vector<Command>& commands() {
    static const std::vector<Command> all{
        {"check", earwright::batch::checkUsage, earwright::batch::runCheck},
        {"chords", earwright::batch::chordsUsage, earwright::batch::runChords},
        {"ear", earwright::batch::earUsage, earwright::batch::runEar},
        {"feel", earwright::batch::feelUsage, earwright::batch::runFeel},
        {"hint", earwright::batch::hintUsage, earwright::batch::runHint},
        {"tuning", earwright::batch::tuningUsage, earwright::batch::runTuning},
        {"beats", earwright::batch::beatsUsage, earwright::batch::runBeats},
        {"bounce", earwright::batch::bounceUsage, earwright::batch::runBounce},
        {"convert", earwright::batch::convertUsage, earwright::batch::runConvert},
        {"play", earwright::batch::playUsage, earwright::batch::runPlay},
    };
    return all;
}

int printUsage(std::FILE* to, int exitCode) {
    std::fputs(heading, to);
    for (const Command& command : commands())
        std::fprintf(to, "  %s\n", command.usage);
    return exitCode;
}

} // namespace

int main(int argc, char** argv) {
    const std::vector<std::string> words(argv + 1, argv + argc);
    if (words.empty()) return printUsage(stderr, exitUsage);
    if (words.front() == "--help" || words.front() == "-h") return printUsage(stdout, exitDone);
    for (const Command& command : commands())
        if (words.front() == command.name) return command.run(std::span(words).subspan(1));
    std::fprintf(stderr, "earwright-batch: There is no command %s.\n", words.front().c_str());
    return printUsage(stderr, exitUsage);
}
