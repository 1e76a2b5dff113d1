#include "core/engine/OutputStream.h"

#include "core/engine/AlsaConfiguration.h"
#include "core/engine/QuietSoundLibraries.h"

#include <algorithm>
#include <cmath>
#include <portaudio.h>
#include <string>

namespace earwright {

namespace {

int callback(const void*, void* output, unsigned long frames, const PaStreamCallbackTimeInfo* times,
             PaStreamCallbackFlags, void* userData) {
    const double ahead = times->outputBufferDacTime - times->currentTime;
    static_cast<StreamListener*>(userData)->streamWants(static_cast<float*>(output), frames, ahead);
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

} // namespace

OutputStream::OutputStream() {
    quietSoundLibraries();
    initialised = alsaIsConfigured() && Pa_Initialize() == paNoError;
}

OutputStream::~OutputStream() {
    close();
    if (initialised) Pa_Terminate();
}

std::vector<DeviceChoice> OutputStream::choices() const {
    std::vector<DeviceChoice> found;
    if (!initialised) return found;
    for (int index = 0; index < Pa_GetDeviceCount(); ++index) {
        const PaDeviceInfo* info = Pa_GetDeviceInfo(index);
        if (info && info->maxOutputChannels >= 2)
            found.push_back({index, info->name, index == Pa_GetDefaultOutputDevice()});
    }
    return found;
}

Result<OutputStream::Chosen> OutputStream::choose(int index) const {
    if (!initialised || Pa_GetDeviceCount() <= 0)
        return Error{ErrorKind::Device,
                     "There is no sound device; playing on silently. Connect one and try again.", ""};
    const int wanted = index < 0 ? Pa_GetDefaultOutputDevice() : index;
    const PaDeviceInfo* info =
        wanted >= 0 && wanted < Pa_GetDeviceCount() ? Pa_GetDeviceInfo(wanted) : nullptr;
    if (!info || info->maxOutputChannels < 2)
        return Error{ErrorKind::Device,
                     "The chosen sound device is not there; playing on silently. Choose another one.", ""};
    const double rate = info->defaultSampleRate;
    const bool usable = rate >= 8000 && rate <= 192000;
    return Chosen{wanted, info->name, SampleRate{usable ? static_cast<int>(std::lround(rate)) : 44100}};
}

Result<Done> OutputStream::open(const Chosen& chosen, double latencySeconds, unsigned long periodFrames,
                                StreamListener& listener) {
    PaStreamParameters wanted{};
    wanted.device = chosen.index;
    wanted.channelCount = 2;
    wanted.sampleFormat = paFloat32;
    wanted.suggestedLatency =
        std::max(latencySeconds, Pa_GetDeviceInfo(chosen.index)->defaultLowOutputLatency);
    PaStream* opened = nullptr;
    PaError code = Pa_OpenStream(&opened, nullptr, &wanted, chosen.rate.hertz, periodFrames,
                                 paClipOff | paDitherOff, &callback, &listener);
    if (code != paNoError) return refused(chosen.name, code);
    Pa_SetStreamFinishedCallback(opened, &finished);
    // The callback's thread stays at usual priority: as a real-time thread it pushed aside the sound server's
    // own client thread, which hands its frames on, and a busy machine had several times as many gaps.
    code = Pa_StartStream(opened);
    if (code != paNoError) {
        Pa_CloseStream(opened);
        return refused(chosen.name, code);
    }
    stream = opened;
    return Done{};
}

void OutputStream::close() {
    if (!stream) return;
    Pa_AbortStream(stream);
    Pa_CloseStream(stream);
    stream = nullptr;
}

} // namespace earwright
