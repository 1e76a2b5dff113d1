// A passage's sound and onset tracks as bytes, to be kept on disk.
#pragma once

#include "core/listening/AnalysisSound.h"
#include "core/listening/PassageEvidence.h"

#include <optional>
#include <span>
#include <string>
#include <vector>

namespace earwright {

/// Raise it with any change to what is heard in a passage: features, transforms, the views. Changes of the
/// learned constants are noticed by themselves.
inline constexpr int listeningVersion = 5;

/// Version and a fingerprint of the learned constants.
std::string listeningStamp();

/// In the machine's own byte order: these bytes stay on it.
std::vector<char> bytesOf(const PassageEvidence& evidence, const AnalysisSound& sound);
/// Nothing where the bytes are not such a passage, or another one.
std::optional<PassageEvidence> evidenceIn(std::span<const char> bytes, const Range<Seconds>& passage,
                                          const TuningCurve& tuning);

} // namespace earwright
