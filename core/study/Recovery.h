// A copy of the work beside the study file, written after each edit, for the day the program or the machine
// stops.
#pragma once

#include "core/result/Error.h"
#include "core/study/OpenFile.h"
#include "core/study/Study.h"

#include <condition_variable>
#include <filesystem>
#include <memory>
#include <mutex>
#include <optional>
#include <thread>
#include <vector>

namespace earwright {

/// Work that a crash left behind.
struct LostWork {
    /// The copy; StudyFile::read() opens it.
    std::filesystem::path copy;
    /// The study file it belongs to; empty for work that was never saved.
    std::filesystem::path study;
    std::filesystem::file_time_type written;
};

/// Keeps the copy of one open study up to date.
///
/// The copy of `blues.study` is `blues.study.recovery` in the same folder, or one of its own in the folder
/// for unsaved work while the study has no file. It is locked while this program runs, so that another one
/// started meanwhile does not take it for lost work.
///
/// Threads: all calls from the interface thread; none waits for the disk, except finish() and the destructor.
/// A thread of its own writes the newest work at once, and at most every quarter of a second, so that the
/// copy is never more than a second behind (a disk that blocks delays the copy, never the caller).
class Recovery {
public:
    /// The folder is made when it is needed.
    explicit Recovery(std::filesystem::path folderForUnsavedWork);
    /// Writes what was kept last and leaves the copy in place; call close() before when the user is done with
    /// the work.
    ~Recovery();
    Recovery(const Recovery&) = delete;
    Recovery& operator=(const Recovery&) = delete;

    /// From now on copies belong to this study file (empty: to none yet), and the copy made so far goes
    /// unless it is the same one. Settle lost work of that file first: the next copy takes its place.
    void open(const std::filesystem::path& studyFile);
    /// The work as it is now is to be copied. Nothing happens between close() and open().
    void keep(std::shared_ptr<const Study> work);
    /// The work is on disk, or the user gave it up: the copy made so far goes, the next keep() makes a new
    /// one.
    void discard();
    /// The user is done with the study: as discard(), and nothing is kept until the next open().
    void close();
    /// Waits until all that was asked for is done.
    void finish();

    /// Why the newest copy could not be written, if it could not.
    std::optional<Error> problem() const;

    /// Work that a crash left of this study file: a copy that is newer than the file and that no running
    /// program holds.
    static std::optional<LostWork> lostWorkOf(const std::filesystem::path& studyFile);
    /// Work that was never saved, newest first.
    static std::vector<LostWork> lostUnsavedWork(const std::filesystem::path& folderForUnsavedWork);
    /// The user has seen it: the copy goes.
    static void forget(const LostWork& work);

private:
    void run();
    bool isIdle() const { return !busy && !waiting && superseded.empty(); }
    std::filesystem::path freshUnsavedCopy();
    /// Writer thread only, without the mutex.
    std::optional<Error> write(const Study& work, const std::filesystem::path& to);
    void remove(const std::filesystem::path& written);

    const std::filesystem::path unsavedFolder;

    mutable std::mutex mutex;
    std::condition_variable changed;
    // Guarded by the mutex.
    /// Where copies go; empty while closed.
    std::filesystem::path copy;
    std::shared_ptr<const Study> waiting;
    std::vector<std::filesystem::path> superseded;
    std::optional<Error> failure;
    bool busy = false;
    bool stopping = false;

    // Writer thread only.
    /// The copy that was written and is locked, and the lock.
    std::filesystem::path held;
    OpenFile lock;

    std::thread writer;
};

} // namespace earwright
