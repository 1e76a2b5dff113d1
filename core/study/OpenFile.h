// A file descriptor that is closed when its owner goes.
#pragma once

#include <unistd.h>
#include <utility>

namespace earwright {

/// Owns what open() returned, a failure too.
class OpenFile {
public:
    explicit OpenFile(int opened = -1) : descriptor(opened) {}
    ~OpenFile() { close(); }
    OpenFile(OpenFile&& other) noexcept : descriptor(std::exchange(other.descriptor, -1)) {}
    OpenFile& operator=(OpenFile&& other) noexcept {
        std::swap(descriptor, other.descriptor);
        return *this;
    }

    int get() const { return descriptor; }
    bool isOpen() const { return descriptor >= 0; }
    /// False where the disk reports only now that a write was lost.
    bool close() { return !isOpen() || ::close(std::exchange(descriptor, -1)) == 0; }

private:
    int descriptor;
};

} // namespace earwright
