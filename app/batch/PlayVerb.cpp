#include "app/batch/PlayVerb.h"

#include "app/batch/FocusWords.h"
#include "app/batch/HearingWords.h"
#include "app/batch/PlayScript.h"
#include "core/engine/Input.h"
#include "core/playback/BeatPlaces.h"
#include "core/playback/TimedNotes.h"

#include <cmath>
#include <filesystem>
#include <system_error>

namespace earwright::batch {

namespace {

using Target = ScriptedEngine;
using Step = PlayStep;

constexpr double longest = 1e6;
constexpr NumberRange anySpeed{0.1, 2};

bool rises(const std::vector<double>& numbers) {
    return numbers[1] > numbers[0];
}

void band(Target& target, const Step& step) {
    std::optional<Band> heard;
    if (step.word != "off") heard = Band{step.numbers[0], step.numbers[1], step.word == "remove"};
    target.engine.setBand(heard);
}

void hold(Target& target, const Step& step) {
    target.engine.hold(step.word == "off" ? std::nullopt : std::optional(target.place(step.numbers[0])));
}

void loop(Target& target, const Step& step) {
    target.isLooping = step.word.empty();
    std::optional<Range<Frames>> over;
    if (target.isLooping) over = {target.place(step.numbers[0]), target.place(step.numbers[1])};
    target.engine.setLoop(over);
}

void climb(Target& target, const Step& step) {
    target.manner.climb.reset();
    if (step.word.empty())
        target.manner.climb = Climb{static_cast<int>(step.numbers[0]), static_cast<int>(step.numbers[1]),
                                    static_cast<int>(step.numbers[2])};
    target.engine.setLoopManner(target.manner);
}

void tradeSpeeds(Target& target, const Step& step) {
    const bool isOff = !step.word.empty();
    target.manner.tradeRecordSpeed = isOff ? std::nullopt : std::optional(step.numbers[0]);
    target.manner.tradeYoursSpeed = isOff ? std::nullopt : std::optional(step.numbers[1]);
    target.engine.setLoopManner(target.manner);
}

void notes(Target& target, const Step& step) {
    // Written for a file of any rate; played in the frames of this one.
    Study study = *step.study;
    study.recording.rate = target.recording->rate();
    study.recording.length = target.recording->length();
    target.engine.setNotes(timedNotes(study, step.played));
    target.engine.setBeats(beatPlaces(study, target.recording->rate().seconds(target.recording->length())));
}

void take(Target& target, const Step& step) {
    if (step.word == "off") return target.engine.setTake(std::nullopt);
    // Opened only now: the script may have recorded it.
    const auto sound = Recording::open(step.file);
    if (!sound) {
        target.failure = sound.error();
        return;
    }
    const Range<Frames> whole{Frames(0), (*sound)->length()};
    target.engine.setTake(TakePlayback{*sound, whole, target.place(step.numbers[0]), step.numbers[1], 0});
}

void record(Target& target, const Step& step) {
    Input& input = target.engine.input();
    if (step.word == "off") return input.stopRecording();
    std::error_code unknown;
    if (std::filesystem::exists(step.file, unknown)) {
        target.failure = {ErrorKind::NotWritable,
                          step.file.string() + " is there already; name a new file to record to.", ""};
        return;
    }
    if (input.report().state != DeviceState::Running) input.open({});
    input.record(step.file, target.recording->rate());
}

std::vector<PlayVerb> playingVerbs() {
    return {
        {"play", "no value", [](Target& target, const Step&) { target.engine.play(); }},
        {"pause", "no value", [](Target& target, const Step&) { target.engine.pause(); }},
        {"seek",
         "a number from 0 to 1e+06",
         [](Target& target, const Step& step) { target.engine.seek(target.place(step.numbers[0])); },
         {{0, longest}}},
        {"speed",
         "a number from 0.1 to 2",
         [](Target& target, const Step& step) { target.setSpeed(step.numbers[0]); },
         {anySpeed}},
        {"semitones",
         "a number from -12 to 12",
         [](Target& target, const Step& step) {
             target.semitones = static_cast<int>(step.numbers[0]);
             target.setPitch();
         },
         {{-12, 12}}},
        {"cents",
         "a number from -100 to 100",
         [](Target& target, const Step& step) {
             target.cents = static_cast<int>(step.numbers[0]);
             target.setPitch();
         },
         {{-100, 100}}},
    };
}

std::vector<PlayVerb> loopVerbs() {
    return {
        {.name = "loop",
         .takes = "two times in seconds, the second later, or “off”",
         .carryOut = loop,
         .numbers = {{0, longest}, {0, longest}},
         .words = {"off"},
         .fits = rises},
        {"gap",
         "a whole number of beats from 0 to 4",
         [](Target& target, const Step& step) {
             target.manner.gapBeats = static_cast<int>(step.numbers[0]);
             target.engine.setLoopManner(target.manner);
         },
         {{0, LoopManner::mostGapBeats, true}}},
        {.name = "climb",
         .takes = "a step in per cent, the passes on each and a target in per cent, or “off”",
         .carryOut = climb,
         .numbers = {{1, 100, true}, {1, 1000, true}, {10, 200, true}},
         .words = {"off"}},
        {"climbback", "no value", [](Target& target, const Step&) { target.engine.climbBack(); }},
        {.name = "tradespeeds",
         .takes = "the speeds of record and yours, from 0.1 to 2, or “off”",
         .carryOut = tradeSpeeds,
         .numbers = {anySpeed, anySpeed},
         .words = {"off"}},
        {"countin",
         "a whole number of beats from 0 to 8",
         [](Target& target, const Step& step) {
             target.engine.setCountIn(static_cast<int>(step.numbers[0]));
         },
         {{0, 8, true}}},
        {.name = "clicks",
         .takes = "on or off",
         .carryOut = [](Target& target, const Step& step) { target.engine.setClicks(step.word == "on"); },
         .words = {"on", "off"}},
    };
}

std::vector<PlayVerb> hearingVerbs() {
    return {
        {.name = "hear",
         .takes = "record, yours, together, split or trade",
         .carryOut = [](Target& target,
                        const Step& step) { target.engine.setHearing(hearingNamed(step.word).value()); },
         .words = {"record", "yours", "together", "split", "trade"}},
        {.name = "focus",
         .takes = "all, left, right, centre or sides",
         .carryOut = [](Target& target,
                        const Step& step) { target.engine.setFocus(focusNamed(step.word).value()); },
         .words = {"all", "left", "right", "centre", "sides"}},
        {.name = "band",
         .takes =
             "two frequencies from 20 to 20000 Hz, the second higher, and “remove” after them to leave the "
             "band out; or “off”",
         .carryOut = band,
         .numbers = {{Band::lowestHertz, Band::highestHertz}, {Band::lowestHertz, Band::highestHertz}},
         .words = {"off"},
         .ending = "remove",
         .fits = rises},
        {.name = "hold",
         .takes = "a time in seconds, or “off”",
         .carryOut = hold,
         .numbers = {{0, longest}},
         .words = {"off"}},
        {"balance",
         "a number from -24 to 12",
         [](Target& target, const Step& step) { target.engine.setBalance(step.numbers[0]); },
         {{Engine::softestYours, Engine::loudestYours}}},
    };
}

std::vector<PlayVerb> fileVerbs() {
    return {
        {.name = "notes", .takes = "the name of a study file", .carryOut = notes, .takesStudy = true},
        {.name = "played",
         .takes = "the name of a study file",
         .carryOut = notes,
         .takesStudy = true,
         .isAsPlayed = true},
        {.name = "take",
         .takes =
             "the name of a sound file, the place in seconds heard with its start and the speed, or “off”",
         .carryOut = take,
         .numbers = {{0, longest}, anySpeed},
         .words = {"off"},
         .takesSound = true},
        {.name = "record",
         .takes = "the name of a new WAV file, or “off”",
         .carryOut = record,
         .words = {"off"},
         .takesSound = true},
        {.name = "quit", .takes = "no value", .quits = true},
    };
}

std::vector<PlayVerb> table() {
    std::vector<PlayVerb> all;
    for (const auto& part : {playingVerbs(), loopVerbs(), hearingVerbs(), fileVerbs()})
        all.insert(all.end(), part.begin(), part.end());
    return all;
}

} // namespace

std::span<const PlayVerb> playVerbs() {
    static const std::vector<PlayVerb> all = table();
    return all;
}

} // namespace earwright::batch
