#include "core/study/AtomicFile.h"

#include "core/study/OpenFile.h"

#include <atomic>
#include <cerrno>
#include <cstring>
#include <fcntl.h>
#include <string>
#include <sys/stat.h>
#include <unistd.h>

namespace earwright {

namespace {

namespace fs = std::filesystem;

/// The reason the last system call failed. Requires: called right after it.
Error notWritable(const fs::path& path) {
    return {ErrorKind::NotWritable,
            path.string() + " could not be written: " + std::strerror(errno) +
                ". What was there before is unchanged; free some space or save under another name.",
            ""};
}

bool writeAll(int file, std::string_view bytes) {
    while (!bytes.empty()) {
        const ssize_t written = ::write(file, bytes.data(), bytes.size());
        if (written < 0 && errno == EINTR) continue;
        if (written < 0) return false;
        bytes.remove_prefix(static_cast<std::size_t>(written));
    }
    return true;
}

/// A file of this process's own in the folder, with the permissions a new file gets; its name is stored in
/// `path`.
int makeTemporary(const fs::path& folder, fs::path& path) {
    static std::atomic<unsigned> counter{0};
    for (;;) {
        path =
            folder / (".earwright-" + std::to_string(::getpid()) + "-" + std::to_string(counter++) + ".tmp");
        const int file = ::open(path.c_str(), O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, 0666);
        if (file >= 0 || errno != EEXIST) return file;
    }
}

/// Gives the new file the permissions of the one it replaces. Disks without permissions refuse that; no harm.
void keepPermissions(int file, const fs::path& replaced) {
    struct stat status {};
    if (::stat(replaced.c_str(), &status) == 0) static_cast<void>(!::fchmod(file, status.st_mode & 07777));
}

/// Where the bytes really go: the target of a link, or the path itself.
fs::path followed(const fs::path& path) {
    std::error_code none;
    if (!fs::is_symlink(path, none)) return path;
    const fs::path target = fs::weakly_canonical(path, none);
    return none || target.empty() ? path : target;
}

/// Makes the renaming itself last. A folder that cannot be synced (some network disks) has the new file
/// anyway.
void syncFolder(const fs::path& folder) {
    const OpenFile opened(::open(folder.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC));
    if (opened.isOpen()) ::fsync(opened.get());
}

} // namespace

Result<Done> replaceFile(const fs::path& path, std::string_view bytes) {
    const fs::path target = followed(path);
    const fs::path folder = target.has_parent_path() ? target.parent_path() : fs::path(".");
    // A rename would replace a write-protected file without asking.
    if (::access(target.c_str(), F_OK) == 0 && ::access(target.c_str(), W_OK) != 0) return notWritable(path);
    fs::path temporary;
    OpenFile file(makeTemporary(folder, temporary));
    if (!file.isOpen()) return notWritable(path);
    keepPermissions(file.get(), target);
    const bool written = writeAll(file.get(), bytes) && ::fsync(file.get()) == 0 && file.close() &&
                         ::rename(temporary.c_str(), target.c_str()) == 0;
    if (!written) {
        Error error = notWritable(path);
        ::unlink(temporary.c_str());
        return error;
    }
    syncFolder(folder);
    return Done{};
}

} // namespace earwright
