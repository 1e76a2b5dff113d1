// How large the glyphs of a music font are and where stems meet them, from the font's own metadata.
#pragma once

#include "core/engraving/EngravedPage.h"
#include "core/engraving/Smufl.h"
#include "core/result/Result.h"

#include <filesystem>
#include <map>
#include <string>
#include <string_view>
#include <unordered_map>

namespace earwright {

/// The metadata file of a SMuFL font (SMuFL 1.4, "Metadata for SMuFL-compliant fonts"): bounding boxes,
/// anchors and engraving defaults. In staff spaces; y is turned to grow downward here.
///
/// Threads: a value; share it const.
class FontMetrics {
public:
    /// Errors: NotFound; Malformed (no SMuFL metadata); Unsupported (a glyph of Smufl.h is missing).
    static Result<FontMetrics> read(const std::filesystem::path& file);

    /// About the glyph's origin.
    PageBox box(Smufl glyph) const;
    double width(Smufl glyph) const { return box(glyph).width(); }
    /// Where the stem's right lower corner meets a head with its stem up.
    PagePoint stemUp(Smufl head) const;
    /// Where the stem's left upper corner meets a head with its stem down.
    PagePoint stemDown(Smufl head) const;
    /// Where the end of a stem meets a flag: its upper left corner, or lower left with the stem down.
    PagePoint stemOfFlag(Smufl flag) const;
    /// The stroke through the flag of a grace note, from its lower left to its upper right end.
    PagePoint graceSlashFrom(Smufl flag) const;
    PagePoint graceSlashTo(Smufl flag) const;
    /// A value of the font's engravingDefaults, "staffLineThickness"; 0.13, a thin line, where it has none.
    double usual(std::string_view word) const;
    const std::string& fontName() const { return name; }

private:
    struct Glyph {
        PageBox box;
        PagePoint stemUp;
        PagePoint stemDown;
        PagePoint stemOfFlag;
        PagePoint graceSlashFrom;
        PagePoint graceSlashTo;
    };
    /// An empty one for a glyph that is not known.
    const Glyph& find(Smufl glyph) const;

    std::string name;
    std::unordered_map<Smufl, Glyph> glyphs;
    std::map<std::string, double, std::less<>> defaults;
};

} // namespace earwright
