#include "core/midi/MidiPorts.h"

namespace earwright {

std::unique_ptr<MidiPorts> systemMidiPorts() {
    return nullptr;
}

} // namespace earwright
