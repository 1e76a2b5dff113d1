// What can be made again, kept on disk so that it need not be: a folder of files with a limit to its size.
#pragma once

#include <cstdint>
#include <filesystem>
#include <optional>
#include <span>
#include <string>
#include <vector>

namespace earwright {

/// Files known by name, each with a checksum. Whatever goes wrong with one – cut short, damaged, written by
/// another program, disk full – it counts as not there: a cache is never a reason to fail.
///
/// Threads: any, and any number of programs on the same folder; a file is there whole or not at all.
class CacheFolder {
public:
    /// A folder that is made when something is kept. No files are kept beyond mostBytes in all; those read or
    /// written least recently go first.
    CacheFolder(std::filesystem::path folder, std::uintmax_t mostBytes);

    /// Name: letters, digits, dots and hyphens. It carries content hash and version of what is kept.
    std::optional<std::vector<char>> find(const std::string& name) const;
    void keep(const std::string& name, std::span<const char> bytes) const;

    const std::filesystem::path& path() const { return folder; }

private:
    std::filesystem::path pathOf(const std::string& name) const;
    void makeRoom() const;

    std::filesystem::path folder;
    std::uintmax_t limit;
};

} // namespace earwright
