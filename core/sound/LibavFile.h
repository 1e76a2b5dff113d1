// Sound in MP4, Matroska and raw AAC files, with exact places: by the packets themselves, not by estimate.
#pragma once

#include "core/sound/LibavStream.h"
#include "core/sound/PacketClock.h"
#include "core/sound/SoundFile.h"

#include <filesystem>
#include <memory>
#include <stop_token>
#include <vector>

namespace earwright {

/// Frame 0 is the first that is sound: coding delay (priming) is left out as the container's edit list or
/// delay says. A seek decodes from some packets ahead, until the coding has forgotten where it was entered.
class LibavFile final : public SoundFile {
public:
    /// Finds the true end: the last packets are looked for and decoded. Errors as for openContainer().
    static Result<std::unique_ptr<SoundFile>> open(const std::filesystem::path& path,
                                                   const std::stop_token& stop);

    SampleRate rate() const override { return stream->rate(); }
    int channels() const override { return stream->channels(); }
    Frames length() const override { return frameCount; }
    Frames position() const override { return next; }
    Frames read(Frames from, std::span<float> interleaved) override;
    Result<std::unique_ptr<SoundFile>> another() const override;
    /// The end was decoded when the file was opened.
    bool isWhole() override { return true; }

private:
    LibavFile(std::filesystem::path path, std::unique_ptr<LibavStream> opened);

    std::optional<Error> findStart();
    void setClock(const PacketStamp& first);
    Frames delayAt(const PacketStamp& first) const;
    Result<PacketStamp> findLastPacket(const std::stop_token& stop);
    std::optional<Error> findEnd(const std::stop_token& stop);
    bool moveTo(Frames place);
    bool enter(Frames place, Frames runUp);
    bool decodeOn();
    /// Decoded frames [heldFrom, heldEnd()), in the file's own count.
    Frames heldEnd() const;

    std::filesystem::path filePath;
    std::unique_ptr<LibavStream> stream;
    PacketClock clock;
    /// Where frame 0 stands by the clock.
    Frames zero;
    Frames frameCount;
    Frames next;
    Frames heldFrom;
    std::vector<float> held;
    /// Whether the next piece follows the held one without a seek between.
    bool running = false;
};

} // namespace earwright
