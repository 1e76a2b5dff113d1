// Counts what a piece of code takes from the heap.
#pragma once

#include <cstddef>

namespace earwright::tests {

/// Calls of operator new and delete on this thread since the counter was made. A program that uses it has
/// both replaced throughout.
class AllocationCount {
public:
    AllocationCount();
    std::size_t soFar() const;

private:
    std::size_t start;
};

} // namespace earwright::tests
