#include "core/sound/ContainerStart.h"

#include <algorithm>
#include <array>
#include <fstream>
#include <string_view>

namespace earwright {

namespace {

/// Boxes that an ISO base media file or an older film file of its kind begins with.
constexpr std::array<std::string_view, 5> firstBoxes{"ftyp", "moov", "mdat", "wide", "skip"};
constexpr std::string_view matroskaStart{"\x1a\x45\xdf\xa3", 4};

bool isAdts(std::string_view head) {
    const auto first = static_cast<unsigned char>(head[0]);
    const auto second = static_cast<unsigned char>(head[1]);
    // Twelve bits of sync word, then layer 00, which no MPEG audio layer has.
    return first == 0xff && (second & 0xf6) == 0xf0;
}

} // namespace

bool isMediaContainer(const std::filesystem::path& path) {
    std::array<char, 8> bytes{};
    std::ifstream file(path, std::ios::binary);
    file.read(bytes.data(), bytes.size());
    if (file.gcount() != static_cast<std::streamsize>(bytes.size())) return false;
    const std::string_view head(bytes.data(), bytes.size());
    if (head.starts_with(matroskaStart) || isAdts(head)) return true;
    return std::find(firstBoxes.begin(), firstBoxes.end(), head.substr(4, 4)) != firstBoxes.end();
}

} // namespace earwright
