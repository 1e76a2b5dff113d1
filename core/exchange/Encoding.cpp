#include "core/exchange/Encoding.h"

#include <iconv.h>

namespace earwright {

namespace {

std::optional<std::string> converted(std::string_view bytes, const char* encoding, const char* wanted) {
    iconv_t converter = iconv_open(wanted, encoding);
    if (converter == reinterpret_cast<iconv_t>(-1)) return std::nullopt;
    // One byte or unit becomes three at most.
    std::string text(bytes.size() * 3 + 4, '\0');
    std::string copy(bytes);
    char* from = copy.data();
    char* to = text.data();
    std::size_t left = copy.size();
    std::size_t room = text.size();
    const bool isRead = iconv(converter, &from, &left, &to, &room) != static_cast<std::size_t>(-1);
    iconv_close(converter);
    if (!isRead) return std::nullopt;
    text.resize(text.size() - room);
    return text;
}

} // namespace

std::optional<std::string> inUtf8(std::string_view bytes, const std::string& encoding) {
    if (encoding != "UTF-8") return converted(bytes, encoding.c_str(), "UTF-8");
    // By way of UTF-16, which ends where Unicode does: glibc takes longer forms of UTF-8 for letters, too.
    const auto units = converted(bytes, "UTF-8", "UTF-16LE");
    return units ? converted(*units, "UTF-16LE", "UTF-8") : std::nullopt;
}

} // namespace earwright
