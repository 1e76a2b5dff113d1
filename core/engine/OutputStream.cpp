#include "core/engine/OutputStream.h"

#include <algorithm>
#include <cmath>
#include <portaudio.h>
#include <string>

namespace earwright {

namespace {

constexpr int usualRates[]{44100, 48000, 88200, 96000, 176400, 192000};

int callback(const void*, void* output, unsigned long frames, const PaStreamCallbackTimeInfo* times,
             PaStreamCallbackFlags flags, void* userData) {
    const double ahead = times->outputBufferDacTime - times->currentTime;
    static_cast<StreamListener*>(userData)->streamWants(static_cast<float*>(output), frames, ahead,
                                                        (flags & paOutputUnderflow) != 0);
    return paContinue;
}

void finished(void* userData) {
    static_cast<StreamListener*>(userData)->streamEnded();
}

Error refused(const std::string& name, PaError code) {
    const bool hostKnows = code == paUnanticipatedHostError && Pa_GetLastHostErrorInfo() &&
                           Pa_GetLastHostErrorInfo()->errorText[0] != '\0';
    const std::string reason = hostKnows ? Pa_GetLastHostErrorInfo()->errorText : Pa_GetErrorText(code);
    return {ErrorKind::Device,
            "The sound device " + name + " cannot be used (" + reason +
                "); playing on silently. Try again or choose another device.",
            ""};
}

PaStreamParameters stereoOf(int index, double latencySeconds) {
    PaStreamParameters wanted{};
    wanted.device = index;
    wanted.channelCount = 2;
    wanted.sampleFormat = paFloat32;
    wanted.suggestedLatency = latencySeconds;
    return wanted;
}

int ownRate(const PaDeviceInfo& info) {
    const bool usable = info.defaultSampleRate >= 8000 && info.defaultSampleRate <= 192000;
    return usable ? static_cast<int>(std::lround(info.defaultSampleRate)) : 44100;
}

} // namespace

std::vector<DeviceChoice> OutputStream::choices(const SoundTurn& turn) {
    std::vector<DeviceChoice> found;
    if (!turn.isReady()) return found;
    for (int index = 0; index < Pa_GetDeviceCount(); ++index) {
        const PaDeviceInfo* info = Pa_GetDeviceInfo(index);
        if (info && info->maxOutputChannels >= 2)
            found.push_back({index,
                             info->name,
                             index == Pa_GetDefaultOutputDevice(),
                             {},
                             ownRate(*info),
                             info->defaultLowOutputLatency});
    }
    return found;
}

std::vector<int> OutputStream::rates(const SoundTurn& turn, int index) {
    std::vector<int> found;
    if (!turn.isReady() || index < 0 || index >= Pa_GetDeviceCount()) return found;
    const PaStreamParameters wanted = stereoOf(index, Pa_GetDeviceInfo(index)->defaultLowOutputLatency);
    for (const int rate : usualRates)
        if (Pa_IsFormatSupported(nullptr, &wanted, rate) == paFormatIsSupported) found.push_back(rate);
    return found;
}

Result<OutputStream::Opened> OutputStream::open(const SoundTurn&, const DeviceChoice& choice, SampleRate rate,
                                                double latencySeconds, unsigned long periodFrames,
                                                StreamListener& listener) {
    const PaStreamParameters wanted =
        stereoOf(choice.index, std::max(latencySeconds, choice.leastLatencySeconds));
    PaStream* opened = nullptr;
    const PaError code = Pa_OpenStream(&opened, nullptr, &wanted, rate.hertz, periodFrames,
                                       paClipOff | paDitherOff, &callback, &listener);
    if (code != paNoError) return refused(choice.name, code);
    Pa_SetStreamFinishedCallback(opened, &finished);
    stream = opened;
    name = choice.name;
    const PaStreamInfo* info = Pa_GetStreamInfo(opened);
    const double granted = info ? info->outputLatency : wanted.suggestedLatency;
    // What PortAudio calls latency leaves out the period that is being played.
    return Opened{rate, granted, granted + static_cast<double>(periodFrames) / rate.hertz};
}

Result<Done> OutputStream::start(const SoundTurn& turn) {
    // PortAudio is not asked to make the callback's thread a real-time one: alone it pushes aside the sound
    // server's own client thread, which hands its frames on. Both take after the thread that calls here.
    const PaError code = Pa_StartStream(stream);
    if (code == paNoError) return Done{};
    close(turn);
    return refused(name, code);
}

void OutputStream::close(const SoundTurn&) {
    if (!stream) return;
    // Stopping instead, which shall wait for what was rendered, drops it as well with ALSA's pulse plugin.
    Pa_AbortStream(stream);
    Pa_CloseStream(stream);
    stream = nullptr;
}

Result<ChosenDevice> chooseDevice(const std::vector<DeviceChoice>& devices, const DeviceWish& wish,
                                  bool insists) {
    if (devices.empty())
        return Error{ErrorKind::Device,
                     "There is no sound device; playing on silently. Connect one and try again.", ""};
    const auto found = std::find_if(devices.begin(), devices.end(), [&](const DeviceChoice& device) {
        return wish.name.empty() ? wish.index == device.index || (wish.index < 0 && device.isDefault)
                                 : wish.name == device.name;
    });
    if (found != devices.end()) return ChosenDevice{*found, ""};
    const auto standIn = std::find_if(devices.begin(), devices.end(),
                                      [](const DeviceChoice& device) { return device.isDefault; });
    if (wish.name.empty() || insists || standIn == devices.end())
        return Error{ErrorKind::Device,
                     "The chosen sound device is not there; playing on silently. Choose another one.", ""};
    return ChosenDevice{*standIn, "The sound device " + wish.name + " is not there; playing to " +
                                      standIn->name + " instead."};
}

} // namespace earwright
