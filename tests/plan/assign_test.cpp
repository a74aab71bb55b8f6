// SPDX-License-Identifier: MIT
// The optimiser and the choice of trial fields against every possibility tried.
#include "plan/assign.hpp"
#include "plan/trial_set.hpp"

#include "base/random.hpp"
#include "plan/chances.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <initializer_list>
#include <optional>

namespace quartercut::planning {
namespace {

AssignProblem random_problem(Random& random) {
    AssignProblem p;
    const std::size_t fields = 1 + random.below(7), methods = 2 + random.below(2);
    for (std::size_t f = 0; f < fields; ++f) {
        p.area_m2.push_back(3e5 + 5e5 * random.uniform());
        p.fixed.emplace_back();
        p.value.emplace_back();
        for (std::size_t m = 0; m < methods; ++m)
            p.value.back().push_back(1e5 * random.normal());
        if (random.below(5) == 0) {
            p.fixed.back().assign(methods, 0.0);
            if (random.below(2) == 0)
                p.fixed.back()[0] = 1.0;
            else
                p.fixed.back()[0] = p.fixed.back()[1] = 0.5; // a trial field
        }
    }
    for (std::size_t m = 0; m < methods; ++m) {
        p.share_low.push_back(random.below(2) == 0 ? 0.0 : 0.3 * random.uniform());
        p.share_high.push_back(random.below(2) == 0 ? 1.0 : 0.5 + 0.5 * random.uniform());
    }
    if (random.below(2) == 0) {
        MachineDays machine{"combine", {}, 2.0 + static_cast<double>(fields) * random.uniform()};
        for (std::size_t f = 0; f < fields; ++f) {
            machine.days.emplace_back();
            for (std::size_t m = 0; m < methods; ++m)
                machine.days.back().push_back(0.5 + random.uniform());
        }
        p.machines.push_back(machine);
    }
    return p;
}

/// Best value over every way of cutting every free field.
std::optional<double> by_trying_all(const AssignProblem& p) {
    std::optional<double> best;
    std::vector<std::size_t> way(p.fields(), 0);
    for (;;) {
        std::vector<std::vector<double>> share(p.fields(), std::vector<double>(p.methods(), 0.0));
        for (std::size_t f = 0; f < p.fields(); ++f) {
            if (p.fixed[f].empty())
                share[f][way[f]] = 1.0;
            else
                share[f] = p.fixed[f];
        }
        if (keeps_limits(p, share)) best = std::max(best.value_or(-1e300), plan_value(p, share));
        std::size_t f = 0;
        while (f < p.fields() && ++way[f] == p.methods())
            way[f++] = 0;
        if (f == p.fields()) return best;
    }
}

TEST(Assign, IsAsGoodAsTryingEveryPlan) {
    Random random(8);
    int feasible = 0;
    for (int i = 0; i < 200; ++i) {
        const AssignProblem problem = random_problem(random);
        const auto best = by_trying_all(problem);
        const Assignment found = assign(problem);
        ASSERT_EQ(found.feasible, best.has_value()) << "problem " << i;
        if (!best) continue;
        ++feasible;
        EXPECT_NEAR(found.value, *best, 1e-6 * (1.0 + std::abs(*best))) << "problem " << i;
    }
    EXPECT_GT(feasible, 50);
    EXPECT_LT(feasible, 200); // some cannot be met, and both say so
}

/// The digits of `number` in mixed bases pick one of each list of choices in turn.
class Digits {
public:
    explicit Digits(std::size_t number) : left_(number) {}
    double pick(std::initializer_list<double> choices) {
        const double chosen = choices.begin()[left_ % choices.size()];
        left_ /= choices.size();
        return chosen;
    }
    [[nodiscard]] bool used_up() const { return left_ == 0; }

private:
    std::size_t left_;
};

/// Areas that make shares meet their bounds exactly, values with ties and losses, each field fixed or free.
AssignProblem counted_problem(std::size_t fields, std::size_t methods, Digits& digits) {
    AssignProblem p;
    const double areas[] = {40.0, 40.0, 80.0, 160.0};
    for (std::size_t f = 0; f < fields; ++f) {
        p.area_m2.push_back(areas[f]);
        p.value.push_back({0.0, digits.pick({-30.0, 0.0, 50.0})});
        if (methods == 3) p.value.back().push_back(f % 2 == 0 ? 20.0 : -10.0);
        p.fixed.emplace_back();
    }
    if (digits.pick({0.0, 1.0}) > 0.0) {
        p.fixed.front().assign(methods, 0.0);
        p.fixed.front()[0] = p.fixed.front()[1] = 0.5; // a trial field
    }
    p.share_low.assign(methods, 0.0);
    p.share_high.assign(methods, 1.0);
    p.share_low[1] = digits.pick({0.0, 0.5});
    p.share_high[1] = digits.pick({0.5, 1.0});
    const double days = digits.pick({0.0, 1.5, 100.0});
    MachineDays combine{"combine", {}, days};
    for (std::size_t f = 0; f < fields; ++f) {
        combine.days.push_back({areas[f] / 160.0, areas[f] / 80.0});
        if (methods == 3) combine.days.back().push_back(areas[f] / 120.0);
    }
    p.machines.push_back(combine);
    return p;
}

// No draw, no seed: every value, trial field, pair of share limits and number of machine days, for one to four fields
// and two or three methods.
TEST(Assign, IsAsGoodAsTryingEveryPlanInEverySmallCase) {
    std::size_t cases = 0, feasible = 0;
    for (std::size_t fields = 1; fields <= 4; ++fields)
        for (std::size_t methods = 2; methods <= 3; ++methods)
            for (std::size_t number = 0;; ++number) {
                Digits digits(number);
                const AssignProblem problem = counted_problem(fields, methods, digits);
                if (!digits.used_up()) break;
                const auto best = by_trying_all(problem);
                const Assignment found = assign(problem);
                ++cases;
                feasible += best ? 1U : 0U;
                ASSERT_EQ(found.feasible, best.has_value()) << fields << " fields, " << methods << ", " << number;
                if (!best) continue;
                ASSERT_NEAR(found.value, *best, 1e-7) << fields << " fields, " << methods << ", " << number;
                ASSERT_TRUE(keeps_limits(problem, found.share));
            }
    EXPECT_EQ(cases, 2U * 24U * (3U + 9U + 27U + 81U));
    EXPECT_GT(feasible, cases / 10);
    EXPECT_LT(feasible, cases);
}

// Three fields of 60, 40 and 100 acres; standing pays 5, 3 and 2 an acre and may be half of the land at most: the two
// small ones (exactly half) are worth 420, the large one 200, 60 alone 300.
TEST(Assign, FillsAShareByHand) {
    AssignProblem p;
    p.area_m2 = {60.0, 40.0, 100.0};
    p.value = {{0.0, 300.0}, {0.0, 120.0}, {0.0, 200.0}};
    p.fixed = {{}, {}, {}};
    p.share_low = {0.0, 0.0};
    p.share_high = {1.0, 0.5};
    const Assignment found = assign(p);
    ASSERT_TRUE(found.feasible);
    EXPECT_NEAR(found.value, 420.0, 1e-9);
    EXPECT_EQ(found.share[2][0], 1.0);
    p.share_high[1] = 0.45;
    EXPECT_NEAR(assign(p).value, 300.0, 1e-9);
}

TrialWorth worth(double cost) { return {500.0, 3000.0, 60000.0, 0.05, 0.01, 800.0, 1.0, cost}; }

TEST(TrialSet, IsTheBestOfAllSets) {
    Random random(11);
    for (int i = 0; i < 20; ++i) {
        std::vector<double> se;
        for (int f = 0; f < 8; ++f)
            se.push_back(0.02 + 0.2 * random.uniform());
        const TrialWorth w = worth(5000.0 + 40000.0 * random.uniform());
        const TrialSet set = pick_trials(w, se);
        EXPECT_TRUE(set.checked_all);
        double most = 0.0;
        for (unsigned mask = 0; mask < 256; ++mask) {
            std::vector<double> some;
            for (unsigned f = 0; f < 8; ++f)
                if ((mask >> f & 1U) != 0) some.push_back(se[f]);
            most = std::max(most, value_of_trials(w, some) - static_cast<double>(some.size()) * w.cost_cents);
        }
        EXPECT_NEAR(set.value_cents - static_cast<double>(set.fields.size()) * w.cost_cents, most, 0.51);
    }
}

TEST(TrialSet, IsEmptyWhenTrialsCostMoreThanTheyTeach) {
    EXPECT_TRUE(pick_trials(worth(1e9), {0.05, 0.05}).fields.empty());
    EXPECT_EQ(pick_trials(worth(0.0), {0.05, 0.05, 0.05}).fields.size(), 3U);
}

// The whole chain played out: draw the farm's mean, each field's own, each trial's error, decide, count.
TEST(TrialSet, ValueAgreesWithMonteCarlo) {
    const TrialWorth w = worth(0.0);
    const std::vector<double> se{0.04, 0.09, 0.06};
    Random random(3);
    double sum = 0.0, squares = 0.0;
    const int draws = 200000;
    for (int i = 0; i < draws; ++i) {
        const double truth = w.mean_cents_ha + w.sd_cents_ha * random.normal(); // cents/ha
        const double shared = w.shared_t_ha * random.normal();
        double weighted = 0.0, weights = 0.0;
        for (const double s : se) {
            const double field = truth / w.worth_cents_t + w.spread_t_ha * random.normal();
            const double seen = field + shared + s * random.normal();
            const double weight = 1.0 / (w.spread_t_ha * w.spread_t_ha + s * s);
            weighted += weight * seen;
            weights += weight;
        }
        const double variance = std::pow(w.worth_cents_t, 2.0) * (1.0 / weights + w.shared_t_ha * w.shared_t_ha);
        const double k = w.sd_cents_ha * w.sd_cents_ha / (w.sd_cents_ha * w.sd_cents_ha + variance);
        const double posterior = w.mean_cents_ha + k * (w.worth_cents_t * weighted / weights - w.mean_cents_ha);
        const double gain = (posterior > 0.0 ? truth : 0.0) - (w.mean_cents_ha > 0.0 ? truth : 0.0);
        sum += gain;
        squares += gain * gain;
    }
    const double average = sum / draws, error = std::sqrt((squares / draws - average * average) / draws);
    EXPECT_NEAR(average * w.area_ha, value_of_trials(w, se), 4.0 * error * w.area_ha);
}

} // namespace
} // namespace quartercut::planning
