#include "core/exchange/Encoding.h"

#include <iconv.h>

namespace earwright {

std::optional<std::string> inUtf8(std::string_view bytes, const std::string& encoding) {
    iconv_t converter = iconv_open("UTF-8", encoding.c_str());
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

} // namespace earwright
