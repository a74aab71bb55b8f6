// SPDX-License-Identifier: MIT
#include "plan/assign.hpp"

#include "quartercut/error.hpp"

#include <coin/CbcModel.hpp>
#include <coin/OsiClpSolverInterface.hpp>

#include <cmath>
#include <numeric>

namespace quartercut::planning {
namespace {

constexpr double slack = 1e-7; // of a limit, for rounding

/// Rows of the program, gathered and loaded at once.
class Program {
public:
    explicit Program(const AssignProblem& problem) : problem_(problem) {
        add_one_way_each();
        add_shares();
        add_machines();
    }

    Assignment solve() {
        OsiClpSolverInterface solver;
        solver.messageHandler()->setLogLevel(0);
        load(solver);
        // Quiet, one thread, no gap: the answer is the best there is, the same on every run.
        CbcModel model(solver);
        model.setLogLevel(0);
        model.setAllowableFractionGap(0.0);
        model.branchAndBound();
        Assignment out;
        if (!model.isProvenOptimal() || model.bestSolution() == nullptr) return out;
        const double* x = model.bestSolution();
        out.share.assign(problem_.fields(), std::vector<double>(problem_.methods(), 0.0));
        for (std::size_t f = 0; f < problem_.fields(); ++f)
            for (std::size_t m = 0; m < problem_.methods(); ++m)
                out.share[f][m] = problem_.fixed[f].empty() ? std::round(x[column(f, m)]) : problem_.fixed[f][m];
        if (!keeps_limits(problem_, out.share)) throw InternalError("The optimiser's plan breaks a limit.");
        out.feasible = true;
        out.value = plan_value(problem_, out.share);
        return out;
    }

private:
    [[nodiscard]] std::size_t column(std::size_t field, std::size_t method) const {
        return field * problem_.methods() + method;
    }

    void add_row(const std::vector<double>& coefficients, double low, double high) {
        rows_.push_back(coefficients);
        low_.push_back(low);
        high_.push_back(high);
    }

    void add_one_way_each() {
        for (std::size_t f = 0; f < problem_.fields(); ++f) {
            std::vector<double> row(problem_.fields() * problem_.methods(), 0.0);
            for (std::size_t m = 0; m < problem_.methods(); ++m)
                row[column(f, m)] = 1.0;
            add_row(row, 1.0, 1.0);
        }
    }

    void add_shares() {
        const double all = std::accumulate(problem_.area_m2.begin(), problem_.area_m2.end(), 0.0);
        for (std::size_t m = 0; m < problem_.methods(); ++m) {
            std::vector<double> row(problem_.fields() * problem_.methods(), 0.0);
            for (std::size_t f = 0; f < problem_.fields(); ++f)
                row[column(f, m)] = problem_.area_m2[f] / all;
            add_row(row, problem_.share_low[m] - slack, problem_.share_high[m] + slack);
        }
    }

    void add_machines() {
        for (const MachineDays& machine : problem_.machines) {
            std::vector<double> row(problem_.fields() * problem_.methods(), 0.0);
            for (std::size_t f = 0; f < problem_.fields(); ++f)
                for (std::size_t m = 0; m < problem_.methods(); ++m)
                    row[column(f, m)] = machine.days[f][m];
            add_row(row, -COIN_DBL_MAX, machine.available + slack);
        }
    }

    void load(OsiClpSolverInterface& solver) const {
        const std::size_t columns = problem_.fields() * problem_.methods();
        CoinPackedMatrix matrix(false, 0.0, 0.0);
        matrix.setDimensions(0, static_cast<int>(columns));
        for (const std::vector<double>& row : rows_) {
            CoinPackedVector packed;
            for (std::size_t c = 0; c < columns; ++c)
                if (row[c] != 0.0) packed.insert(static_cast<int>(c), row[c]);
            matrix.appendRow(packed);
        }
        std::vector<double> low(columns, 0.0), high(columns, 1.0), objective(columns, 0.0);
        for (std::size_t c = 0; c < columns; ++c) {
            const std::size_t f = c / problem_.methods(), m = c % problem_.methods();
            objective[c] = problem_.value[f][m];
            if (!problem_.fixed[f].empty()) low[c] = high[c] = problem_.fixed[f][m];
        }
        solver.loadProblem(matrix, low.data(), high.data(), objective.data(), low_.data(), high_.data());
        solver.setObjSense(-1.0); // the most, not the least
        for (std::size_t c = 0; c < columns; ++c)
            if (problem_.fixed[c / problem_.methods()].empty()) solver.setInteger(static_cast<int>(c));
    }

    const AssignProblem& problem_;
    std::vector<std::vector<double>> rows_;
    std::vector<double> low_, high_;
};

} // namespace

bool keeps_limits(const AssignProblem& problem, const std::vector<std::vector<double>>& share) {
    const double all = std::accumulate(problem.area_m2.begin(), problem.area_m2.end(), 0.0);
    constexpr double rounding = 1e-5;
    for (std::size_t m = 0; m < problem.methods(); ++m) {
        double part = 0.0;
        for (std::size_t f = 0; f < problem.fields(); ++f)
            part += share[f][m] * problem.area_m2[f] / all;
        if (part < problem.share_low[m] - rounding || part > problem.share_high[m] + rounding) return false;
    }
    for (const MachineDays& machine : problem.machines) {
        double days = 0.0;
        for (std::size_t f = 0; f < problem.fields(); ++f)
            for (std::size_t m = 0; m < problem.methods(); ++m)
                days += share[f][m] * machine.days[f][m];
        if (days > machine.available + rounding) return false;
    }
    return true;
}

double plan_value(const AssignProblem& problem, const std::vector<std::vector<double>>& share) {
    double sum = 0.0;
    for (std::size_t f = 0; f < problem.fields(); ++f)
        for (std::size_t m = 0; m < problem.methods(); ++m)
            sum += share[f][m] * problem.value[f][m];
    return sum;
}

Assignment assign(const AssignProblem& problem) {
    if (problem.fields() == 0) return {};
    return Program(problem).solve();
}

} // namespace quartercut::planning
