// Keeps PortAudio and what it loads from writing to the terminal.
#pragma once

namespace earwright {

/// ALSA and JACK print every device they fail to find on stderr: both get a message handler that says
/// nothing. PortAudio prints a failed expression whenever a device dies, at any time and from any thread, and
/// lets nobody take that over: `stderr` is given a sieve that lets everything through but these lines. What
/// is written to the file descriptor itself or to std::cerr does not pass it. Any thread; works once.
void quietSoundLibraries();

} // namespace earwright
