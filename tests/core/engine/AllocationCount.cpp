#include "tests/core/engine/AllocationCount.h"

#include <cstdlib>
#include <new>

namespace {

thread_local std::size_t calls = 0;

void* take(std::size_t bytes) {
    ++calls;
    if (void* memory = std::malloc(bytes == 0 ? 1 : bytes)) return memory;
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

namespace earwright::tests {

AllocationCount::AllocationCount() : start(calls) {}

std::size_t AllocationCount::soFar() const {
    return calls - start;
}

} // namespace earwright::tests
