#include "core/exchange/TabTable.h"

#include <algorithm>
#include <cassert>
#include <charconv>
#include <cmath>
#include <cstdint>
#include <fstream>
#include <iterator>
#include <optional>

namespace earwright {

namespace {

/// Text tables come from scripts and are small; anything larger is some other file handed over by mistake.
constexpr std::uintmax_t largestTableBytes = 64u << 20;

std::vector<std::string> split(std::string_view line) {
    std::vector<std::string> cells;
    for (;;) {
        const std::size_t tab = line.find('\t');
        cells.emplace_back(line.substr(0, tab));
        if (tab == std::string_view::npos) return cells;
        line.remove_prefix(tab + 1);
    }
}

std::string_view takeLine(std::string_view& text) {
    const std::size_t end = text.find('\n');
    std::string_view line = text.substr(0, end);
    text.remove_prefix(end == std::string_view::npos ? text.size() : end + 1);
    if (line.ends_with('\r')) line.remove_suffix(1);
    return line;
}

Error malformed(const std::string& name, std::size_t line, const std::string& reason) {
    return {ErrorKind::Malformed, name + ": " + reason + ".", "line " + std::to_string(line)};
}

std::optional<Error> checkHeader(const std::string& name, const std::vector<std::string>& header,
                                 const std::vector<std::string>& required) {
    for (const std::string& column : required) {
        const auto count = std::count(header.begin(), header.end(), column);
        if (count == 0) return malformed(name, 1, "the header line has no column “" + column + "”");
        if (count > 1) return malformed(name, 1, "the header line names the column “" + column + "” twice");
    }
    return std::nullopt;
}

} // namespace

Result<TabTable> TabTable::read(const std::filesystem::path& path, const std::vector<std::string>& required) {
    std::error_code failure;
    const auto status = std::filesystem::status(path, failure);
    if (!std::filesystem::exists(status))
        return Error{ErrorKind::NotFound, "There is no file " + path.string() + ".", ""};
    const auto size =
        std::filesystem::is_regular_file(status) ? std::filesystem::file_size(path, failure) : 0;
    if (size > largestTableBytes)
        return Error{ErrorKind::Malformed, path.string() + " is far too large to be a table of text.", ""};
    std::ifstream file(path, std::ios::binary);
    const std::string text{std::istreambuf_iterator<char>(file), std::istreambuf_iterator<char>()};
    if (!std::filesystem::is_regular_file(status) || !file)
        return Error{ErrorKind::Unreadable, path.string() + " cannot be read.", ""};
    return parse(text, path.string(), required);
}

Result<TabTable> TabTable::parse(std::string_view text, const std::string& name,
                                 const std::vector<std::string>& required) {
    constexpr std::string_view byteOrderMark = "\xEF\xBB\xBF";
    if (text.starts_with(byteOrderMark)) text.remove_prefix(byteOrderMark.size());
    TabTable table;
    table.name = name;
    table.header = split(takeLine(text));
    if (const auto error = checkHeader(name, table.header, required)) return *error;
    for (std::size_t line = 2; !text.empty(); ++line) {
        const std::string_view content = takeLine(text);
        if (content.empty()) continue;
        table.rows.push_back({line, split(content)});
        if (table.rows.back().cells.size() != table.header.size())
            return malformed(name, line,
                             "the header names " + std::to_string(table.header.size()) +
                                 " columns, but this row has " +
                                 std::to_string(table.rows.back().cells.size()));
    }
    return table;
}

std::size_t TabTable::columnIndex(std::string_view column) const {
    const auto found = std::find(header.begin(), header.end(), column);
    assert(found != header.end());
    return static_cast<std::size_t>(found - header.begin());
}

const std::string& TabTable::text(std::size_t row, std::string_view column) const {
    return rows.at(row).cells[columnIndex(column)];
}

Result<double> TabTable::number(std::size_t row, std::string_view column) const {
    const std::string& cell = text(row, column);
    double value = 0;
    const auto [end, problem] = std::from_chars(cell.data(), cell.data() + cell.size(), value);
    if (problem != std::errc() || end != cell.data() + cell.size() || !std::isfinite(value))
        return errorAt(row, "“" + cell + "” in column “" + std::string(column) + "” is not a number");
    return value;
}

Error TabTable::errorAt(std::size_t row, const std::string& reason) const {
    return malformed(name, rows.at(row).line, reason);
}

} // namespace earwright
