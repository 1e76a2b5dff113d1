// PortAudio, shared by whoever plays or records: started once, called by one at a time.
#pragma once

#include <cstdint>
#include <mutex>

namespace earwright {

class SoundTurn;

/// Whoever has a stream open holds a guest, so that the list of devices can be made anew without pulling
/// PortAudio away from under it.
class SoundGuest {
public:
    virtual ~SoundGuest() = default;
    /// PortAudio is about to start anew, and this is no guest any more: close every stream before returning;
    /// enter and open it again later, in a turn of one's own, and by the device's name, since indices change.
    /// Called on the thread that wants the list, in its turn: no other turn may be taken here.
    virtual void soundHostRestarts(const SoundTurn& turn) = 0;
};

/// A turn with PortAudio, which may be called by one thread at a time. While a turn lives, all Pa_ functions
/// may be called, except in the streams' own callbacks, which need none.
///
/// Threads: any that may wait; a turn is as long as a sound server hangs, so never the interface, the worker
///   or the callback. One turn at a time on a thread.
/// Ownership: PortAudio is started by the first turn that finds it stopped, and stopped when the last guest
///   has left.
class SoundTurn {
public:
    SoundTurn();
    ~SoundTurn();
    SoundTurn(const SoundTurn&) = delete;
    SoundTurn& operator=(const SoundTurn&) = delete;

    /// False where PortAudio cannot be started: then no Pa_ function may be called.
    bool isReady() const;

    /// Keeps PortAudio running until leave(). A guest enters before it opens a stream.
    void enter(SoundGuest& guest);
    /// A guest leaves after it closed its streams.
    void leave(SoundGuest& guest);

    bool hasGuests() const;
    /// Starts PortAudio anew, so that devices that came or went are seen. All guests are told to close their
    /// streams first, so whoever can do without, as long as there are some, does.
    void listAnew();
    /// How often devices were listed: an index is good as long as this stays.
    std::uint64_t listing() const;

private:
    class Host;
    static Host& host();
    std::unique_lock<std::mutex> turn;
};

} // namespace earwright
