#include "app/batch/ConvertCommand.h"

#include "app/batch/Arguments.h"
#include "app/batch/OverwrittenInput.h"
#include "core/exchange/MusicXml.h"
#include "core/exchange/StandardMidi.h"
#include "core/study/AtomicFile.h"
#include "core/study/StudyFile.h"

#include <filesystem>

namespace earwright::batch {

int runConvert(std::span<const std::string> words) {
    const auto arguments = Arguments::parse(words, 2, {});
    if (!arguments) return complain(arguments.error(), exitUsage);
    const std::string& in = arguments->alone(0);
    const std::string& out = arguments->alone(1);
    const std::string kind = std::filesystem::path(out).extension().string();
    if (kind != ".musicxml" && kind != ".mid")
        return complain({ErrorKind::OutOfRange,
                         out + " ends in neither .musicxml nor .mid, the kinds that can be written.", ""},
                        exitUsage);
    const auto study = StudyFile::read(in);
    if (!study) return complain(study.error(), exitInput);
    const std::string recording = (std::filesystem::path(in).parent_path() / study->recording.path).string();
    if (const auto refused = overwrittenInput(out, {in, recording})) return complain(*refused, exitUsage);
    const auto bytes = kind == ".mid" ? standardMidi(*study) : musicXml(*study);
    if (!bytes) return complain(bytes.error(), exitInput);
    const auto written = replaceFile(out, *bytes);
    return written ? exitDone : complain(written.error(), exitInput);
}

} // namespace earwright::batch
