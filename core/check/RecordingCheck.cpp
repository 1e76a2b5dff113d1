#include "core/check/RecordingCheck.h"

#include "core/listening/Passages.h"

namespace earwright {

namespace {

std::vector<Range<Seconds>> rangesOf(const std::vector<Claim>& claims) {
    std::vector<Range<Seconds>> ranges;
    for (const Claim& claim : claims)
        ranges.push_back(claim.range);
    return ranges;
}

std::vector<Passage> passagesFor(const std::vector<Claim>& claims, Seconds duration) {
    if (claims.empty()) return {{{Seconds(0), duration}, {}}};
    return passagesOf(rangesOf(claims), duration);
}

} // namespace

Result<NoteCheck> checkRecording(const RecordingEvidence& recording, const std::vector<Claim>& claims,
                                 std::stop_token stop, const Progress& progress, const ListeningWish& wish) {
    NoteCheck whole;
    whole.answers.resize(claims.size());
    const std::vector<Passage> passages = passagesFor(claims, recording.duration());
    for (std::size_t i = 0; i < passages.size(); ++i) {
        const auto share = [&](double part) {
            if (progress) progress((static_cast<double>(i) + part) / static_cast<double>(passages.size()));
        };
        std::vector<Claim> members;
        for (const std::size_t index : passages[i].members)
            members.push_back(claims[index]);
        const auto evidence = recording.passage(passages[i].range, wish.part, stop, share);
        if (!evidence) return evidence.error();
        NoteCheck part = checkNotes(evidence->within(wish.line), members);
        for (std::size_t k = 0; k < members.size(); ++k)
            whole.answers[passages[i].members[k]] = part.answers[k];
        if (!whole.swing) whole.swing = part.swing;
        whole.unwritten.insert(whole.unwritten.end(), part.unwritten.begin(), part.unwritten.end());
    }
    return whole;
}

} // namespace earwright
