#include "app/batch/ClaimsTable.h"

#include "core/exchange/TabTable.h"

#include <cmath>
#include <optional>

namespace earwright::batch {

namespace {

/// Longer than any recording; keeps times within what frames can count.
constexpr double latestSecond = 1e6;

Result<double> numberIn(const TabTable& table, std::size_t row, const char* column, double least,
                        const char* what) {
    auto number = table.number(row, column);
    if (!number) return number;
    if (*number < least || *number > latestSecond) return table.errorAt(row, what);
    return number;
}

Result<Claim> claimIn(const TabTable& table, std::size_t row) {
    const auto onset = numberIn(table, row, "onset_s", 0, "onset_s must be a time from 0 on");
    if (!onset) return onset.error();
    const auto length = numberIn(table, row, "dur_s", 1e-6, "dur_s must be a length above 0");
    if (!length) return length.error();
    const auto midi = table.number(row, "midi");
    if (!midi) return midi.error();
    if (*midi != std::round(*midi) || *midi < 0 || *midi > 127)
        return table.errorAt(row, "midi must be a whole number from 0 to 127");
    return Claim{{Seconds(*onset), Seconds(*onset + *length)}, static_cast<int>(*midi)};
}

Result<Range<Seconds>> spanIn(const TabTable& table, std::size_t row) {
    const auto start = numberIn(table, row, "start_s", 0, "start_s must be a time from 0 on");
    if (!start) return start.error();
    const auto end = numberIn(table, row, "end_s", 0, "end_s must be a time from 0 on");
    if (!end) return end.error();
    if (*end <= *start) return table.errorAt(row, "end_s must come after start_s");
    return Range<Seconds>{Seconds(*start), Seconds(*end)};
}

template <class Item, class Read>
Result<std::vector<Item>> readRows(const std::filesystem::path& path, const std::vector<std::string>& columns,
                                   Read read) {
    const auto table = TabTable::read(path, columns);
    if (!table) return table.error();
    std::vector<Item> items;
    for (std::size_t row = 0; row < table->rowCount(); ++row) {
        const auto item = read(*table, row);
        if (!item) return item.error();
        items.push_back(*item);
    }
    return items;
}

} // namespace

Result<std::vector<Claim>> readClaims(const std::filesystem::path& path) {
    return readRows<Claim>(path, {"onset_s", "dur_s", "midi"}, claimIn);
}

Result<std::vector<Range<Seconds>>> readSpans(const std::filesystem::path& path) {
    return readRows<Range<Seconds>>(path, {"start_s", "end_s"}, spanIn);
}

} // namespace earwright::batch
