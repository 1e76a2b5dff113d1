#include "core/midi/PortNames.h"

#include <algorithm>
#include <regex>

namespace earwright {

namespace {

std::string plain(const std::string& port) {
    static const std::regex numbered(R"(^(.*) \d+:\d+$)");
    std::smatch match;
    if (!std::regex_match(port, match, numbered)) return port;
    const std::string name = match[1];
    const std::size_t colon = name.find(':');
    if (colon == std::string::npos) return name;
    const std::string client = name.substr(0, colon);
    const std::string own = name.substr(colon + 1);
    return own.starts_with(client) ? own : client + ", " + own;
}

} // namespace

std::vector<std::string> plainPortNames(const std::vector<std::string>& ports) {
    std::vector<std::string> names;
    std::vector<std::string> seen;
    for (const std::string& port : ports) {
        const std::string name = plain(port);
        const auto before = std::count(seen.begin(), seen.end(), name);
        seen.push_back(name);
        names.push_back(before == 0 ? name : name + " (" + std::to_string(before + 1) + ")");
    }
    return names;
}

bool isLoopOfSystem(const std::string& name) {
    // As the kernel's module snd-seq-dummy names its client.
    return name.starts_with("Midi Through");
}

} // namespace earwright
