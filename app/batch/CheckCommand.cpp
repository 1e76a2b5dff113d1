#include "app/batch/CheckCommand.h"

#include "app/batch/Arguments.h"
#include "app/batch/ClaimsTable.h"
#include "app/batch/Listening.h"
#include "core/check/RecordingCheck.h"
#include "core/check/StudyCheck.h"
#include "core/sound/ContentHash.h"
#include "core/study/RecordingLocator.h"
#include "core/study/StudyFile.h"

#include <cstdio>
#include <optional>

namespace earwright::batch {

namespace {

constexpr const char* header = "kind\tonset_s\tdur_s\tmidi\tverdict\tscore\tsuggested_midi";

void printClaimed(const Range<Seconds>& range, int midi, Verdict verdict, double score,
                  const std::optional<int>& suggested) {
    std::printf("claimed\t%.6f\t%.6f\t%d\t%s\t%.4f\t%s", range.begin.value, range.length().value, midi,
                toString(verdict), score, suggested ? std::to_string(*suggested).c_str() : "");
}

void printUnwritten(const UnwrittenSound& sound) {
    std::printf("unwritten\t%.6f\t%.6f\t%d\t\t%.4f\t", sound.range.begin.value, sound.range.length().value,
                sound.midi, sound.score);
}

int checkAudio(const std::string& audio, const std::string& notes) {
    const auto claims = readClaims(notes);
    if (!claims) return complain(claims.error(), exitInput);
    const auto recording = listenTo(audio);
    if (!recording) return complain(recording.error(), exitInput);
    const auto check = checkRecording(*recording, *claims);
    if (!check) return complain(check.error(), exitInput);
    std::printf("%s\n", header);
    for (std::size_t i = 0; i < claims->size(); ++i) {
        const Claim& claim = (*claims)[i];
        const ClaimAnswer& answer = check->answers[i];
        printClaimed(claim.range, claim.midi, answer.verdict, answer.score, answer.suggestedMidi);
        std::printf("\n");
    }
    for (const UnwrittenSound& sound : check->unwritten) {
        printUnwritten(sound);
        std::printf("\n");
    }
    return exitDone;
}

/// The bar, and the beat in it counted from 1.
void printPlace(const Study& study, double beats) {
    const Beats nearest = Beats::nearest(beats, 1000);
    std::printf("\t%lld\t%.3f\n", static_cast<long long>(study.meter.barOf(nearest)),
                study.meter.withinBar(nearest).toDouble() + 1);
}

int checkStudyFile(const std::string& path) {
    const auto study = StudyFile::read(path);
    if (!study) return complain(study.error(), exitInput);
    const auto audio = locate(study->recording, path, [](const auto& file) { return contentHash(file); });
    if (!audio) return complain(audio.error(), exitInput);
    const auto recording = listenTo(*audio);
    if (!recording) return complain(recording.error(), exitInput);
    const auto check = checkStudy(*study, *recording);
    if (!check) return complain(check.error(), exitInput);
    std::printf("%s\tbar\tbeat\n", header);
    for (const CheckedNote& note : check->notes) {
        printClaimed(note.range, note.midi, note.verdict, note.score, note.suggestedMidi);
        printPlace(*study, study->beatMap.beatsAt(note.range.begin));
    }
    for (const UnwrittenSound& sound : check->unwritten) {
        printUnwritten(sound);
        printPlace(*study, study->beatMap.beatsAt(sound.range.begin));
    }
    return exitDone;
}

} // namespace

int runCheck(std::span<const std::string> words) {
    const auto arguments = Arguments::parse(words, 1, {"--notes"});
    if (!arguments) return complain(arguments.error(), exitUsage);
    const std::string& input = arguments->alone(0);
    const auto notes = arguments->text("--notes");
    const bool isStudy = input.ends_with(".study");
    if (isStudy && notes)
        return complain({ErrorKind::OutOfRange, "A study has its own notes; leave --notes out.", ""},
                        exitUsage);
    if (!isStudy && !notes)
        return complain({ErrorKind::OutOfRange,
                         "check needs a study, or --notes with a table of notes beside a recording.", ""},
                        exitUsage);
    return isStudy ? checkStudyFile(input) : checkAudio(input, *notes);
}

} // namespace earwright::batch
