#include "app/batch/ConvertCommand.h"

#include "app/batch/Arguments.h"
#include "app/batch/Listening.h"
#include "app/batch/OverwrittenInput.h"
#include "core/check/StudyPlaying.h"
#include "core/exchange/OpenForeign.h"
#include "core/exchange/WriteForeign.h"
#include "core/study/AtomicFile.h"
#include "core/study/StudyFile.h"

#include <cstdio>
#include <filesystem>
#include <map>
#include <optional>

namespace earwright::batch {

namespace {

struct Wish {
    std::string in;
    std::string out;
    std::string part;
    MidiRhythm rhythm;
    ForeignWriter write;
    bool asPlayed = false;
};

Error usage(const std::string& sentence) {
    return {ErrorKind::OutOfRange, sentence, ""};
}

Result<Reading> readingFrom(const std::string& word) {
    static const std::map<std::string, Reading> readings{
        {"concert", Reading::Concert}, {"b-flat", Reading::BFlat},      {"e-flat", Reading::EFlat},
        {"tenor", Reading::Tenor},     {"baritone", Reading::Baritone}, {"guitar", Reading::GuitarOctave}};
    const auto found = readings.find(word);
    if (found != readings.end()) return found->second;
    return usage("The option --reading takes concert, b-flat, e-flat, tenor, baritone or guitar.");
}

Result<MusicXmlOptions> optionsFrom(const Arguments& arguments) {
    MusicXmlOptions options;
    const auto reading = readingFrom(arguments.text("--reading").value_or("concert"));
    if (!reading) return reading.error();
    options.reading = *reading;
    const std::string under = arguments.text("--under").value_or("nothing");
    if (under != "nothing" && under != "degrees")
        return usage("The option --under takes degrees or nothing: what stands under the notes.");
    options.degrees = under == "degrees";
    const std::string tab = arguments.text("--tab").value_or("places");
    if (tab != "none" && tab != "places" && tab != "part")
        return usage("The option --tab takes none, places (string and fret of each note) or part.");
    if (tab == "none") options.places = false;
    options.tablature = tab == "part";
    return options;
}

Result<MidiRhythm> rhythmFrom(const Arguments& arguments) {
    static const std::map<std::string, MidiRhythm> rhythms{
        {"fitting", MidiRhythm::Fitting}, {"ticks", MidiRhythm::Ticks}, {"hand", MidiRhythm::ByHand}};
    const auto found = rhythms.find(arguments.text("--rhythm").value_or("fitting"));
    if (found != rhythms.end()) return found->second;
    return usage("The option --rhythm takes ticks (a MIDI file's notes where their ticks are), hand (where a "
                 "listener would count what a hand played) or fitting (whichever they fit).");
}

Result<MidiOptions> midiOptionsFrom(const Arguments& arguments) {
    MidiOptions options;
    const std::string swing = arguments.text("--swing").value_or("played");
    if (swing != "played" && swing != "even")
        return usage("The option --swing takes played or even: where the notes of a swung passage stand.");
    options.swings = swing == "played";
    const auto tempo = arguments.number("--tempo", 10, 600, 120);
    if (!tempo) return tempo.error();
    if (arguments.text("--tempo")) options.tempo = *tempo;
    return options;
}

/// How files of the kind its name says are written.
Result<ForeignWriter> writerFor(const std::filesystem::path& out, const MusicXmlOptions& page,
                                const MidiOptions& midi) {
    if (out.extension() == ".study")
        return ForeignWriter(
            [out](const Study& study, const PlayedNotes&) { return StudyFile::checkedText(study, out); });
    const auto writer = foreignWriter(out, page, midi);
    return writer ? writer : usage(writer.error().message + " A study ends in .study.");
}

Result<Wish> parse(std::span<const std::string> given) {
    // A word that stands for itself, wherever it is.
    std::vector<std::string> words(given.begin(), given.end());
    const bool asPlayed = std::erase(words, "--as-played") > 0;
    const auto arguments = Arguments::parse(
        words, 2, {"--part", "--reading", "--under", "--tab", "--swing", "--tempo", "--rhythm"});
    if (!arguments) return arguments.error();
    const auto options = optionsFrom(*arguments);
    if (!options) return options.error();
    const auto midi = midiOptionsFrom(*arguments);
    if (!midi) return midi.error();
    const auto rhythm = rhythmFrom(*arguments);
    if (!rhythm) return rhythm.error();
    Wish wish{arguments->alone(0),
              arguments->alone(1),
              arguments->text("--part").value_or(""),
              *rhythm,
              {},
              asPlayed};
    const auto writer = writerFor(wish.out, *options, *midi);
    if (!writer) return writer.error();
    wish.write = *writer;
    if (asPlayed && (isForeign(wish.in) || !wish.out.ends_with(".mid")))
        return usage("The option --as-played is for a study, whose recording tells how it is played, and for "
                     "a .mid file.");
    if (arguments->text("--rhythm") && !isMidiFile(wish.in))
        return usage("The option --rhythm is for a MIDI file; " + wish.in +
                     " says itself where its notes stand.");
    if (!wish.part.empty() && !isForeign(wish.in))
        return usage("The option --part is for files from elsewhere; " + wish.in +
                     " is a study, which has one line.");
    return wish;
}

/// The study in a file of any kind that can be read; what of it was left out goes to stderr.
Result<Study> readAny(const Wish& wish) {
    const std::string& in = wish.in;
    if (!isForeign(in)) return StudyFile::read(in);
    Result<Imported> imported = openForeign(in, wish.part, wish.rhythm);
    if (!imported) return imported.error();
    for (const std::string& sentence : imported->leftOut)
        std::fprintf(stderr, "earwright-batch: %s: %s\n", in.c_str(), sentence.c_str());
    if (wish.rhythm == MidiRhythm::Fitting && imported->rhythm &&
        imported->rhythm->taken == MidiRhythm::ByHand)
        std::fprintf(
            stderr,
            "earwright-batch: %s: Its notes lie as a hand plays or swings them and are written where "
            "a listener would count them; --rhythm ticks writes them where their ticks are.\n",
            in.c_str());
    return imported->study;
}

/// How the notes are played in the study's recording, where that is asked for.
Result<PlayedNotes> playingFor(const Wish& wish) {
    if (!wish.asPlayed) return PlayedNotes();
    const auto heard = listenToStudy(wish.in);
    if (!heard) return heard.error();
    return measurePlaying(heard->study, heard->study.notes, heard->recording);
}

} // namespace

int runConvert(std::span<const std::string> words) {
    const auto wish = parse(words);
    if (!wish) return complain(wish.error(), exitUsage);
    const auto study = readAny(*wish);
    if (!study) return complain(study.error(), exitInput);
    const std::string recording =
        (std::filesystem::path(wish->in).parent_path() / study->recording.path).string();
    if (const auto refused = overwrittenInput(wish->out, {wish->in, recording}))
        return complain(*refused, exitUsage);
    const auto played = playingFor(*wish);
    if (!played) return complain(played.error(), exitInput);
    const auto bytes = wish->write(*study, *played);
    if (!bytes) return complain(bytes.error(), exitInput);
    const auto written = replaceFile(wish->out, *bytes);
    return written ? exitDone : complain(written.error(), exitInput);
}

} // namespace earwright::batch
