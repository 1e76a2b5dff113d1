#include "tests/reference/fluidsynth/RenderedSound.h"

#include "tests/core/sound/WrittenFile.h"

#include <cstdio>
#include <cstdlib>
#include <string>

namespace earwright::tests {

namespace {

/// Where Debian's fluid-soundfont-gm puts its font.
constexpr const char* font = "/usr/share/sounds/sf2/FluidR3_GM.sf2";

} // namespace

RecordingEvidence rendered(const MidiFile& midi) {
    const ScratchFolder folder;
    const std::string in = (folder / "line.mid").string();
    const std::string out = (folder / "line.wav").string();
    midi.write(in);
    const std::string command = "fluidsynth -ni -q -R 0 -C 0 -g 0.5 -r 44100 -T wav -F '" + out + "' " +
                                font + " '" + in + "' >/dev/null 2>&1";
    if (std::system(command.c_str()) != 0) {
        std::fprintf(stderr, "fluidsynth with %s is needed for these tests.\n", font);
        std::abort();
    }
    const auto recording = Recording::open(out);
    if (!recording) {
        std::fprintf(stderr, "%s\n", describe(recording.error()).c_str());
        std::abort();
    }
    return *RecordingEvidence::listen(*recording);
}

} // namespace earwright::tests
