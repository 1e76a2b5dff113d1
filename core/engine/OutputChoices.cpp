#include "core/engine/OutputChoices.h"

#include "core/engine/OutputStream.h"

#include <utility>

namespace earwright {

void OutputChoices::list(const SoundTurn& turn) {
    auto found = OutputStream::choices(turn);
    for (DeviceChoice& device : found)
        if (const auto known = knownRates.find(device.name); known != knownRates.end())
            device.rates = known->second;
    listing = turn.listing();
    const std::lock_guard lock(guard);
    listed = std::move(found);
}

bool OutputChoices::findRates(std::size_t place) {
    DeviceChoice device;
    {
        const std::lock_guard lock(guard);
        if (place >= listed.size()) return false;
        device = listed[place];
    }
    if (knownRates.contains(device.name)) return true;
    const SoundTurn turn;
    if (turn.listing() != listing) return true;
    std::vector<int> rates = OutputStream::rates(turn, device.index);
    if (rates.empty()) return true;
    const std::lock_guard lock(guard);
    listed[place].rates = knownRates[device.name] = std::move(rates);
    return true;
}

std::vector<DeviceChoice> OutputChoices::choices() const {
    const std::lock_guard lock(guard);
    return listed;
}

} // namespace earwright
