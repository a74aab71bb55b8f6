// SPDX-License-Identifier: MIT
#include "plan/trial_set.hpp"

#include "plan/chances.hpp"

#include <algorithm>
#include <cmath>

namespace quartercut::planning {
namespace {

constexpr std::size_t most_checked = 15; // 2^15 sets are looked through at once

std::vector<double> picked(const std::vector<double>& se, const std::vector<std::size_t>& fields) {
    std::vector<double> out;
    for (const std::size_t f : fields)
        out.push_back(se[f]);
    return out;
}

double net_of(const TrialWorth& worth, const std::vector<double>& se) {
    return value_of_trials(worth, se) - static_cast<double>(se.size()) * worth.cost_cents;
}

std::vector<std::size_t> greedy(const TrialWorth& worth, const std::vector<double>& se) {
    std::vector<std::size_t> taken;
    double now = 0.0;
    while (taken.size() < se.size()) {
        double best = now;
        std::size_t next = se.size();
        for (std::size_t f = 0; f < se.size(); ++f) {
            if (std::find(taken.begin(), taken.end(), f) != taken.end()) continue;
            std::vector<std::size_t> with = taken;
            with.push_back(f);
            const double value = net_of(worth, picked(se, with));
            if (value > best) best = value, next = f;
        }
        if (next == se.size()) break;
        taken.push_back(next);
        now = best;
    }
    return taken;
}

std::vector<std::size_t> best_of_all(const TrialWorth& worth, const std::vector<double>& se) {
    std::vector<std::size_t> best;
    double most = 0.0;
    for (std::size_t set = 1; set < (std::size_t{1} << se.size()); ++set) {
        std::vector<std::size_t> fields;
        for (std::size_t f = 0; f < se.size(); ++f)
            if ((set >> f & 1U) != 0) fields.push_back(f);
        const double value = net_of(worth, picked(se, fields));
        if (value > most) most = value, best = fields;
    }
    return best;
}

} // namespace

double value_of_trials(const TrialWorth& worth, const std::vector<double>& se_t_ha) {
    if (se_t_ha.empty()) return 0.0;
    double information = 0.0;
    for (const double se : se_t_ha)
        information += 1.0 / (worth.spread_t_ha * worth.spread_t_ha + se * se);
    const double error_t_ha = std::sqrt(1.0 / information + worth.shared_t_ha * worth.shared_t_ha);
    return trial_value(worth.mean_cents_ha, worth.sd_cents_ha, worth.worth_cents_t * error_t_ha) * worth.area_ha *
           worth.years;
}

TrialSet pick_trials(const TrialWorth& worth, const std::vector<double>& se_t_ha) {
    TrialSet out;
    out.fields = greedy(worth, se_t_ha);
    if (se_t_ha.size() <= most_checked) {
        out.checked_all = true;
        const std::vector<std::size_t> best = best_of_all(worth, se_t_ha);
        const double gained = net_of(worth, picked(se_t_ha, best)) - net_of(worth, picked(se_t_ha, out.fields));
        if (gained > 0.5) { // more than half a cent
            out.greedy_was_best = false;
            out.fields = best;
        }
    }
    out.value_cents = value_of_trials(worth, picked(se_t_ha, out.fields));
    return out;
}

} // namespace quartercut::planning
