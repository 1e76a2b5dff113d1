// Tables as scripts exchange them: tab-separated text under a header line.
#pragma once

#include "core/result/Result.h"

#include <filesystem>
#include <string>
#include <string_view>
#include <vector>

namespace earwright {

/// A table of text cells with named columns. Column order in the file does not matter; unknown columns are
/// kept. Line ends may be LF or CR LF; empty lines are skipped; a byte-order mark is ignored.
class TabTable {
public:
    /// Errors: NotFound, Unreadable; Malformed where a required column is missing, named twice, or a row has
    /// more or fewer cells than the header; each names the file and the line.
    static Result<TabTable> read(const std::filesystem::path& path, const std::vector<std::string>& required);
    /// The same from text; `name` stands for the file in messages.
    static Result<TabTable> parse(std::string_view text, const std::string& name,
                                  const std::vector<std::string>& required);

    std::size_t rowCount() const { return rows.size(); }
    /// Requires: row < rowCount(), the column was required or is present.
    const std::string& text(std::size_t row, std::string_view column) const;
    /// A finite decimal number, with a point whatever the locale. Error: Malformed, with file and line.
    Result<double> number(std::size_t row, std::string_view column) const;
    /// A message about a row, with file and line.
    Error errorAt(std::size_t row, const std::string& reason) const;

private:
    struct Row {
        std::size_t line;
        std::vector<std::string> cells;
    };
    std::size_t columnIndex(std::string_view column) const;

    std::string name;
    std::vector<std::string> header;
    std::vector<Row> rows;
};

} // namespace earwright
