#include "core/study/Recovery.h"

#include "core/study/StudyFile.h"

#include <algorithm>
#include <atomic>
#include <chrono>
#include <fcntl.h>
#include <string>
#include <string_view>
#include <sys/file.h>
#include <utility>

namespace earwright {

namespace {

namespace fs = std::filesystem;

constexpr std::string_view suffix = ".recovery";
constexpr std::string_view unsavedPrefix = "unsaved-";
/// Between two copies during a drag, which is an edit for every mouse move.
constexpr std::chrono::milliseconds pause{250};

fs::path copyOf(const fs::path& studyFile) {
    fs::path copy = studyFile;
    return copy += suffix;
}

/// The copy opened and locked for as long as the descriptor lives; not open if another program has it.
OpenFile lockCopy(const fs::path& copy) {
    OpenFile file(::open(copy.c_str(), O_RDONLY | O_CLOEXEC));
    if (file.isOpen() && ::flock(file.get(), LOCK_EX | LOCK_NB) != 0) file.close();
    return file;
}

/// When an abandoned copy was written; nothing where there is none or a running program holds it.
std::optional<fs::file_time_type> abandonedSince(const fs::path& copy) {
    std::error_code failure;
    if (!fs::is_regular_file(copy, failure) || !lockCopy(copy).isOpen()) return std::nullopt;
    const fs::file_time_type written = fs::last_write_time(copy, failure);
    return failure ? std::nullopt : std::optional(written);
}

} // namespace

Recovery::Recovery(fs::path folderForUnsavedWork)
    : unsavedFolder(std::move(folderForUnsavedWork)), writer([this] { run(); }) {}

Recovery::~Recovery() {
    {
        const std::lock_guard guard(mutex);
        stopping = true;
    }
    changed.notify_all();
    writer.join();
}

void Recovery::open(const fs::path& studyFile) {
    std::error_code none;
    const fs::path next =
        studyFile.empty() ? freshUnsavedCopy() : copyOf(fs::absolute(studyFile, none).lexically_normal());
    const std::lock_guard guard(mutex);
    if (next == copy) return;
    if (!copy.empty()) superseded.push_back(copy);
    waiting.reset();
    copy = next;
    changed.notify_all();
}

void Recovery::keep(std::shared_ptr<const Study> work) {
    const std::lock_guard guard(mutex);
    if (copy.empty()) return;
    waiting = std::move(work);
    changed.notify_all();
}

void Recovery::discard() {
    const std::lock_guard guard(mutex);
    if (copy.empty()) return;
    waiting.reset();
    superseded.push_back(copy);
    changed.notify_all();
}

void Recovery::close() {
    discard();
    const std::lock_guard guard(mutex);
    copy.clear();
}

void Recovery::finish() {
    std::unique_lock guard(mutex);
    changed.wait(guard, [&] { return isIdle(); });
}

std::optional<Error> Recovery::problem() const {
    const std::lock_guard guard(mutex);
    return failure;
}

fs::path Recovery::freshUnsavedCopy() {
    static std::atomic<unsigned> counter{0};
    std::error_code none;
    for (;;) {
        const fs::path fresh =
            unsavedFolder / (std::string(unsavedPrefix) + std::to_string(::getpid()) + "-" +
                             std::to_string(counter++) + ".study" + std::string(suffix));
        // A program that had the same process number may have left one.
        if (!fs::exists(fresh, none)) return fresh;
    }
}

void Recovery::run() {
    std::unique_lock guard(mutex);
    for (;;) {
        changed.wait(guard, [&] { return stopping || !isIdle(); });
        if (isIdle()) return;
        const std::vector<fs::path> going = std::exchange(superseded, {});
        const std::shared_ptr<const Study> work = std::exchange(waiting, nullptr);
        const fs::path place = copy;
        busy = true;
        guard.unlock();
        for (const fs::path& written : going)
            remove(written);
        std::optional<Error> outcome = work ? write(*work, place) : std::nullopt;
        guard.lock();
        busy = false;
        failure = std::move(outcome);
        changed.notify_all();
        if (work) changed.wait_for(guard, pause, [&] { return stopping || !superseded.empty(); });
    }
}

std::optional<Error> Recovery::write(const Study& work, const fs::path& to) {
    std::error_code failed;
    if (to.parent_path() == unsavedFolder) fs::create_directories(unsavedFolder, failed);
    if (const Result<Done> done = StudyFile::write(work, to); !done) return done.error();
    lock = lockCopy(to);
    held = to;
    return std::nullopt;
}

void Recovery::remove(const fs::path& written) {
    // Lost work that nobody has looked at yet is not ours to remove.
    if (written != held) return;
    std::error_code none;
    fs::remove(held, none);
    held.clear();
    lock.close();
}

std::optional<LostWork> Recovery::lostWorkOf(const fs::path& studyFile) {
    const fs::path copy = copyOf(studyFile);
    const std::optional<fs::file_time_type> written = abandonedSince(copy);
    std::error_code failure;
    const fs::file_time_type saved = fs::last_write_time(studyFile, failure);
    if (!written || (!failure && *written <= saved)) return std::nullopt;
    return LostWork{copy, studyFile, *written};
}

std::vector<LostWork> Recovery::lostUnsavedWork(const fs::path& folderForUnsavedWork) {
    std::vector<LostWork> found;
    std::error_code failure;
    for (fs::directory_iterator entry(folderForUnsavedWork, failure), end; !failure && entry != end;
         entry.increment(failure)) {
        const std::string name = entry->path().filename().string();
        if (!name.starts_with(unsavedPrefix) || !name.ends_with(suffix)) continue;
        if (const auto written = abandonedSince(entry->path()))
            found.push_back({entry->path(), {}, *written});
    }
    std::sort(found.begin(), found.end(),
              [](const LostWork& a, const LostWork& b) { return a.written > b.written; });
    return found;
}

void Recovery::forget(const LostWork& work) {
    std::error_code none;
    fs::remove(work.copy, none);
}

} // namespace earwright
