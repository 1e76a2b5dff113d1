#include "core/sound/ContentHash.h"

#include <cstdio>
#include <fstream>
#include <memory>
#include <vector>
#include <xxhash.h>

namespace earwright {

namespace {

std::string hexOf(const XXH128_hash_t& hash) {
    XXH128_canonical_t canonical;
    XXH128_canonicalFromHash(&canonical, hash);
    std::string hex;
    for (const unsigned char byte : canonical.digest) {
        constexpr char digits[] = "0123456789abcdef";
        hex += digits[byte >> 4];
        hex += digits[byte & 15];
    }
    return hex;
}

} // namespace

Result<std::string> contentHash(const std::filesystem::path& path, const std::stop_token& stop) {
    std::error_code failure;
    if (!std::filesystem::exists(path, failure))
        return Error{ErrorKind::NotFound, "There is no file " + path.string() + ".", ""};
    std::ifstream bytes(path, std::ios::binary);
    const Error unreadable{ErrorKind::Unreadable, path.string() + " cannot be read.", ""};
    if (!bytes || std::filesystem::is_directory(path, failure)) return unreadable;

    const std::unique_ptr<XXH3_state_t, XXH_errorcode (*)(XXH3_state_t*)> state(XXH3_createState(),
                                                                                &XXH3_freeState);
    if (!state || XXH3_128bits_reset(state.get()) == XXH_ERROR) return unreadable;
    std::vector<char> block(1 << 18);
    while (bytes) {
        if (stop.stop_requested())
            return Error{ErrorKind::Cancelled, "Reading " + path.string() + " was called off.", ""};
        bytes.read(block.data(), static_cast<std::streamsize>(block.size()));
        XXH3_128bits_update(state.get(), block.data(), static_cast<std::size_t>(bytes.gcount()));
    }
    if (bytes.bad()) return unreadable;
    return hexOf(XXH3_128bits_digest(state.get()));
}

} // namespace earwright
