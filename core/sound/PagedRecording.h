// A recording kept in pages that are decoded when somebody listens there.
#pragma once

#include "core/sound/Recording.h"
#include "core/sound/SoundFile.h"

#include <condition_variable>
#include <cstdint>
#include <list>
#include <memory>
#include <mutex>
#include <vector>

namespace earwright {

/// Threads: read() from any thread. Readers that miss different pages decode side by side, each with a
///   decoder of its own, so that drawing an overview never makes the player wait.
/// Ownership: owns its decoders and pages; at most about 25 MB whatever the length of the file.
class PagedRecording final : public Recording {
public:
    PagedRecording(std::filesystem::path path, std::unique_ptr<SoundFile> first);

    const std::filesystem::path& path() const override { return filePath; }
    SampleRate rate() const override { return fileRate; }
    int channels() const override { return channelCount; }
    Frames length() const override { return frameCount; }
    Frames read(Frames from, std::span<float> interleaved) override;
    std::shared_ptr<const void> hold(const Range<Frames>& loop) override;

private:
    struct Page {
        std::int64_t number = 0;
        /// Interleaved; shorter than a page at the end or at damage.
        std::vector<float> samples;
    };
    using SharedPage = std::shared_ptr<const Page>;
    /// The numbers of a loop's pages that stay, in order.
    using HeldPages = std::vector<std::int64_t>;

    SharedPage page(std::int64_t number, bool keep);
    SharedPage cached(std::int64_t number);
    void remember(const SharedPage& page);
    HeldPages heldPages() const;
    SharedPage decode(std::int64_t number);
    std::unique_ptr<SoundFile> takeDecoder(Frames place);
    void returnDecoder(std::unique_ptr<SoundFile> decoder);

    const std::filesystem::path filePath;
    const SampleRate fileRate;
    const int channelCount;
    const Frames frameCount;
    /// The first decoder, which lives as long as the recording, wherever it is at work.
    const SoundFile& known;

    std::mutex guard;
    std::condition_variable decoderReturned;
    /// Guarded: most recently used first.
    std::list<SharedPage> pages;
    /// Guarded: the loops that are held, the latest last; those let go meanwhile have expired.
    std::vector<std::weak_ptr<const HeldPages>> holds;
    /// Guarded: decoders nobody uses now, and how many there are in all.
    std::vector<std::unique_ptr<SoundFile>> idle;
    std::size_t decoders = 1;
};

} // namespace earwright
