// What sounds: the recording at any speed and pitch, the written notes beside it, through the sound device.
#pragma once

#include "core/engine/BeatPlace.h"
#include "core/engine/DeviceReport.h"
#include "core/engine/LoopManner.h"
#include "core/engine/Stage.h"
#include "core/engine/TakePlayback.h"
#include "core/engine/TimedNote.h"
#include "core/result/Result.h"
#include "core/sound/Band.h"
#include "core/sound/Focus.h"
#include "core/sound/Recording.h"
#include "core/time/Frames.h"
#include "core/time/Range.h"

#include <chrono>
#include <cstdint>
#include <memory>
#include <optional>
#include <string>
#include <vector>

namespace earwright {

/// What is heard.
enum class Hearing { Record, Yours, Together, Split, Trade };

/// Played ÷ original and how far the pitch is moved.
struct Playing {
    /// 0.1 to 2; 0.5 is half speed.
    double speed = 1.0;
    /// −12 to 12.
    int semitones = 0;
    /// −100 to 100.
    int cents = 0;
    /// Both together, in semitones.
    double transposition() const { return semitones + cents / 100.0; }
    friend bool operator==(const Playing&, const Playing&) = default;
};

/// What is heard now.
struct Heard {
    bool playing = false;
    /// The place in the recording whose sound leaves the device now (device latency taken into account).
    Frames position;
    /// Completed passes of the loop since it was set or playback started; a gap belongs to the pass after
    /// it.
    std::int64_t pass = 0;
    /// During trade: the written notes, not the record, sound now; in a gap, next.
    bool yoursTurn = false;
    /// Played ÷ original, of what is heard; one just set until it is.
    double speed = 1;
    /// The speed set, as far as it has climbed: what a turn of the trade with a speed of its own leaves
    /// alone.
    double reachedSpeed = 1;
    /// While playing; the position waits where the record goes on.
    Stage stage = Stage::Sounding;
    /// Of a gap or a count-in, begun ones counted.
    int beatsLeft = 0;
    /// One instant is held; `position` waits there.
    bool holding = false;
    /// Highest absolute sample since the last call, after the limiter; 1 is full scale.
    float peak = 0;
    /// Since the last call something was too loud and was held back.
    bool limited = false;
};

class Input;

/// The player.
///
/// Threads: all methods from one thread (the interface's or a script's). None of them blocks on the device,
///   the disk or the stretcher: they post a message and return; now() and device() read snapshots.
/// Ownership: holds the recording it plays; the caller may drop its own pointer.
/// Units: frames of the recording at its own rate.
class Engine {
public:
    struct Options {
        DeviceWish device;
        /// False runs without PortAudio at all, for tests of everything above it.
        bool openDevice = true;
    };

    Engine();
    explicit Engine(const Options& options);
    ~Engine();
    Engine(const Engine&) = delete;
    Engine& operator=(const Engine&) = delete;

    /// Takes a recording in, stopped at its start; the old one is let go.
    void setRecording(std::shared_ptr<Recording> recording);

    /// From a pause, after the count-in.
    void play();
    void pause();
    void seek(Frames position);
    /// A speed other than the one now() told last is where a climb goes on from.
    void setPlaying(const Playing& playing);
    /// Nothing plays on to the end. Loops shorter than 50 ms are widened to that. A place outside the loop
    /// moves to its start, inside it stays; a later seek() may leave the loop again.
    void setLoop(const std::optional<Range<Frames>>& loop);
    /// Plays a range once at the current speed and pitch, then pauses where the range began.
    void playSlice(const Range<Frames>& slice);

    /// How a loop goes round, from the next pass on. Values out of range are put into it.
    void setLoopManner(const LoopManner& manner);
    /// A step of the climb slower, rounds counted anew. Nothing without a climb.
    void climbBack();

    /// Sustains the sound of one place of the recording, whether playing or not and whatever the hearing;
    /// semitones and cents of setPlaying() retune it. Where the place is a noisy attack, the steadiest moment
    /// within 60 ms after it is held. Nothing lets go: what was playing goes on from there, what stood still
    /// stands still there. play(), pause(), seek() and the like let go as well.
    void hold(const std::optional<Frames>& place);

    void setHearing(Hearing hearing);
    /// Which part of the record's stereo picture is heard, on both ears. Concerns the record alone; the
    /// written notes and auditions stay as they are.
    void setFocus(Focus focus);
    /// Which part of the record's spectrum is heard, through steep filters (see BandFilter), besides the
    /// focus. Nothing, as at the start, is all of it, untouched. Concerns the record alone.
    void setBand(const std::optional<Band>& band);
    /// The written notes, in frames of the recording; replaces the list, also in mid-play.
    void setNotes(std::vector<TimedNote> notes);
    /// The beats of the music; replaces the list, also in mid-play.
    void setBeats(std::vector<BeatPlace> beats);
    /// Whether they are clicked, in gaps too; in output time, so that no speed changes a click.
    void setClicks(bool audible);
    /// Of all clicks, −40 to 12; 0 peaks at about a third of full scale, at two thirds where a bar opens.
    void setClickLevel(double decibels);
    /// Beats clicked from play() to where the record sounds, 0 to 8, in the tempo of the beats there and at
    /// the speed set.
    void setCountIn(int beats);
    /// A take to be heard as "yours", in place of the written notes; nothing brings them back.
    void setTake(std::optional<TakePlayback> take);
    /// Sounds one note at once, whether playing or not; transposed as the record and the written notes are.
    void audition(int midi, double loudness);
    /// Linear gain of everything, 0 to 1.
    void setLevel(double level);
    /// Decibels the written notes may be softer or louder than as loud as the record.
    static constexpr int softestYours = -24;
    static constexpr int loudestYours = 12;
    /// Record against written notes, in decibels added to the written notes, softestYours to loudestYours. At
    /// 0 they are as loud as the record, nearly (see LevelMatch); no more is let through than makes the whole
    /// 3 dB louder than the recording was (EBU R 128 momentary loudness, and RMS over the same 400 ms).
    void setBalance(double yoursDecibels);

    /// Cents by which the recording's own A lies above 440 Hz; the written notes and auditions follow it.
    void setTuning(double cents);

    Heard now();
    /// The output frame that leaves the device now; frames are counted over all devices since the engine was
    /// made.
    OutputFrames heardFrame();
    /// The one that left the device at a time on the steady clock; by the clock of the device that is on now,
    /// so not for times from before it was. Never later than what was rendered; unlike the one above it may
    /// step back by a fraction of a millisecond.
    OutputFrames heardFrame(std::chrono::steady_clock::time_point at) const;
    /// The place in the recording whose sound is in an output frame. Nothing for frames before the first
    /// sound, and for frames more than a dozen seeks or pauses ago.
    std::optional<Frames> placeAt(OutputFrames frame);
    /// What was heard in an output frame, as placeAt(); without a peak. Passes are counted from where now()
    /// counts them.
    std::optional<Heard> heardAt(OutputFrames frame);
    DeviceReport device();
    std::vector<DeviceChoice> devices();
    /// Opens another device, or tries the same again. What plays goes on where it is: it stands still while
    /// the device is opened, and moves on silently where that takes longer than two seconds.
    void useDevice(const DeviceWish& wish);

    /// The musician's side: what comes in, and the takes made of it.
    Input& input();

private:
    class Body;
    std::unique_ptr<Body> body;
};

} // namespace earwright
