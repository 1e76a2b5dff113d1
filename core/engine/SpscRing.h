// A ring of fixed size between one writer and one reader, without locks.
#pragma once

#include <algorithm>
#include <atomic>
#include <cstddef>
#include <cstdint>
#include <span>
#include <vector>

namespace earwright {

/// Threads: write() and freeSpace() by the writer, read(), skip() and readable() by the reader; the counts by
///   both. clear() only while the other side is known to stay away.
/// Real time: everything but the constructor.
template <class T>
class SpscRing {
public:
    /// Requires: capacity is a power of two.
    explicit SpscRing(std::size_t capacity) : items(capacity), mask(capacity - 1) {}

    std::size_t freeSpace() const { return items.size() - static_cast<std::size_t>(written() - taken()); }
    std::size_t readable() const { return static_cast<std::size_t>(written() - taken()); }
    /// Items written and taken since the last clear().
    std::int64_t written() const { return writeCount.load(std::memory_order_acquire); }
    std::int64_t taken() const { return readCount.load(std::memory_order_acquire); }

    /// Requires: in.size() <= freeSpace().
    void write(std::span<const T> in) {
        const std::int64_t at = writeCount.load(std::memory_order_relaxed);
        for (std::size_t i = 0; i < in.size(); ++i)
            items[(static_cast<std::size_t>(at) + i) & mask] = in[i];
        writeCount.store(at + static_cast<std::int64_t>(in.size()), std::memory_order_release);
    }
    /// Takes as many as there are; returns how many.
    std::size_t read(std::span<T> out) {
        const std::size_t count = std::min(out.size(), readable());
        const std::int64_t at = readCount.load(std::memory_order_relaxed);
        for (std::size_t i = 0; i < count; ++i)
            out[i] = items[(static_cast<std::size_t>(at) + i) & mask];
        readCount.store(at + static_cast<std::int64_t>(count), std::memory_order_release);
        return count;
    }
    /// Requires: count <= readable().
    void skip(std::size_t count) {
        readCount.store(readCount.load(std::memory_order_relaxed) + static_cast<std::int64_t>(count),
                        std::memory_order_release);
    }
    void clear() {
        readCount.store(0, std::memory_order_relaxed);
        writeCount.store(0, std::memory_order_release);
    }

private:
    std::vector<T> items;
    std::size_t mask;
    std::atomic<std::int64_t> writeCount{0};
    std::atomic<std::int64_t> readCount{0};
};

} // namespace earwright
