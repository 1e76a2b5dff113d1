#include "core/sound/PagedRecording.h"

#include <algorithm>
#include <iterator>
#include <ranges>

namespace earwright {

namespace {

/// 1.5 s at 44.1 kHz: an MP3 page takes a few milliseconds to decode.
constexpr std::int64_t pageFrames = 65536;
constexpr std::size_t mostPages = 48;
constexpr std::size_t mostDecoders = 4;
/// A minute at 44.1 kHz begins and ends in 42 pages at most; the other pages are for whoever reads elsewhere.
constexpr std::int64_t mostHeld = 42;
/// Of a loop too long to hold: three seconds at either end, in which the pages beyond can be decoded.
constexpr std::int64_t heldAtEnds = 2;

} // namespace

PagedRecording::PagedRecording(std::filesystem::path path, std::unique_ptr<SoundFile> first)
    : filePath(std::move(path)),
      fileRate(first->rate()),
      channelCount(first->channels()),
      frameCount(first->length()),
      known(*first) {
    idle.push_back(std::move(first));
}

Frames PagedRecording::read(Frames from, std::span<float> interleaved) {
    const auto wide = static_cast<std::size_t>(channelCount);
    const auto wanted = static_cast<std::int64_t>(interleaved.size() / wide);
    std::fill(interleaved.begin(), interleaved.end(), 0.0f);
    // A reader that takes whole pages goes through the file once; keeping its pages would push out the
    // player's.
    const bool keep = wanted < pageFrames;
    const std::int64_t end = std::min(from.value + wanted, frameCount.value);
    Frames got;
    for (std::int64_t at = std::max<std::int64_t>(from.value, 0); at < end;) {
        const std::int64_t number = at / pageFrames;
        const std::int64_t inPage = at - number * pageFrames;
        const std::int64_t count = std::min(pageFrames - inPage, end - at);
        const SharedPage here = page(number, keep);
        const std::int64_t held = static_cast<std::int64_t>(here->samples.size() / wide);
        const std::int64_t usable = std::clamp<std::int64_t>(held - inPage, 0, count);
        std::copy_n(here->samples.begin() + inPage * channelCount, usable * channelCount,
                    interleaved.begin() + (at - from.value) * channelCount);
        got += Frames(usable);
        at += count;
    }
    return got;
}

PagedRecording::SharedPage PagedRecording::page(std::int64_t number, bool keep) {
    if (SharedPage found = cached(number)) return found;
    SharedPage decoded = decode(number);
    if (keep) remember(decoded);
    return decoded;
}

PagedRecording::SharedPage PagedRecording::cached(std::int64_t number) {
    const std::lock_guard lock(guard);
    const auto found = std::find_if(pages.begin(), pages.end(),
                                    [number](const SharedPage& page) { return page->number == number; });
    if (found == pages.end()) return nullptr;
    pages.splice(pages.begin(), pages, found);
    return pages.front();
}

std::shared_ptr<const void> PagedRecording::hold(const Range<Frames>& loop) {
    const std::int64_t begin = std::clamp<std::int64_t>(loop.begin.value, 0, frameCount.value);
    const std::int64_t end = std::clamp<std::int64_t>(loop.end.value, begin, frameCount.value);
    const std::int64_t first = begin / pageFrames;
    const std::int64_t behind = (end + pageFrames - 1) / pageFrames;
    const bool whole = behind - first <= mostHeld;
    auto held = std::make_shared<HeldPages>();
    for (std::int64_t number = first; number < behind; ++number)
        if (whole || number < first + heldAtEnds || number >= behind - heldAtEnds) held->push_back(number);
    const std::lock_guard lock(guard);
    std::erase_if(holds, [](const auto& one) { return one.expired(); });
    holds.push_back(held);
    return held;
}

/// Requires: guard is held.
PagedRecording::HeldPages PagedRecording::heldPages() const {
    HeldPages all;
    for (const auto& one : holds | std::views::reverse) {
        const auto held = one.lock();
        if (!held) continue;
        HeldPages joined;
        std::ranges::set_union(all, *held, std::back_inserter(joined));
        if (std::ssize(joined) <= mostHeld) all = std::move(joined);
    }
    return all;
}

void PagedRecording::remember(const SharedPage& page) {
    const std::lock_guard lock(guard);
    // Two readers may have missed the same page; kept twice, a held one would take two places.
    if (std::ranges::any_of(pages, [&](const SharedPage& one) { return one->number == page->number; }))
        return;
    pages.push_front(page);
    if (pages.size() <= mostPages) return;
    const HeldPages held = heldPages();
    const auto oldest = std::find_if(pages.rbegin(), pages.rend(), [&held](const SharedPage& one) {
        return !std::ranges::binary_search(held, one->number);
    });
    pages.erase(oldest == pages.rend() ? std::prev(pages.end()) : std::prev(oldest.base()));
}

PagedRecording::SharedPage PagedRecording::decode(std::int64_t number) {
    const Frames from(number * pageFrames);
    const std::int64_t count = std::min(pageFrames, frameCount.value - from.value);
    auto decoded = std::make_shared<Page>();
    decoded->number = number;
    decoded->samples.resize(static_cast<std::size_t>(count * channelCount));
    std::unique_ptr<SoundFile> decoder = takeDecoder(from);
    const Frames got = decoder->read(from, decoded->samples);
    returnDecoder(std::move(decoder));
    decoded->samples.resize(static_cast<std::size_t>(got.value * channelCount));
    return decoded;
}

std::unique_ptr<SoundFile> PagedRecording::takeDecoder(Frames place) {
    std::unique_lock lock(guard);
    if (idle.empty() && decoders < mostDecoders) {
        ++decoders;
        lock.unlock();
        if (auto another = known.another()) return std::move(*another);
        // The file was moved or removed meanwhile: share the decoders that still hold it open.
        lock.lock();
        --decoders;
    }
    decoderReturned.wait(lock, [this] { return !idle.empty(); });
    const auto standing = std::find_if(idle.begin(), idle.end(),
                                       [place](const auto& decoder) { return decoder->position() == place; });
    const auto chosen = standing == idle.end() ? idle.begin() : standing;
    std::unique_ptr<SoundFile> decoder = std::move(*chosen);
    idle.erase(chosen);
    return decoder;
}

void PagedRecording::returnDecoder(std::unique_ptr<SoundFile> decoder) {
    {
        const std::lock_guard lock(guard);
        idle.push_back(std::move(decoder));
    }
    decoderReturned.notify_one();
}

} // namespace earwright
