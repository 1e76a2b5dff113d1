#include "core/engraving/Columns.h"

#include <algorithm>
#include <cmath>

namespace earwright {

namespace {

constexpr double exponent = 0.6;
/// Least room between what two columns hold, by row.
constexpr std::array<double, columnRows> gaps{0.4, 1.1, 0.7, 0.3, 0.5};
constexpr double widestQuarter = 400;

/// How far each column's spring pushes where a quarter has one staff space.
std::vector<double> springsOf(const std::vector<Column>& columns) {
    std::vector<double> springs;
    springs.reserve(columns.size());
    for (const Column& column : columns)
        springs.push_back(std::pow(column.quarters, exponent));
    return springs;
}

/// Puts columns one behind the other.
class Spreader {
public:
    Spreader(double quarterSpaces, const std::vector<Column>& toSpread, const std::vector<double>& itsSprings)
        : room(quarterSpaces), columns(toSpread), springs(itsSprings) {
        places.reserve(columns.size());
    }

    std::vector<double> spread() {
        for (std::size_t i = 0; i < columns.size(); ++i)
            place(i);
        return std::move(places);
    }

private:
    void place(std::size_t index) {
        const Column& column = columns[index];
        double x = 0;
        if (index > 0) x = places.back() + std::max(room * springs[index - 1], column.leastGap);
        std::optional<std::size_t> pushedBy;
        double least = x;
        for (std::size_t row = 0; row < columnRows; ++row) {
            if (!column.rows[row]) continue;
            if (index == 0) least = std::max(least, column.rows[row]->left);
            if (!last[row] || needed(row, column) <= least) continue;
            least = needed(row, column);
            pushedBy = last[row];
        }
        places.push_back(least);
        if (pushedBy) {
            // What those between need of it themselves; only the rest is shared among them.
            double near = x;
            for (std::size_t row = 0; row < columnRows; ++row)
                if (column.rows[row] && last[row] && *last[row] > *pushedBy)
                    near = std::max(near, needed(row, column));
            shareOut(*pushedBy, index, near, least - near);
        }
        for (std::size_t row = 0; row < columnRows; ++row)
            if (column.rows[row]) last[row] = index;
    }

    /// The place from which a column clears the last one of a row.
    double needed(std::size_t row, const Column& column) const {
        return places[*last[row]] + columns[*last[row]].rows[row]->right + gaps[row] + column.rows[row]->left;
    }

    /// What pushes a column away from one before the last gives room to those between as well, or a long
    /// chord symbol would leave a hole before the next. They move less the nearer they are to the first, so
    /// none comes closer to its neighbours.
    void shareOut(std::size_t first, std::size_t pushed, double x, double by) {
        const double span = x - places[first];
        for (std::size_t between = first + 1; between < pushed && span > 0; ++between)
            places[between] += by * (places[between] - places[first]) / span;
    }

    double room;
    const std::vector<Column>& columns;
    const std::vector<double>& springs;
    std::vector<double> places;
    /// The last column that holds something in a row.
    std::array<std::optional<std::size_t>, columnRows> last;
};

} // namespace

std::vector<double> spreadWith(double quarterSpaces, const std::vector<Column>& columns) {
    return Spreader(quarterSpaces, columns, springsOf(columns)).spread();
}

double quarterSpacesFor(double width, const std::vector<Column>& columns) {
    double low = 0;
    double high = widestQuarter;
    const std::vector<double> springs = springsOf(columns);
    for (int step = 0; step < 60; ++step) {
        const double middle = (low + high) / 2;
        (Spreader(middle, columns, springs).spread().back() < width ? low : high) = middle;
    }
    return low;
}

std::vector<double> spreadOver(double width, const std::vector<Column>& columns) {
    if (columns.empty()) return {};
    std::vector<double> places = spreadWith(quarterSpacesFor(width, columns), columns);
    if (places.back() > 0)
        for (double& place : places)
            place *= width / places.back();
    return places;
}

} // namespace earwright
