#include "core/engraving/Columns.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace earwright {

namespace {

constexpr double exponent = 0.6;
/// Least room between what two columns hold, by row.
constexpr std::array<double, columnRows> gaps{0.4, 1.1, 0.7, 0.3, 0.5};
constexpr double widestQuarter = 400;

} // namespace

std::vector<double> spreadWith(double quarterSpaces, const std::vector<Column>& columns) {
    std::vector<double> places;
    std::array<double, columnRows> rightEdges;
    rightEdges.fill(-std::numeric_limits<double>::infinity());
    double x = 0;
    for (std::size_t i = 0; i < columns.size(); ++i) {
        const Column& column = columns[i];
        if (i > 0)
            x += std::max(quarterSpaces * std::pow(columns[i - 1].quarters, exponent), column.leastGap);
        for (std::size_t row = 0; row < columnRows; ++row) {
            if (!column.rows[row]) continue;
            if (i == 0) x = std::max(x, column.rows[row]->left);
            x = std::max(x, rightEdges[row] + gaps[row] + column.rows[row]->left);
        }
        for (std::size_t row = 0; row < columnRows; ++row)
            if (column.rows[row]) rightEdges[row] = x + column.rows[row]->right;
        places.push_back(x);
    }
    return places;
}

double quarterSpacesFor(double width, const std::vector<Column>& columns) {
    double low = 0;
    double high = widestQuarter;
    for (int step = 0; step < 60; ++step) {
        const double middle = (low + high) / 2;
        (spreadWith(middle, columns).back() < width ? low : high) = middle;
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
