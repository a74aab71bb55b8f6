// SPDX-License-Identifier: MIT
#include "zone/fuzzy.hpp"

#include "base/random.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <utility>

namespace quartercut::zone_room {

namespace {

constexpr double worthwhile_gain = 0.05; ///< of explained variance, for another class

double squared_distance(const NumberTable& a, std::size_t row_a, const NumberTable& b, std::size_t row_b) {
    double sum = 0.0;
    for (std::size_t c = 0; c < a.columns; ++c) {
        const double step = a.at(row_a, c) - b.at(row_b, c);
        sum += step * step;
    }
    return sum;
}

/// u_ik = 1 / sum_j (d_ik / d_jk)^(2 / (exponent - 1)); a row that lies on a centre belongs to it alone.
NumberTable memberships_of(const NumberTable& data, const NumberTable& centres, double exponent) {
    const std::size_t classes = centres.rows();
    NumberTable u{classes, std::vector<double>(data.rows() * classes)};
    std::vector<double> worth(classes);
    for (std::size_t row = 0; row < data.rows(); ++row) {
        double nearest = std::numeric_limits<double>::infinity();
        for (std::size_t k = 0; k < classes; ++k)
            nearest = std::min(nearest, worth[k] = squared_distance(data, row, centres, k));
        double sum = 0.0;
        for (double& each : worth) {
            const bool on_centre = !(nearest > 0.0);
            each = on_centre ? (each > 0.0 ? 0.0 : 1.0) : std::pow(nearest / each, 1.0 / (exponent - 1.0));
            sum += each;
        }
        for (std::size_t k = 0; k < classes; ++k)
            u.values[row * classes + k] = worth[k] / sum;
    }
    return u;
}

NumberTable centres_of(const NumberTable& data, const NumberTable& u, double exponent) {
    const std::size_t classes = u.columns;
    NumberTable centres{data.columns, std::vector<double>(classes * data.columns, 0.0)};
    std::vector<double> weight(classes, 0.0);
    for (std::size_t row = 0; row < data.rows(); ++row)
        for (std::size_t k = 0; k < classes; ++k) {
            const double w = std::pow(u.at(row, k), exponent);
            weight[k] += w;
            for (std::size_t c = 0; c < data.columns; ++c)
                centres.values[k * data.columns + c] += w * data.at(row, c);
        }
    for (std::size_t k = 0; k < classes; ++k)
        for (std::size_t c = 0; c < data.columns; ++c)
            centres.values[k * data.columns + c] /= weight[k];
    return centres;
}

double objective_of(const NumberTable& data, const NumberTable& centres, const NumberTable& u, double exponent) {
    double sum = 0.0;
    for (std::size_t row = 0; row < data.rows(); ++row)
        for (std::size_t k = 0; k < centres.rows(); ++k)
            sum += std::pow(u.at(row, k), exponent) * squared_distance(data, row, centres, k);
    return sum;
}

struct Fit {
    NumberTable centres, memberships;
    double objective = std::numeric_limits<double>::infinity();
};

Fit fit_from(const NumberTable& data, NumberTable centres, const FuzzyOptions& options) {
    Fit fit;
    for (int round = 0; round < options.most_rounds; ++round) {
        const NumberTable u = memberships_of(data, centres, options.exponent);
        NumberTable next = centres_of(data, u, options.exponent);
        double moved = 0.0;
        for (std::size_t i = 0; i < next.values.size(); ++i)
            moved = std::max(moved, std::abs(next.values[i] - centres.values[i]));
        centres = std::move(next);
        if (moved < options.tolerance) break;
    }
    fit.memberships = memberships_of(data, centres, options.exponent);
    fit.objective = objective_of(data, centres, fit.memberships, options.exponent);
    fit.centres = std::move(centres);
    return fit;
}

NumberTable rows_of(const NumberTable& data, const std::vector<std::size_t>& rows) {
    NumberTable some{data.columns, {}};
    for (const std::size_t row : rows)
        for (std::size_t c = 0; c < data.columns; ++c)
            some.values.push_back(data.at(row, c));
    return some;
}

/// Rows drawn without repeats, by the first steps of a shuffle.
std::vector<std::size_t> drawn_rows(std::size_t rows, std::size_t count, Random& random) {
    std::vector<std::size_t> all(rows);
    for (std::size_t i = 0; i < rows; ++i)
        all[i] = i;
    for (std::size_t i = 0; i < count; ++i)
        std::swap(all[i], all[i + random.below(rows - i)]);
    all.resize(count);
    return all;
}

Fit best_fit(const NumberTable& data, std::size_t classes, const FuzzyOptions& options) {
    Random random(options.seed);
    const bool thinned = data.rows() > options.most_fitted;
    const NumberTable tried =
        thinned ? rows_of(data, drawn_rows(data.rows(), options.most_fitted, random)) : NumberTable(data);
    Fit best;
    for (int start = 0; start < options.starts; ++start) {
        Fit fit = fit_from(tried, rows_of(tried, drawn_rows(tried.rows(), classes, random)), options);
        if (fit.objective < best.objective) best = std::move(fit);
    }
    return thinned ? fit_from(data, std::move(best.centres), options) : best;
}

} // namespace

std::vector<std::size_t> likeliest(const NumberTable& memberships) {
    std::vector<std::size_t> of_row(memberships.rows(), 0);
    for (std::size_t row = 0; row < of_row.size(); ++row)
        for (std::size_t k = 1; k < memberships.columns; ++k)
            if (memberships.at(row, k) > memberships.at(row, of_row[row])) of_row[row] = k;
    return of_row;
}

double explained_share(const NumberTable& data, const std::vector<std::size_t>& class_of_row,
                       const std::vector<std::size_t>& columns) {
    double within = 0.0, in_all = 0.0;
    const std::size_t classes = 1 + *std::max_element(class_of_row.begin(), class_of_row.end());
    for (const std::size_t c : columns) {
        std::vector<double> sum(classes, 0.0), count(classes, 0.0);
        double total = 0.0;
        for (std::size_t row = 0; row < data.rows(); ++row) {
            sum[class_of_row[row]] += data.at(row, c);
            count[class_of_row[row]] += 1.0;
            total += data.at(row, c);
        }
        const double mean = total / static_cast<double>(data.rows());
        for (std::size_t row = 0; row < data.rows(); ++row) {
            const std::size_t k = class_of_row[row];
            within += std::pow(data.at(row, c) - sum[k] / count[k], 2);
            in_all += std::pow(data.at(row, c) - mean, 2);
        }
    }
    return in_all > 0.0 ? 1.0 - within / in_all : 0.0;
}

FuzzyClasses fuzzy_classes(const NumberTable& data, std::size_t classes, const FuzzyOptions& options) {
    Fit fit = best_fit(data, classes, options);
    FuzzyClasses out;
    out.classes = classes;
    out.objective = fit.objective;
    for (const double u : fit.memberships.values) {
        out.partition_coefficient += u * u;
        if (u > 0.0) out.entropy -= u * std::log(u);
    }
    const auto n = static_cast<double>(data.rows()), k = static_cast<double>(classes);
    out.partition_coefficient /= n;
    out.entropy /= n;
    out.fpi = 1.0 - (k * out.partition_coefficient - 1.0) / (k - 1.0);
    out.nce = out.entropy / (1.0 - k / n);
    std::vector<std::size_t> columns(data.columns);
    for (std::size_t c = 0; c < columns.size(); ++c)
        columns[c] = c;
    out.explained = explained_share(data, likeliest(fit.memberships), columns);
    out.centres = std::move(fit.centres);
    out.memberships = std::move(fit.memberships);
    return out;
}

std::size_t choose_classes(const std::vector<FuzzyClasses>& tries) {
    const auto smallest = [&](double FuzzyClasses::*index) {
        return std::min_element(tries.begin(), tries.end(),
                                [&](const auto& a, const auto& b) { return a.*index < b.*index; })
            ->classes;
    };
    const std::size_t by_fpi = smallest(&FuzzyClasses::fpi), by_nce = smallest(&FuzzyClasses::nce);
    if (by_fpi == by_nce) return by_fpi;
    for (std::size_t i = 0; i + 1 < tries.size(); ++i)
        if (tries[i + 1].explained - tries[i].explained < worthwhile_gain) return tries[i].classes;
    return tries.back().classes;
}

} // namespace quartercut::zone_room
