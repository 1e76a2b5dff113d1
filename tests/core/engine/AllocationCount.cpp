#include "tests/core/engine/AllocationCount.h"

#include <algorithm>
#include <cstdlib>
#include <new>

namespace {

thread_local std::size_t calls = 0;

void* take(std::size_t bytes) {
    ++calls;
    if (void* memory = std::malloc(bytes == 0 ? 1 : bytes)) return memory;
    throw std::bad_alloc();
}

void* takeAligned(std::size_t bytes, std::align_val_t alignment) {
    ++calls;
    // aligned_alloc() takes whole multiples of the alignment (C++17, [c.malloc]).
    const auto unit = static_cast<std::size_t>(alignment);
    if (void* memory = std::aligned_alloc(unit, std::max(unit, (bytes + unit - 1) / unit * unit)))
        return memory;
    throw std::bad_alloc();
}

void give(void* memory) {
    ++calls;
    std::free(memory);
}

} // namespace

void* operator new(std::size_t bytes) {
    return take(bytes);
}
void* operator new[](std::size_t bytes) {
    return take(bytes);
}
void* operator new(std::size_t bytes, const std::nothrow_t&) noexcept {
    ++calls;
    return std::malloc(bytes == 0 ? 1 : bytes);
}
void* operator new[](std::size_t bytes, const std::nothrow_t&) noexcept {
    ++calls;
    return std::malloc(bytes == 0 ? 1 : bytes);
}
void operator delete(void* memory) noexcept {
    give(memory);
}
void operator delete[](void* memory) noexcept {
    give(memory);
}
void operator delete(void* memory, std::size_t) noexcept {
    give(memory);
}
void operator delete[](void* memory, std::size_t) noexcept {
    give(memory);
}

void* operator new(std::size_t bytes, std::align_val_t alignment) {
    return takeAligned(bytes, alignment);
}
void* operator new[](std::size_t bytes, std::align_val_t alignment) {
    return takeAligned(bytes, alignment);
}
void operator delete(void* memory, std::align_val_t) noexcept {
    give(memory);
}
void operator delete[](void* memory, std::align_val_t) noexcept {
    give(memory);
}
void operator delete(void* memory, std::size_t, std::align_val_t) noexcept {
    give(memory);
}
void operator delete[](void* memory, std::size_t, std::align_val_t) noexcept {
    give(memory);
}

namespace earwright::tests {

AllocationCount::AllocationCount() : start(calls) {}

std::size_t AllocationCount::soFar() const {
    return calls - start;
}

} // namespace earwright::tests
