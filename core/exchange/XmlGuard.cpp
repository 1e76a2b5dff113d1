#include "core/exchange/XmlGuard.h"

#include <algorithm>

namespace earwright {

namespace {

constexpr int deepest = 64;
constexpr int mostElements = 1'000'000;

/// The end of a tag that begins at `at`, behind its '>'; quoted values may hold one.
std::size_t tagEnd(std::string_view xml, std::size_t at) {
    char quote = 0;
    for (; at < xml.size(); ++at) {
        if (quote != 0) {
            if (xml[at] == quote) quote = 0;
        } else if (xml[at] == '"' || xml[at] == '\'') {
            quote = xml[at];
        } else if (xml[at] == '>') {
            return at + 1;
        }
    }
    return xml.size();
}

std::size_t behind(std::string_view xml, std::size_t at, std::string_view mark) {
    const std::size_t found = xml.find(mark, at);
    return found == std::string_view::npos ? xml.size() : found + mark.size();
}

} // namespace

std::optional<std::string> whyNotToParse(std::string_view xml) {
    int depth = 0;
    int elements = 0;
    std::size_t at = xml.find('<');
    while (at < xml.size()) {
        const std::string_view rest = xml.substr(at);
        if (rest.starts_with("<!--")) {
            at = behind(xml, at + 4, "-->");
        } else if (rest.starts_with("<![CDATA[")) {
            at = behind(xml, at + 9, "]]>");
        } else if (rest.starts_with("<?")) {
            at = behind(xml, at + 2, "?>");
        } else {
            const std::size_t end = tagEnd(xml, at + 1);
            const std::string_view tag = xml.substr(at, end - at);
            if (tag.starts_with("<!") && tag.find('[') != std::string_view::npos)
                return "it declares entities or elements of its own";
            if (tag.starts_with("</"))
                --depth;
            else if (!tag.starts_with("<!") && !tag.ends_with("/>"))
                ++depth;
            if (depth > deepest) return "its elements are nested too deeply";
            if (++elements > mostElements) return "it has more than a million elements";
            at = end;
        }
        at = xml.find('<', std::min(at, xml.size()));
    }
    return std::nullopt;
}

} // namespace earwright
