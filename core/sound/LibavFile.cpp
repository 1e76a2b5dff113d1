#include "core/sound/LibavFile.h"

#include "core/sound/Completeness.h"
#include "core/sound/ContainerFile.h"

#include <algorithm>
#include <cmath>
#include <cstdlib>

namespace earwright {

namespace {

/// What is decoded ahead of a place that is sought. AAC and Vorbis ask for one packet, AAC with band
/// replication for a few more. Opus asks for 80 ms (RFC 7845, 4.6) and is 70 dB down from its own
/// signal then; after this long nothing is left of the difference.
constexpr double runUpSeconds = 0.5;
constexpr std::int64_t runUpPackets = 4;
/// No recording is longer; a stamp that says so is damage.
constexpr double longestHours = 48;
/// The end is decoded from this many packets ahead.
constexpr std::int64_t endPackets = 8;
/// Farther ahead than this a seek is quicker than reading on.
constexpr double readOnSeconds = 2;

PacketClock clockOf(const LibavStream& stream, std::int64_t originTick, Frames originFrame) {
    return PacketClock({stream.rate(), stream.tickNumerator(), stream.tickDenominator(), originTick,
                        originFrame, stream.packetGrid()});
}

Error noSound(const std::filesystem::path& path) {
    return {ErrorKind::Malformed, path.string() + " holds no sound. It may be cut off; copy it again.", ""};
}

} // namespace

bool canOpenContainers() {
    return true;
}

Result<std::unique_ptr<SoundFile>> openContainer(const std::filesystem::path& path,
                                                 const std::stop_token& stop) {
    return LibavFile::open(path, stop);
}

LibavFile::LibavFile(std::filesystem::path path, std::unique_ptr<LibavStream> opened)
    : filePath(std::move(path)), stream(std::move(opened)), clock(clockOf(*stream, 0, Frames(0))) {}

Result<std::unique_ptr<SoundFile>> LibavFile::open(const std::filesystem::path& path,
                                                   const std::stop_token& stop) {
    auto stream = LibavStream::open(path);
    if (!stream) return stream.error();
    std::unique_ptr<LibavFile> file(new LibavFile(path, *std::move(stream)));
    if (auto problem = file->findStart()) return *problem;
    if (auto problem = file->findEnd(stop)) return *problem;
    return std::unique_ptr<SoundFile>(std::move(file));
}

Result<std::unique_ptr<SoundFile>> LibavFile::another() const {
    auto opened = LibavStream::open(filePath);
    if (!opened) return opened.error();
    std::unique_ptr<LibavFile> twin(new LibavFile(filePath, *std::move(opened)));
    twin->clock = clock;
    twin->zero = zero;
    twin->frameCount = frameCount;
    return std::unique_ptr<SoundFile>(std::move(twin));
}

/// Frames at a packet's start that are the coding's delay, by whichever account the container gives.
Frames LibavFile::delayAt(const PacketStamp& first) const {
    if (first.skippedAtStart > 0) return Frames(first.skippedAtStart);
    return first.tick < 0 ? stream->codingDelay() : Frames(0);
}

void LibavFile::setClock(const PacketStamp& first) {
    if (clock.tolerance() == Frames(0)) return;
    // A container that stamps in milliseconds rounds the delay; its own count of frames is exact.
    const bool isDelayed = first.tick < 0 && stream->codingDelay() > Frames(0);
    clock = clockOf(*stream, first.tick, isDelayed ? -stream->codingDelay() : clock.placeOf(first.tick));
}

/// Frame 0 is the first that comes out of the decoder, less the coding's delay.
std::optional<Error> LibavFile::findStart() {
    if (!stream->seekToStart()) return noSound(filePath);
    std::optional<PacketStamp> first = stream->skim();
    if (!first) return noSound(filePath);
    setClock(*first);
    while (first && first->isUnheard)
        first = stream->skim();
    if (!first || !stream->seekToStart()) return noSound(filePath);
    while (const auto piece = stream->decode()) {
        if (piece->tick < first->tick || piece->samples.empty()) continue;
        zero = clock.placeOf(piece->tick);
        if (piece->tick == first->tick) zero += delayAt(*first);
        return std::nullopt;
    }
    return noSound(filePath);
}

Result<PacketStamp> LibavFile::findLastPacket(const std::stop_token& stop) {
    const std::int64_t beyond = clock.tickBefore(Frames(std::llround(longestHours * 3600 * rate().hertz)));
    if (!stream->seek(beyond) && !stream->seekToStart()) return noSound(filePath);
    std::optional<PacketStamp> last;
    while (const auto stamp = stream->skim()) {
        if (stop.stop_requested())
            return Error{ErrorKind::Cancelled, "Opening " + filePath.string() + " was called off.", ""};
        if (!last || stamp->tick >= last->tick) last = stamp;
    }
    if (!last) return noSound(filePath);
    return *last;
}

std::optional<Error> LibavFile::findEnd(const std::stop_token& stop) {
    const auto last = findLastPacket(stop);
    if (!last) return last.error();
    const Frames lastPlace = clock.placeOf(last->tick);
    const Frames longest(std::llround(longestHours * 3600 * rate().hertz));
    if (lastPlace > longest || zero < -longest || lastPlace - zero > longest)
        return Error{ErrorKind::Malformed,
                     filePath.string() + " is damaged: its last packet claims to lie days after its first.",
                     ""};
    const Frames back(endPackets * stream->framesOfFirstPiece().value);
    if (!stream->seek(clock.tickBefore(lastPlace - back)) && !stream->seekToStart()) return noSound(filePath);
    Frames end = zero;
    while (const auto piece = stream->decode()) {
        const auto frames = static_cast<std::int64_t>(piece->samples.size()) / channels();
        const Frames pieceEnd = clock.placeOf(piece->tick) + Frames(frames);
        end = std::max(end, piece->tick == last->tick ? pieceEnd - Frames(last->skippedAtEnd) : pieceEnd);
    }
    frameCount = end - zero;
    if (clock.tolerance() == Frames(0) && stream->promisedTicks()) {
        const Frames promised = clock.placeOf(*stream->promisedTicks()) - clock.placeOf(0);
        if (frameCount + back < promised) return cutShort(filePath);
        frameCount = std::min(frameCount, promised);
    }
    running = false;
    held.clear();
    next = Frames(-1);
    if (frameCount <= Frames(0)) return noSound(filePath);
    return std::nullopt;
}

Frames LibavFile::heldEnd() const {
    return heldFrom + Frames(static_cast<std::int64_t>(held.size()) / channels());
}

bool LibavFile::decodeOn() {
    auto piece = stream->decode();
    if (!piece) return false;
    const Frames expected = heldEnd();
    Frames place = clock.placeOf(piece->tick) - zero;
    // Where the stamps are too coarse for the frame, sound that follows follows without a seam.
    if (running && std::abs((place - expected).value) <= clock.tolerance().value) place = expected;
    heldFrom = place;
    held = std::move(piece->samples);
    running = true;
    return true;
}

bool LibavFile::enter(Frames place, Frames runUp) {
    const Frames target = place + zero - runUp;
    const bool fromStart = target <= zero;
    running = false;
    held.clear();
    heldFrom = Frames(0);
    if (fromStart ? !stream->seekToStart() : !stream->seek(clock.tickBefore(target))) return false;
    if (!decodeOn()) return false;
    return fromStart || heldFrom + zero <= target + Frames(stream->framesOfFirstPiece());
}

bool LibavFile::moveTo(Frames place) {
    const Frames readOn(std::llround(readOnSeconds * rate().hertz));
    if (running && place >= heldFrom && place < heldEnd() + readOn) return true;
    const std::int64_t packets = runUpPackets * stream->framesOfFirstPiece().value;
    Frames runUp(std::max<std::int64_t>(packets, std::llround(runUpSeconds * rate().hertz)));
    // A container without a good index may land too late; from farther ahead it lands before.
    for (; !enter(place, runUp); runUp = Frames(runUp.value * 8))
        if (runUp > place) return false;
    return true;
}

Frames LibavFile::read(Frames from, std::span<float> interleaved) {
    const auto wide = static_cast<std::int64_t>(channels());
    const auto asked = static_cast<std::int64_t>(interleaved.size()) / wide;
    const Frames end = std::min(from + Frames(asked), frameCount);
    next = Frames(-1);
    if (from >= end || !moveTo(from)) return Frames(0);
    Frames at = from;
    while (at < end) {
        if (heldEnd() <= at) {
            if (!decodeOn()) break;
            continue;
        }
        // What a damaged packet or a gap in the stamps leaves out is silence.
        const Frames soundFrom = std::clamp(heldFrom, at, end);
        const auto into = interleaved.begin() + (at - from).value * wide;
        std::fill_n(into, (soundFrom - at).value * wide, 0.0f);
        const Frames soundTo = std::min(heldEnd(), end);
        if (soundTo > soundFrom)
            std::copy_n(held.begin() + (soundFrom - heldFrom).value * wide,
                        (soundTo - soundFrom).value * wide, into + (soundFrom - at).value * wide);
        at = std::max(soundFrom, soundTo);
    }
    next = at;
    for (float& sample : interleaved.first(static_cast<std::size_t>((at - from).value * wide)))
        if (!std::isfinite(sample)) sample = 0.0f;
    return at - from;
}

} // namespace earwright
