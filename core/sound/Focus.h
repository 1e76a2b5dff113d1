// Which part of a stereo picture is listened to.
#pragma once

namespace earwright {

/// One channel, half the sum of both, or half their difference. A mono recording has no sides: they are
/// silent.
enum class Focus { All, Left, Right, Centre, Sides };

} // namespace earwright
