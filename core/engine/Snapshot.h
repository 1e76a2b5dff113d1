// A small value that one thread publishes again and again and others read whole.
#pragma once

#include <array>
#include <atomic>
#include <cstdint>
#include <cstring>
#include <type_traits>

namespace earwright {

/// A sequence lock made of atomics only: the writer never waits; a reader tries again when it was overtaken.
///
/// Threads: store() by one thread; load() by any.
/// Real time: store() takes constant time and neither locks nor allocates.
template <class T>
class Snapshot {
    static_assert(std::is_trivially_copyable_v<T>);
    using Word = std::uint64_t;
    static constexpr std::size_t wordCount = (sizeof(T) + sizeof(Word) - 1) / sizeof(Word);

public:
    void store(const T& value) {
        std::array<Word, wordCount> plain{};
        std::memcpy(plain.data(), &value, sizeof(T));
        const Word turn = sequence.load(std::memory_order_relaxed);
        sequence.store(turn + 1, std::memory_order_relaxed);
        for (std::size_t i = 0; i < wordCount; ++i)
            words[i].store(plain[i], std::memory_order_release);
        sequence.store(turn + 2, std::memory_order_release);
    }

    T load() const {
        std::array<Word, wordCount> plain{};
        for (;;) {
            const Word before = sequence.load(std::memory_order_acquire);
            for (std::size_t i = 0; i < wordCount; ++i)
                plain[i] = words[i].load(std::memory_order_acquire);
            if (before % 2 == 0 && sequence.load(std::memory_order_relaxed) == before) break;
        }
        T value;
        std::memcpy(static_cast<void*>(&value), plain.data(), sizeof(T));
        return value;
    }

private:
    std::array<std::atomic<Word>, wordCount> words{};
    std::atomic<Word> sequence{0};
};

} // namespace earwright
