// Keeps PortAudio and what it loads from writing to the terminal.
#pragma once

namespace earwright {

/// ALSA and JACK print every device they fail to find on stderr. Gives both a message handler that says
/// nothing. Once, before Pa_Initialize(); the device's thread.
void quietSoundLibraries();

} // namespace earwright
