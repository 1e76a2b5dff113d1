#include "core/engine/Input.h"

#include "core/engine/InputDevice.h"

#include <algorithm>
#include <utility>

namespace earwright {

// The device is made when it is first needed: most sessions never open an input.
Input::Input(const std::shared_ptr<Mixer>& output)
    : mixer(output), capture(std::make_shared<Capture>(mixer->monitor())), recorder(mixer, capture) {}

Input::~Input() = default;

void Input::open(const InputWish& wish) {
    if (!device) device = std::make_unique<InputDevice>(capture);
    device->open(wish);
}

void Input::close() {
    if (device) device->close();
}

void Input::look() {
    if (!device) device = std::make_unique<InputDevice>(capture);
    device->look();
}

InputReport Input::report() const {
    return device ? device->report() : InputReport{};
}

std::vector<InputChoice> Input::choices() const {
    return device ? device->choices() : std::vector<InputChoice>{};
}

InputLevel Input::level() {
    const std::int64_t clipped = capture->clippedSamples();
    return {capture->takePeak(), std::exchange(clippedBefore, clipped) != clipped};
}

void Input::setMonitor(bool heard) {
    mixer->monitor()->setHeard(heard);
}

bool Input::isMonitored() const {
    return mixer->monitor()->heard();
}

void Input::setMonitorLevel(double linear) {
    mixer->monitor()->setLevel(static_cast<float>(std::clamp(linear, 0.0, 1.0)));
}

void Input::record(const std::filesystem::path& file, SampleRate recordingRate) {
    recorder.record(file, recordingRate);
}

} // namespace earwright
