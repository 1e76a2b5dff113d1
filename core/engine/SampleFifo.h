// Samples waiting between two stages that work in blocks of different sizes.
#pragma once

#include <cstddef>
#include <span>
#include <vector>

namespace earwright {

/// First in, first out; grows to the largest backlog and stays there. One thread.
class SampleFifo {
public:
    std::size_t size() const { return samples.size() - begin; }
    std::span<const float> view() const { return std::span(samples).subspan(begin); }
    void clear() {
        samples.clear();
        begin = 0;
    }
    void push(std::span<const float> more) {
        if (begin > 0 && begin >= size()) compact();
        samples.insert(samples.end(), more.begin(), more.end());
    }
    /// Requires: count <= size().
    void drop(std::size_t count) {
        begin += count;
        if (begin == samples.size()) clear();
    }

private:
    void compact() {
        samples.erase(samples.begin(), samples.begin() + static_cast<std::ptrdiff_t>(begin));
        begin = 0;
    }
    std::vector<float> samples;
    std::size_t begin = 0;
};

} // namespace earwright
