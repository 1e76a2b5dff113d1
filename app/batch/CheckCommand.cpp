#include "app/batch/CheckCommand.h"

#include "app/batch/Arguments.h"
#include "app/batch/ClaimsTable.h"
#include "app/batch/Listening.h"
#include "app/batch/ListeningOptions.h"
#include "app/batch/PhrasingColumns.h"
#include "app/batch/TogetherWords.h"
#include "core/check/AsWritten.h"
#include "core/check/PhrasingMeasure.h"
#include "core/check/RecordingCheck.h"
#include "core/check/StudyCheck.h"
#include "core/check/StudyListening.h"
#include "core/check/StudyPlaying.h"

#include <cstdio>
#include <optional>
#include <vector>

namespace earwright::batch {

namespace {

constexpr const char* header = "kind\tonset_s\tdur_s\tmidi\tverdict\tscore\tsuggested_midi";

/// The last columns of all.
constexpr const char* lastColumns = "\tlistened\tbehind_ms\tbegins_s\ttogether";

struct CheckOptions {
    bool phrasing = false;
    ListeningWish wish;
    /// The line's instrument, where the command line says it.
    std::optional<LineInstrument> line;
};

/// Where it was listened, how far behind its place a supported note was found, where that is not at its
/// place, where one that is not supported begins instead, and what is off about all the notes of a run.
void printHeard(const HeardPart& part, Verdict verdict, Seconds behind,
                const std::optional<Seconds>& beginsAt, const std::optional<OffTogether>& together) {
    std::printf("\t%s\t", wordFor(part).c_str());
    if (verdict == Verdict::Supported && behind != Seconds(0)) std::printf("%.1f", 1000 * behind.value);
    std::printf("\t");
    if (beginsAt) std::printf("%.6f", beginsAt->value);
    std::printf("\t%s", wordsFor(together).c_str());
}

void printClaimed(const Range<Seconds>& range, int midi, Verdict verdict, double score,
                  const std::optional<int>& suggested) {
    std::printf("claimed\t%.6f\t%.6f\t%d\t%s\t%.4f\t%s", range.begin.value, range.length().value, midi,
                toString(verdict), score, suggested ? std::to_string(*suggested).c_str() : "");
}

void printUnwritten(const UnwrittenSound& sound) {
    std::printf("unwritten\t%.6f\t%.6f\t%d\t\t%.4f\t", sound.range.begin.value, sound.range.length().value,
                sound.midi, sound.score);
}

/// A trill that goes elsewhere: the other note that is written, if one is, and the one that is heard.
void printOtherTrill(const OtherTrill& trill) {
    std::printf("trill\t%.6f\t%.6f", trill.range.begin.value, trill.range.length().value);
    if (trill.written == 0)
        std::printf("\t\t");
    else
        std::printf("\t%d\t%s", trill.midi + trill.written, toString(trill.verdict));
    std::printf("\t\t%d", trill.midi + trill.heard);
}

/// How the notes are played, where that is asked for; else nothing.
Result<std::vector<NotePlaying>> playingOf(const RecordingEvidence& recording,
                                           const std::vector<PhrasingClaim>& claims,
                                           const CheckOptions& options) {
    if (!options.phrasing) return std::vector<NotePlaying>();
    return measurePhrasing(recording, claims, {}, {}, options.wish.part);
}

int checkAudio(const std::string& audio, const std::string& notes, const CheckOptions& options) {
    const auto claims = readClaims(notes);
    if (!claims) return complain(claims.error(), exitInput);
    const auto listened = listenTo(audio);
    if (!listened) return complain(listened.error(), exitInput);
    const auto recording = asWritten(*claims, *listened);
    if (!recording) return complain(recording.error(), exitInput);
    const auto check = checkRecording(*recording, *claims, {}, {}, options.wish);
    if (!check) return complain(check.error(), exitInput);
    const LineCharacter character = options.line ? characterOf(*options.line) : LineCharacter::Unknown;
    std::vector<PhrasingClaim> plain;
    for (const Claim& claim : *claims)
        plain.push_back({claim.range, claim.midi, {}, std::nullopt, character});
    const auto playing = playingOf(*recording, plain, options);
    if (!playing) return complain(playing.error(), exitInput);
    std::printf("%s", header);
    if (options.phrasing) printPhrasingHeader();
    std::printf("%s\n", lastColumns);
    for (std::size_t i = 0; i < claims->size(); ++i) {
        const Claim& claim = (*claims)[i];
        const ClaimAnswer& answer = check->answers[i];
        printClaimed(claim.range, claim.midi, answer.verdict, answer.score, answer.suggestedMidi);
        if (options.phrasing) printPhrasing({}, (*playing)[i], answer.verdict);
        printHeard(answer.listened, answer.verdict, answer.behind, answer.beginsAt, answer.together);
        std::printf("\n");
    }
    for (const UnwrittenSound& sound : check->unwritten) {
        printUnwritten(sound);
        if (options.phrasing) printNoPhrasing();
        std::printf("\t\t\t\t\n");
    }
    return exitDone;
}

/// The bar, and the beat in it counted from 1, in the lower number of the bar's own meter.
void printPlace(const Study& study, double beats) {
    const Beats nearest = Beats::nearest(beats, 1000);
    const MeterMap meters = study.meters();
    const std::int64_t bar = meters.barOf(nearest);
    std::printf("\t%lld\t%.3f", static_cast<long long>(bar),
                meters.inOwnBeats(meters.withinBar(nearest), bar).toDouble() + 1);
}

/// How the notes of a study are played, where that is asked for; else nothing.
Result<MeasuredNotes> playingOf(const Study& study, const RecordingEvidence& recording,
                                const CheckOptions& options) {
    if (!options.phrasing) return MeasuredNotes();
    return measureNotes(study, study.notes, recording, {}, {}, options.wish.part);
}

int checkStudyFile(const std::string& path, const CheckOptions& options) {
    const auto heard = listenToStudy(path);
    if (!heard) return complain(heard.error(), exitInput);
    const RecordingEvidence& recording = heard->recording;
    Study study = heard->study;
    // What the command line says of the line's instrument goes before what the study says.
    if (options.line) study.players.line = options.line;
    ListeningWish wish = options.wish;
    if (!options.line) wish.line = lineRangeOf(study);
    const auto check = checkStudy(study, recording, {}, wish);
    if (!check) return complain(check.error(), exitInput);
    const auto playing = playingOf(study, recording, options);
    if (!playing) return complain(playing.error(), exitInput);
    std::printf("%s\tbar\tbeat", header);
    if (options.phrasing) printPhrasingHeader();
    std::printf("%s\n", lastColumns);
    for (const CheckedNote& note : check->notes) {
        printClaimed(note.range, note.midi, note.verdict, note.score, note.suggestedMidi);
        printPlace(study, study.beatMap.beatsAt(note.range.begin));
        if (options.phrasing) {
            const MeasuredNote& measured = playing->at(note.note);
            printPhrasing(measured.claim.phrasing, measured.playing, note.verdict);
        }
        printHeard(note.listened, note.verdict, note.behind, note.beginsAt, note.together);
        std::printf("\n");
    }
    for (const OtherTrill& trill : check->otherTrills) {
        printOtherTrill(trill);
        printPlace(study, study.beatMap.beatsAt(trill.range.begin));
        if (options.phrasing) printNoPhrasing();
        std::printf("\t\t\t\n");
    }
    for (const UnwrittenSound& sound : check->unwritten) {
        printUnwritten(sound);
        printPlace(study, study.beatMap.beatsAt(sound.range.begin));
        if (options.phrasing) printNoPhrasing();
        std::printf("\t\t\t\t\n");
    }
    return exitDone;
}

} // namespace

int runCheck(std::span<const std::string> given) {
    // A word that stands for itself, wherever it is.
    std::vector<std::string> words(given.begin(), given.end());
    const bool phrasing = std::erase(words, "--phrasing") > 0;
    const auto arguments = Arguments::parse(words, 1, {"--notes", "--focus", "--range"}, {"--band"});
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
    const auto wish = wishIn(*arguments);
    if (!wish) return complain(wish.error(), exitUsage);
    const auto range = arguments->text("--range");
    const CheckOptions options{phrasing, *wish, range ? lineInstrumentFrom(*range) : std::nullopt};
    return isStudy ? checkStudyFile(input, options) : checkAudio(input, *notes, options);
}

} // namespace earwright::batch
