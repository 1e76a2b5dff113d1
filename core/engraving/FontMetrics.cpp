#include "core/engraving/FontMetrics.h"

#include <fstream>
#include <nlohmann/json.hpp>

namespace earwright {

namespace {

using nlohmann::json;

constexpr double thinLine = 0.13;

/// The font's y grows upward.
PagePoint pointOf(const json& pair) {
    return {pair.at(0).get<double>(), -pair.at(1).get<double>()};
}

PageBox boxOf(const json& glyph) {
    const PagePoint lowerLeft = pointOf(glyph.at("bBoxSW"));
    const PagePoint upperRight = pointOf(glyph.at("bBoxNE"));
    return {lowerLeft.x, upperRight.y, upperRight.x, lowerLeft.y};
}

PagePoint anchorOf(const json& anchors, const std::string& glyph, const char* anchor) {
    const auto found = anchors.find(glyph);
    return found != anchors.end() && found->contains(anchor) ? pointOf(found->at(anchor)) : PagePoint{};
}

PagePoint flagAnchor(const json& anchors, const std::string& glyph) {
    const bool isDown = glyph.ends_with("Down");
    return anchorOf(anchors, glyph, isDown ? "stemDownSW" : "stemUpNW");
}

std::string pathText(const std::filesystem::path& file) {
    return file.filename().string();
}

} // namespace

Result<FontMetrics> FontMetrics::read(const std::filesystem::path& file) {
    std::ifstream stream(file);
    if (!stream)
        return Error{ErrorKind::NotFound, "The music font's metadata " + pathText(file) + " is not there.",
                     ""};
    FontMetrics metrics;
    try {
        const json read = json::parse(stream);
        metrics.name = read.at("fontName").get<std::string>();
        const json& boxes = read.at("glyphBBoxes");
        const json& anchors = read.at("glyphsWithAnchors");
        const auto add = [&](Smufl glyph) {
            const std::string name(smuflName(glyph));
            if (boxes.contains(name))
                metrics.glyphs[glyph] = {boxOf(boxes.at(name)),
                                         anchorOf(anchors, name, "stemUpSE"),
                                         anchorOf(anchors, name, "stemDownNW"),
                                         flagAnchor(anchors, name),
                                         anchorOf(anchors, name, "graceNoteSlashSW"),
                                         anchorOf(anchors, name, "graceNoteSlashNE")};
        };
        for (const Smufl glyph : smuflGlyphs())
            add(glyph);
        for (int digit = 0; digit <= 9; ++digit) {
            add(digitOf(Smufl::TimeSig0, digit));
            add(digitOf(Smufl::Tuplet0, digit));
        }
        for (const auto& [word, value] : read.at("engravingDefaults").items())
            if (value.is_number()) metrics.defaults[word] = value.get<double>();
    } catch (const json::exception& wrong) {
        return Error{ErrorKind::Malformed, pathText(file) + " is not the metadata of a SMuFL font.",
                     wrong.what()};
    }
    for (const Smufl glyph : smuflGlyphs())
        if (!metrics.glyphs.contains(glyph))
            return Error{ErrorKind::Unsupported,
                         "The music font " + metrics.name + " has no glyph " + std::string(smuflName(glyph)) +
                             ".",
                         ""};
    return metrics;
}

const FontMetrics::Glyph& FontMetrics::find(Smufl glyph) const {
    static const Glyph none{};
    const auto found = glyphs.find(glyph);
    return found == glyphs.end() ? none : found->second;
}

PageBox FontMetrics::box(Smufl glyph) const {
    return find(glyph).box;
}

PagePoint FontMetrics::stemUp(Smufl head) const {
    return find(head).stemUp;
}

PagePoint FontMetrics::stemDown(Smufl head) const {
    return find(head).stemDown;
}

PagePoint FontMetrics::stemOfFlag(Smufl flag) const {
    return find(flag).stemOfFlag;
}

PagePoint FontMetrics::graceSlashFrom(Smufl flag) const {
    return find(flag).graceSlashFrom;
}

PagePoint FontMetrics::graceSlashTo(Smufl flag) const {
    return find(flag).graceSlashTo;
}

double FontMetrics::usual(std::string_view word) const {
    const auto found = defaults.find(word);
    return found == defaults.end() ? thinLine : found->second;
}

} // namespace earwright
