// Whether ALSA knows of any device at all.
#pragma once

namespace earwright {

/// False where ALSA's configuration is missing or damaged. PortAudio 19.6 then ends the program with a failed
/// assertion instead of an error, so it must not be started. True where there is no ALSA. The device's
/// thread.
bool alsaIsConfigured();

} // namespace earwright
