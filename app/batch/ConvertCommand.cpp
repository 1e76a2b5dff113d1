#include "app/batch/ConvertCommand.h"

#include "app/batch/Arguments.h"
#include "app/batch/OverwrittenInput.h"
#include "core/exchange/CompressedMusicXml.h"
#include "core/exchange/MusicXml.h"
#include "core/exchange/OpenForeign.h"
#include "core/exchange/StandardMidi.h"
#include "core/study/AtomicFile.h"
#include "core/study/StudyFile.h"

#include <cstdio>
#include <filesystem>

namespace earwright::batch {

namespace {

using Writer = Result<std::string> (*)(const Study& study);

/// How files of this kind are written; null for none.
Writer writerFor(const std::string& kind) {
    if (kind == ".mid") return standardMidi;
    if (kind == ".musicxml") return musicXml;
    if (kind == ".mxl")
        return [](const Study& study) {
            const auto text = musicXml(study);
            return text ? compressed(*text) : text;
        };
    if (kind == ".study")
        return [](const Study& study) { return Result<std::string>(StudyFile::text(study)); };
    return nullptr;
}

/// The study in a file of any kind that can be read; what of it was left out goes to stderr.
Result<Study> readAny(const std::string& in, const std::string& part) {
    if (!isForeign(in)) return StudyFile::read(in);
    Result<Imported> imported = openForeign(in, part);
    if (!imported) return imported.error();
    for (const std::string& sentence : imported->leftOut)
        std::fprintf(stderr, "earwright-batch: %s: %s\n", in.c_str(), sentence.c_str());
    return imported->study;
}

} // namespace

int runConvert(std::span<const std::string> words) {
    const auto arguments = Arguments::parse(words, 2, {"--part"});
    if (!arguments) return complain(arguments.error(), exitUsage);
    const std::string& in = arguments->alone(0);
    const std::string& out = arguments->alone(1);
    const Writer write = writerFor(std::filesystem::path(out).extension().string());
    if (!write)
        return complain(
            {ErrorKind::OutOfRange,
             out + " ends in none of .study, .musicxml, .mxl and .mid, the kinds that can be written.", ""},
            exitUsage);
    const auto part = arguments->text("--part");
    if (part && !isForeign(in))
        return complain(
            {ErrorKind::OutOfRange,
             "The option --part is for files from elsewhere; " + in + " is a study, which has one line.", ""},
            exitUsage);
    const auto study = readAny(in, part.value_or(""));
    if (!study) return complain(study.error(), exitInput);
    const std::string recording = (std::filesystem::path(in).parent_path() / study->recording.path).string();
    if (const auto refused = overwrittenInput(out, {in, recording})) return complain(*refused, exitUsage);
    const auto bytes = write(*study);
    if (!bytes) return complain(bytes.error(), exitInput);
    const auto written = replaceFile(out, *bytes);
    return written ? exitDone : complain(written.error(), exitInput);
}

} // namespace earwright::batch
