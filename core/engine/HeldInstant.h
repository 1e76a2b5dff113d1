// One instant of a recording as a spectrum that can sound on for ever.
#pragma once

#include "core/sound/Recording.h"
#include "core/time/Frames.h"

#include <complex>
#include <cstddef>
#include <vector>

namespace earwright {

/// Where an attack would be held, noise and all, the steadiest moment within 60 ms after it is taken instead:
/// of places 10 ms apart the first whose spectrum hardly changes, or else the one where it changes least.
/// About 0.09 s of sound are looked at; twice as much where that much sounds alike, so that low and close
/// notes come apart.
///
/// Each spectral peak, with the lines around it, gets one frequency for both channels, from the phase it
/// gains between frames a moment apart. Lines that move on together keep the shape of the peak and the
/// stereo picture: J. Laroche and M. Dolson, "Improved Phase Vocoder Time-Scale Modification of Audio", IEEE
/// Trans. Speech and Audio Processing 7:3, 1999 (identity phase locking).
///
/// Threads: a value; of() reads the disk and works for some milliseconds.
/// Units: frames at the recording's rate.
struct HeldInstant {
    /// Lines of one peak and the phase, in radians, it gains a frame of the recording.
    struct Peak {
        std::size_t begin = 0;
        std::size_t end = 0;
        double advance = 0;
    };

    /// The frame at the middle of what was looked at.
    Frames middle;
    /// Length of the transform, a power of two.
    std::size_t length = 0;
    /// length / 2 + 1 lines a channel, of the Hann-windowed sound.
    std::vector<std::vector<std::complex<float>>> channels;
    /// In order, covering every line from 20 Hz up.
    std::vector<Peak> peaks;

    static HeldInstant of(Recording& recording, Frames place);
};

} // namespace earwright
