#include "core/engine/InputStream.h"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <portaudio.h>

namespace earwright {

struct InputStream::Callbacks {
    static int give(const void* input, void*, unsigned long frames, const PaStreamCallbackTimeInfo* times,
                    PaStreamCallbackFlags, void* userData) {
        const auto* self = static_cast<InputStream*>(userData);
        if (!input) return paContinue;
        self->heard->streamGives({static_cast<const float*>(input), frames * self->channelCount},
                                 times->currentTime - times->inputBufferAdcTime);
        return paContinue;
    }
    static void finished(void* userData) { static_cast<InputStream*>(userData)->heard->streamEnded(); }
};

namespace {

Error refused(const std::string& name, PaError code) {
    const bool hostKnows = code == paUnanticipatedHostError && Pa_GetLastHostErrorInfo() &&
                           Pa_GetLastHostErrorInfo()->errorText[0] != '\0';
    const std::string reason = hostKnows ? Pa_GetLastHostErrorInfo()->errorText : Pa_GetErrorText(code);
    return {ErrorKind::Device,
            "The input " + name + " cannot be used (" + reason + "). Try again or choose another one.", ""};
}

int indexOf(const std::string& name) {
    if (name.empty()) return Pa_GetDefaultInputDevice();
    for (int index = 0; index < Pa_GetDeviceCount(); ++index) {
        const PaDeviceInfo* info = Pa_GetDeviceInfo(index);
        if (info && info->maxInputChannels > 0 && name == info->name) return index;
    }
    return paNoDevice;
}

} // namespace

InputStream::~InputStream() {
    assert(!stream);
}

std::vector<InputChoice> InputStream::choices(const SoundTurn& turn) {
    std::vector<InputChoice> found;
    if (!turn.isReady()) return found;
    for (int index = 0; index < Pa_GetDeviceCount(); ++index) {
        const PaDeviceInfo* info = Pa_GetDeviceInfo(index);
        if (info && info->maxInputChannels > 0)
            found.push_back(
                {info->name, index == Pa_GetDefaultInputDevice(), std::min(info->maxInputChannels, 2)});
    }
    return found;
}

Result<InputStream::Chosen> InputStream::choose(const SoundTurn& turn, const InputWish& wish) {
    const int index = turn.isReady() ? indexOf(wish.name) : paNoDevice;
    const PaDeviceInfo* info = index == paNoDevice ? nullptr : Pa_GetDeviceInfo(index);
    if (!info || info->maxInputChannels < 1)
        return Error{ErrorKind::Device,
                     wish.name.empty()
                         ? "There is no sound input. Connect one and try again."
                         : "The input " + wish.name + " is not there. Connect it or choose another one.",
                     ""};
    const double own = info->defaultSampleRate;
    const int usable = own >= 8000 && own <= 192000 ? static_cast<int>(std::lround(own)) : 44100;
    return Chosen{index, info->name, SampleRate{wish.rateHertz > 0 ? wish.rateHertz : usable},
                  std::min(info->maxInputChannels, 2)};
}

Result<double> InputStream::open(const SoundTurn& turn, const Chosen& chosen, double latencySeconds,
                                 unsigned long periodFrames, InputListener& listener) {
    assert(!stream && turn.isReady());
    static_cast<void>(turn);
    PaStreamParameters wanted{};
    wanted.device = chosen.index;
    wanted.channelCount = chosen.channels;
    wanted.sampleFormat = paFloat32;
    wanted.suggestedLatency =
        std::max(latencySeconds, Pa_GetDeviceInfo(chosen.index)->defaultLowInputLatency);
    heard = &listener;
    channelCount = static_cast<std::size_t>(chosen.channels);
    PaStream* opened = nullptr;
    PaError code = Pa_OpenStream(&opened, &wanted, nullptr, chosen.rate.hertz, periodFrames,
                                 paClipOff | paDitherOff, &Callbacks::give, this);
    if (code != paNoError) return refused(chosen.name, code);
    Pa_SetStreamFinishedCallback(opened, &Callbacks::finished);
    code = Pa_StartStream(opened);
    if (code != paNoError) {
        Pa_CloseStream(opened);
        return refused(chosen.name, code);
    }
    stream = opened;
    const PaStreamInfo* granted = Pa_GetStreamInfo(opened);
    return granted ? granted->inputLatency : latencySeconds;
}

void InputStream::close(const SoundTurn&) {
    if (!stream) return;
    Pa_AbortStream(stream);
    Pa_CloseStream(stream);
    stream = nullptr;
}

} // namespace earwright
