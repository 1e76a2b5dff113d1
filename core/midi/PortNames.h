// The names of MIDI ports as a user knows them.
#pragma once

#include <string>
#include <vector>

namespace earwright {

/// For each port as the sequencer of ALSA names it, "client:port 24:0", its name without the numbers, which
/// change whenever a cable is pulled, and without the client where the port's own name begins with it. Of
/// several that are alike the second is called "… (2)". Names of other systems stay as they are.
std::vector<std::string> plainPortNames(const std::vector<std::string>& ports);

/// A loop the system puts beside the keyboards, from which nothing is ever played.
bool isLoopOfSystem(const std::string& name);

} // namespace earwright
