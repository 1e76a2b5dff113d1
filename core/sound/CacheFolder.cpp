#include "core/sound/CacheFolder.h"

#include <algorithm>
#include <array>
#include <atomic>
#include <chrono>
#include <cstring>
#include <fstream>
#include <unistd.h>
#include <xxhash.h>

namespace earwright {

namespace {

namespace fs = std::filesystem;

constexpr const char* ending = ".kept";
constexpr const char* draftEnding = ".part";
/// A draft this old was left behind by a program that ended in between.
constexpr auto abandoned = std::chrono::hours(1);

struct Header {
    std::array<char, 8> magic{'e', 'a', 'r', 'c', 'a', 'c', 'h', '1'};
    std::uint64_t bytes = 0;
    /// XXH3-64 of what follows.
    std::uint64_t checksum = 0;
};

struct KeptFile {
    fs::path path;
    std::uintmax_t bytes = 0;
    fs::file_time_type used;
};

std::vector<KeptFile> filesIn(const fs::path& folder) {
    std::vector<KeptFile> files;
    std::error_code failure;
    for (fs::directory_iterator entry(folder, failure), end; !failure && entry != end;
         entry.increment(failure)) {
        std::error_code gone;
        const fs::path& path = entry->path();
        const fs::file_time_type used = fs::last_write_time(path, gone);
        if (gone) continue;
        if (path.extension() == draftEnding && fs::file_time_type::clock::now() - used > abandoned)
            fs::remove(path, gone);
        const std::uintmax_t bytes = fs::file_size(path, gone);
        if (!gone && path.extension() == ending) files.push_back({path, bytes, used});
    }
    return files;
}

} // namespace

CacheFolder::CacheFolder(fs::path where, std::uintmax_t mostBytes)
    : folder(std::move(where)), limit(mostBytes) {}

fs::path CacheFolder::pathOf(const std::string& name) const {
    return folder / (name + ending);
}

std::optional<std::vector<char>> CacheFolder::find(const std::string& name) const {
    const fs::path path = pathOf(name);
    std::error_code failure;
    const std::uintmax_t size = fs::file_size(path, failure);
    if (failure || size < sizeof(Header) || size > limit) return std::nullopt;
    std::ifstream file(path, std::ios::binary);
    Header header;
    file.read(reinterpret_cast<char*>(&header), sizeof header);
    if (!file || header.magic != Header{}.magic || header.bytes != size - sizeof(Header)) return std::nullopt;
    std::vector<char> bytes(static_cast<std::size_t>(header.bytes));
    file.read(bytes.data(), static_cast<std::streamsize>(bytes.size()));
    if (!file || XXH3_64bits(bytes.data(), bytes.size()) != header.checksum) return std::nullopt;
    fs::last_write_time(path, fs::file_time_type::clock::now(), failure);
    return bytes;
}

void CacheFolder::keep(const std::string& name, std::span<const char> bytes) const {
    static std::atomic<unsigned> count{0};
    if (bytes.size() + sizeof(Header) > limit) return;
    std::error_code failure;
    fs::create_directories(folder, failure);
    const fs::path draft =
        folder / (name + '.' + std::to_string(getpid()) + '-' + std::to_string(++count) + draftEnding);
    Header header;
    header.bytes = bytes.size();
    header.checksum = XXH3_64bits(bytes.data(), bytes.size());
    {
        std::ofstream file(draft, std::ios::binary);
        file.write(reinterpret_cast<const char*>(&header), sizeof header);
        file.write(bytes.data(), static_cast<std::streamsize>(bytes.size()));
        file.flush();
        if (!file) failure = std::make_error_code(std::errc::io_error);
    }
    if (!failure) fs::rename(draft, pathOf(name), failure);
    if (failure) {
        fs::remove(draft, failure);
        return;
    }
    makeRoom();
}

void CacheFolder::makeRoom() const {
    std::vector<KeptFile> files = filesIn(folder);
    std::uintmax_t sum = 0;
    for (const KeptFile& file : files)
        sum += file.bytes;
    if (sum <= limit) return;
    std::sort(files.begin(), files.end(),
              [](const KeptFile& a, const KeptFile& b) { return a.used < b.used; });
    for (const KeptFile& file : files) {
        if (sum <= limit) return;
        std::error_code failure;
        if (fs::remove(file.path, failure)) sum -= file.bytes;
    }
}

} // namespace earwright
