// Passages that were listened to, kept so that the next check of them need not listen again.
#pragma once

#include "core/listening/PassageEvidence.h"
#include "core/sound/CacheFolder.h"

#include <cstddef>
#include <list>
#include <memory>
#include <mutex>
#include <optional>
#include <string>
#include <vector>

namespace earwright {

/// Where what was heard is kept on disk: a folder, and the content hash of the recording it belongs to.
struct EvidencePlace {
    CacheFolder folder;
    std::string contentHash;

    /// A name for a kind of thing that was heard; carries the version of the listening, so that what another
    /// version heard is not found.
    std::string nameOf(const std::string& kind) const;
};

/// The passages of one recording: the latest in memory, all on disk where a place is given.
///
/// Threads: any. Memory: at most mostBytes, whatever the length of the recording.
class PassageShelf {
public:
    static constexpr std::size_t mostBytes = 96u << 20;

    explicit PassageShelf(std::optional<EvidencePlace> place) : onDisk(std::move(place)) {}

    std::optional<PassageEvidence> find(const Range<Seconds>& passage, const TuningCurve& tuning,
                                        const HeardPart& part = {});
    /// `sound`: what the passage was heard in, of a part of the recording that part alone.
    void keep(const PassageEvidence& evidence, const AnalysisSound& sound);

private:
    void remember(const PassageEvidence& evidence);

    std::optional<EvidencePlace> onDisk;
    std::mutex guard;
    /// Guarded: latest used first.
    std::list<PassageEvidence> latest;
};

} // namespace earwright
