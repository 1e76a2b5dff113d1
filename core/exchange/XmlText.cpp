#include "core/exchange/XmlText.h"

#include "core/exchange/Encoding.h"

#include <algorithm>
#include <array>
#include <cctype>

namespace earwright {

namespace {

using namespace std::string_view_literals;

constexpr std::size_t longestDeclaration = 200;

/// What programs write; stateful encodings are not among them.
constexpr std::array<std::string_view, 9> knownEncodings{"UTF-8",      "UTF-16",       "US-ASCII",
                                                         "ISO-8859-1", "ISO-8859-15",  "ISO-8859-2",
                                                         "SHIFT_JIS",  "WINDOWS-1252", "WINDOWS-1251"};

/// In capitals; empty where the declaration names none.
std::string declaredEncoding(std::string_view bytes) {
    if (!bytes.starts_with("<?xml")) return "";
    const std::string_view declaration = bytes.substr(0, std::min(bytes.find("?>"), longestDeclaration));
    const std::size_t word = declaration.find("encoding");
    if (word == std::string_view::npos) return "";
    const std::size_t open = declaration.find_first_of("\"'", word);
    if (open == std::string_view::npos) return "";
    const std::size_t close = declaration.find(declaration[open], open + 1);
    if (close == std::string_view::npos) return "";
    std::string name(declaration.substr(open + 1, close - open - 1));
    std::transform(name.begin(), name.end(), name.begin(),
                   [](unsigned char c) { return static_cast<char>(std::toupper(c)); });
    return name;
}

} // namespace

std::optional<std::string> utf8Xml(std::string_view bytes) {
    if (bytes.starts_with("\xFF\xFE"sv)) return inUtf8(bytes.substr(2), "UTF-16LE");
    if (bytes.starts_with("\xFE\xFF"sv)) return inUtf8(bytes.substr(2), "UTF-16BE");
    if (bytes.starts_with("<\0"sv)) return inUtf8(bytes, "UTF-16LE");
    if (bytes.starts_with("\0<"sv)) return inUtf8(bytes, "UTF-16BE");
    if (bytes.starts_with("\xEF\xBB\xBF"sv)) bytes.remove_prefix(3);
    const std::string encoding = declaredEncoding(bytes);
    // A text that says UTF-16 in single bytes was converted by something that left its declaration as it was.
    if (encoding.empty() || encoding == "UTF-8" || encoding == "UTF-16") return std::string(bytes);
    if (std::find(knownEncodings.begin(), knownEncodings.end(), encoding) == knownEncodings.end())
        return std::nullopt;
    return inUtf8(bytes, encoding);
}

} // namespace earwright
