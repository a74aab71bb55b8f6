// SPDX-License-Identifier: MIT
// Several machines in one field: where their passes run side by side in the same method, the crop is the same and the
// difference is the monitors'. The pass pair is the unit, as neighbouring records share their error.
#include "clean/calibrate.hpp"
#include "clean/neighbours.hpp"

#include <algorithm>
#include <map>
#include <tuple>

namespace quartercut::cleaning {
namespace {

constexpr int fewest_pass_pairs = 3;
constexpr double fewest_records = 5.0;

struct PairSums {
    double mass = 0.0, area = 0.0, other_mass = 0.0, other_area = 0.0, records = 0.0;
};

/// method, machine, other machine, field, pass, other pass; machine < other.
using PassPairKey = std::tuple<int, int, int, std::size_t, int, int>;

void add_pairs(std::map<PassPairKey, PairSums>& sums, const FieldWork& work, std::size_t f) {
    const Records& r = work.records();
    for (std::size_t i = 0; i < work.size(); ++i) {
        if (!work.kept(i) || work.out->pass[i] < 0 || work.out->edge[i]) continue;
        for (const std::int32_t beside : {work.left[i], work.right[i]}) {
            if (beside < 0 || !work.kept(at(beside)) || work.out->edge[at(beside)]) continue;
            const std::size_t j = at(beside);
            if (r.machine[i] >= r.machine[j] || r.method[i] != r.method[j] || r.area[i] != r.area[j]) continue;
            PairSums& sum = sums[{r.method[i], r.machine[i], r.machine[j], f, work.out->pass[i], work.out->pass[j]}];
            sum.mass += work.out->mass_basis_kg[i];
            sum.area += work.out->area_m2[i];
            sum.other_mass += work.out->mass_basis_kg[j];
            sum.other_area += work.out->area_m2[j];
            sum.records += 1.0;
        }
    }
}

/// Small symmetric system by elimination with pivots; the matrix is regular by construction.
std::vector<double> solve(std::vector<std::vector<double>> a, std::vector<double> b) {
    const std::size_t n = b.size();
    for (std::size_t k = 0; k < n; ++k) {
        std::size_t pivot = k;
        for (std::size_t row = k + 1; row < n; ++row)
            if (std::abs(a[row][k]) > std::abs(a[pivot][k])) pivot = row;
        std::swap(a[k], a[pivot]);
        std::swap(b[k], b[pivot]);
        for (std::size_t row = k + 1; row < n; ++row) {
            const double share = a[row][k] / a[k][k];
            for (std::size_t column = k; column < n; ++column)
                a[row][column] -= share * a[k][column];
            b[row] -= share * b[k];
        }
    }
    for (std::size_t k = n; k-- > 0;) {
        for (std::size_t column = k + 1; column < n; ++column)
            b[k] -= a[k][column] * b[column];
        b[k] /= a[k][k];
    }
    return b;
}

std::vector<std::vector<int>> components(const std::vector<MachineContrast>& contrasts, int machines) {
    std::vector<int> root(at(machines));
    for (int m = 0; m < machines; ++m)
        root[at(m)] = m;
    for (const MachineContrast& c : contrasts) {
        const int from = root[at(c.other)], to = root[at(c.machine)];
        for (int& r : root)
            if (r == from) r = to;
    }
    std::vector<std::vector<int>> found;
    for (int m = 0; m < machines; ++m) {
        std::vector<int> members;
        for (int k = 0; k < machines; ++k)
            if (root[at(k)] == m) members.push_back(k);
        if (members.size() > 1) found.push_back(members);
    }
    return found;
}

/// Log levels of the monitors of one component, by least squares on the contrasts; those in `known` are held there by a
/// heavy weight. Without any the mean over grain is nought: the component's total stays what the monitors say.
std::vector<double> levels(const std::vector<int>& members, const std::vector<MachineContrast>& contrasts,
                           const std::vector<double>& known, const std::vector<double>& kg) {
    const std::size_t n = members.size();
    std::vector<std::vector<double>> a(n, std::vector<double>(n, 0.0));
    std::vector<double> b(n, 0.0);
    const auto place = [&](int machine) {
        return static_cast<std::size_t>(std::find(members.begin(), members.end(), machine) - members.begin());
    };
    for (const MachineContrast& c : contrasts) {
        const std::size_t i = place(c.machine), j = place(c.other);
        if (i == n || j == n) continue;
        const double weight = 1.0 / std::max(c.se * c.se, 1e-8);
        a[i][i] += weight, a[j][j] += weight;
        a[i][j] -= weight, a[j][i] -= weight;
        b[i] += weight * c.log_ratio, b[j] -= weight * c.log_ratio;
    }
    bool anchored = false;
    for (std::size_t k = 0; k < n; ++k) {
        if (!std::isfinite(known[k])) continue;
        anchored = true;
        a[k][k] += 1e12;
        b[k] += 1e12 * known[k];
    }
    if (!anchored) a[0][0] += 1e12;
    std::vector<double> level = solve(a, b);
    double sum = 0.0, all = 0.0;
    for (std::size_t k = 0; k < n; ++k)
        sum += kg[k] * level[k], all += kg[k];
    for (double& value : level)
        if (!anchored && all > 0.0) value -= sum / all;
    return level;
}

} // namespace

std::vector<MachineContrast> machine_contrasts(const std::vector<FieldWork>& works, const Setting& setting) {
    if (setting.input->machines.size() < 2) return {};
    std::map<PassPairKey, PairSums> sums;
    for (std::size_t f = 0; f < works.size(); ++f)
        add_pairs(sums, works[f], f);
    std::map<std::tuple<int, int, int>, std::vector<double>> ratios;
    for (const auto& [key, sum] : sums) {
        if (sum.records < fewest_records || !(sum.mass > 0.0) || !(sum.other_mass > 0.0)) continue;
        ratios[{std::get<0>(key), std::get<1>(key), std::get<2>(key)}].push_back(
            std::log(sum.mass / sum.area) - std::log(sum.other_mass / sum.other_area));
    }
    std::vector<MachineContrast> contrasts;
    for (const auto& [key, values] : ratios) {
        const auto n = static_cast<int>(values.size());
        if (n < fewest_pass_pairs) continue;
        double mean = 0.0, squares = 0.0;
        for (const double value : values)
            mean += value / n;
        for (const double value : values)
            squares += (value - mean) * (value - mean);
        contrasts.push_back(
            {std::get<0>(key), std::get<1>(key), std::get<2>(key), mean, std::sqrt(squares / (n - 1.0) / n), n});
    }
    return contrasts;
}

void level_machines(std::vector<Calibration>& factors, const std::vector<MachineContrast>& contrasts,
                    const std::vector<double>& group_kg, const Setting& setting) {
    const auto machines = static_cast<int>(setting.input->machines.size());
    for (int method = 0; method < static_cast<int>(setting.season->methods.size()); ++method) {
        std::vector<MachineContrast> of_method;
        for (const MachineContrast& c : contrasts)
            if (c.method == method) of_method.push_back(c);
        for (const std::vector<int>& members : components(of_method, machines)) {
            std::vector<double> known, kg;
            double anchor_u = 0.0;
            for (const int machine : members) {
                const Calibration& c = factors[at(setting.group(machine, method))];
                // A monitor that reads high has a factor below one.
                known.push_back(c.source == "tickets" ? -std::log(c.factor) : nan_value);
                if (c.source == "tickets") anchor_u = std::max(anchor_u, c.u_rel);
                kg.push_back(group_kg[at(setting.group(machine, method))]);
            }
            double se = 0.0;
            for (const MachineContrast& c : of_method)
                se = std::max(se, c.se);
            const std::vector<double> level = levels(members, of_method, known, kg);
            for (std::size_t k = 0; k < members.size(); ++k) {
                Calibration& c = factors[at(setting.group(members[k], method))];
                if (c.source != "none") continue;
                c.factor = std::exp(-level[k]);
                c.source = "neighbouring passes";
                if (anchor_u > 0.0) c.u_rel = std::hypot(anchor_u, se);
            }
        }
    }
}

} // namespace quartercut::cleaning
