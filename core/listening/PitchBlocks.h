// All pitches in blocks of eight, for what is reckoned for several of them at once.
#pragma once

#include "core/listening/LogAxis.h"

#include <algorithm>
#include <array>
#include <cstddef>
#include <span>

namespace earwright {

inline constexpr std::size_t pitchBlock = 8;
inline constexpr std::size_t pitchBlocks = (pitchCount + pitchBlock - 1) / pitchBlock;

/// The first pitch of a block; the last block overlaps the one before, so that all are of one size.
constexpr std::size_t firstOfBlock(std::size_t block) {
    return std::min(block * pitchBlock, pitchCount - pitchBlock);
}

/// Rows of a table that belong to a block.
template <class Row>
std::span<const Row, pitchBlock> blockOf(const std::array<Row, pitchCount>& table, std::size_t first) {
    return std::span(table).subspan(first).template first<pitchBlock>();
}

} // namespace earwright
